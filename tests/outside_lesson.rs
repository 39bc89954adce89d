//! The tutor's lesson against programs that know nothing of it: pandas for its tables, scipy for its trends.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::indexing_slicing,
    clippy::panic,
    missing_docs
)]

use scaleside::base::filleted::FilletAnswer;
use scaleside::class::answer::{as_table, as_text};
use scaleside::class::board::Board;
use scaleside::class::cell::Separator;
use scaleside::class::class_list::letters;
use scaleside::class::lesson::{Criterion, Lesson, LessonAction, TutorSays, nicknames};
use scaleside::class::sheet_csv::sheet_csv;
use scaleside::class::standing::standing;
use scaleside::code::fish::SpeciesCode;
use scaleside::code::letters::Code;
use scaleside::code::opening::open;
use scaleside::code::sheet::{Nickname, Student, Technique};
use scaleside::trade::mass::Mass;
use scaleside::trade::trend::OwnTrend;

const THIRTY: &str = include_str!("vectors/class_thirty.txt");
const TABLES: [(Separator, &str); 2] = [
    (Separator::Comma, "gradebook_comma.csv"),
    (Separator::Semicolon, "gradebook_semicolon.csv"),
];

fn board() -> Board {
    let mut board = Board::default();
    for (line, code) in (1..).zip(THIRTY.lines()) {
        board.take(line, code.split_once(": ").unwrap().1);
    }
    for (nth, told) in TOLD.iter().enumerate() {
        board.take(31 + nth, &told_code(nth, told));
    }
    board.judge();
    board
}

/// What three more students told of the filleting, one of a flat fish.
const TOLD: [(&str, &[FilletAnswer]); 3] = [
    (
        "TOLA",
        &[
            FilletAnswer::SkinOn,
            FilletAnswer::PinBonesCut,
            FilletAnswer::StiffKnife,
        ],
    ),
    ("TOLB", &[FilletAnswer::SkinOff]),
    (
        "TOLC",
        &[FilletAnswer::TwoFillets, FilletAnswer::FlexibleKnife],
    ),
];

/// Their codes: the first result of the class once more, with other weights and their answers.
fn told_code(nth: usize, (nickname, told): &(&str, &[FilletAnswer])) -> String {
    let first = THIRTY.lines().next().unwrap().split_once(": ").unwrap().1;
    let mut sheet = open(first).unwrap().sheet;
    sheet.student = Some(Student {
        nickname: Nickname::parse(nickname).unwrap(),
        test: 1,
    });
    sheet.weights.ready = Mass::from_mg(300_000 - nth as i64 * 1_000);
    if told.contains(&FilletAnswer::TwoFillets) {
        sheet.fish = SpeciesCode::of_key("plaice");
    }
    sheet.technique = Technique::Told(told.iter().copied().collect());
    Code::of(&sheet).unwrap().to_string()
}

/// A lesson with what makes tables break: marks between, formulas, quotes, line breaks, a decimal.
fn lesson(board: &Board) -> Lesson {
    let code = |student: &str| {
        let row = board.rows().iter().find(|row| row.student() == student);
        letters(&row.unwrap().result.code)
    };
    let criterion = |id: &str, name: &str, most| {
        LessonAction::Mark(Criterion {
            id: id.into(),
            name: name.into(),
            most,
            gone: false,
        })
    };
    let points = |student: &str, id: &str, points: &str| {
        let points = TutorSays::Points(id.into(), points.into());
        LessonAction::Judge(code(student), points)
    };
    let said = |student: &str, words: &str| {
        LessonAction::Judge(code(student), TutorSays::Words(words.into()))
    };
    let actions = [
        LessonAction::Expect(nicknames("TERN, GULL wigt ZEAL").0),
        criterion("a", "Frame; clean", 10),
        criterion("b", "=Trimming, even", 5),
        criterion("c", "Taken off", 5),
        points("TERN 1", "a", "7,5"),
        points("TERN 1", "b", "4"),
        points("GULL 1", "a", "10"),
        LessonAction::Unmark("c".into()),
        said("TERN 1", "Good; \"clean\" frame,\nnext: the collar."),
        said("GULL 1", "=1+1"),
        LessonAction::Judge(code("TERN 1"), TutorSays::Whole("B+".into())),
        LessonAction::Answer(vec![code("TERN 1")]),
    ];
    let after = |lesson: Lesson, action: &LessonAction| lesson.after(action).unwrap();
    actions.iter().fold(Lesson::default(), after)
}

/// Writes the tables again: `cargo test --test outside_lesson -- --ignored`, then the script that reads them.
#[test]
#[ignore = "writes files"]
fn write_the_gradebooks() {
    let board = board();
    for (by, name) in TABLES {
        let text = sheet_csv(&board, &lesson(&board), by).unwrap();
        std::fs::write(format!("tests/vectors/{name}"), text).unwrap();
    }
}

/// What pandas 3.1.1 reads in both tables is the same, cell by cell, and what the board says: see
/// vectors/gradebook_read.py.
#[test]
fn pandas_reads_both_gradebooks_alike() {
    let board = board();
    let read = std::fs::read_to_string("tests/vectors/gradebook_read.json").unwrap();
    for (by, name) in TABLES {
        let text = sheet_csv(&board, &lesson(&board), by).unwrap();
        let kept = std::fs::read_to_string(format!("tests/vectors/{name}")).unwrap();
        assert_eq!(text, kept, "{name}: write it again");
    }
    let read: serde_json::Value = serde_json::from_str(&read).unwrap();
    let [comma, semicolon] = ["comma", "semicolon"].map(|by| read[by].as_array().unwrap());
    assert_eq!(comma.len(), 32, "30 results, and two that have not come");
    assert_eq!(comma, semicolon);
    for (row, line) in board.rows().iter().zip(comma) {
        assert_eq!(line["code"], row.result.code.to_string());
        let Ok(figures) = &row.result.figures else {
            assert!(line["yield %"].is_null());
            continue;
        };
        let shares = figures.losses.iter().map(|loss| loss.share);
        let all = std::iter::once(figures.yield_ratio).chain(shares);
        let names = ["yield %", "lost up to the bone %", "lost in trimming %"];
        for (share, name) in all.zip(names) {
            if figures.losses.len() < 2 && name != "yield %" {
                assert!(line[name].is_null(), "{name}");
                continue;
            }
            let share: f64 = (share * rust_decimal::Decimal::ONE_HUNDRED)
                .try_into()
                .unwrap();
            assert!((line[name].as_f64().unwrap() - share).abs() <= 0.005 + 1e-9);
        }
    }
    let tern = &comma[0];
    for (name, value) in [
        ("delivered g", 648.0),
        ("cost per portion", 4.9896),
        ("skin side s", 150.0),
        ("finish s", 60.0),
        ("rest s", 240.0),
        ("Frame; clean (of 10)", 7.5),
        ("'=Trimming, even (of 5)", 4.0),
        ("points", 11.5),
        ("points of", 15.0),
    ] {
        assert_eq!(tern[name].as_f64(), Some(value), "{name}");
    }
    let filleted = ["skin", "pin bones", "knife", "fillets"];
    let told =
        |line: &serde_json::Value| filleted.map(|name| line[name].as_str().map(str::to_owned));
    let some = |words: [&str; 4]| words.map(|word| (!word.is_empty()).then(|| word.to_owned()));
    // Of a code of version 1 nothing is guessed, whatever kit was missing.
    assert_eq!(told(tern), some(["not told", "not told", "not told", ""]));
    for (nickname, words) in [
        ("TOLA", ["skin on", "pin bones cut out", "stiff knife", ""]),
        ("TOLB", ["skin off", "not told", "not told", ""]),
        ("TOLC", ["not told", "", "flexible knife", "two fillets"]),
    ] {
        let line = comma.iter().find(|line| line["nickname"] == nickname);
        assert_eq!(told(line.unwrap()), some(words), "{nickname}");
    }
    assert_eq!(tern["words"], "Good; \"clean\" frame,\nnext: the collar.");
    assert_eq!(tern["mark"], "B+");
    let line = |name: &str| comma.iter().find(|line| line["nickname"] == name).unwrap();
    assert_eq!(line("GULL")["words"], "'=1+1");
    assert_eq!(line("GULL")["earlier tries"].as_f64(), Some(1.0));
    assert_eq!(line("GULL")["earlier yields"], "32.2 %");
    assert!(line("ZEAL")["code"].is_null());
}

/// Theil-Sen slopes and Kendall's exact probability by scipy 1.17.1: see vectors/trend_vectors.py.
#[test]
fn trends_agree_with_scipy() {
    let mut rows = csv::Reader::from_path("tests/vectors/trends.csv").unwrap();
    let mut seen = 0;
    for row in rows.records().map(Result::unwrap) {
        let values = row[0].split(' ').map(|value| value.parse().unwrap());
        let trend = OwnTrend::of(&values.collect::<Vec<f64>>()).unwrap();
        let [step, chance]: [f64; 2] = [1, 2].map(|nth| row[nth].parse().unwrap());
        assert!((trend.step - step).abs() < 1e-12, "{row:?}");
        assert!(
            (trend.chance - chance).abs() < 1e-9,
            "{}: {row:?}",
            trend.chance
        );
        seen += 1;
    }
    assert_eq!(seen, 27);
}

#[test]
fn who_has_not_sent_and_who_was_answered_is_known() {
    let board = board();
    let lines = standing(&board, &lesson(&board));
    let of = |name: &str| lines.iter().find(|line| line.nickname == name).unwrap();
    let missing: Vec<&str> = lines
        .iter()
        .filter(|line| line.rows.is_empty())
        .map(|line| line.nickname.as_str())
        .collect();
    assert_eq!(missing, ["WIGT", "ZEAL"]);
    assert_eq!((of("TERN").rows.len(), of("TERN").unanswered), (3, 2));
    assert_eq!((of("SWAN").rows.len(), of("SWAN").unanswered), (2, 2));
    assert!(of("GULL").is_expected && !of("SWAN").is_expected);
}

#[test]
fn all_feedback_is_one_text_or_one_table() {
    let board = board();
    let lesson = lesson(&board);
    let all: Vec<usize> = (0..board.rows().len()).collect();
    let text = as_text(&board, &lesson, &all);
    assert_eq!(text.split("\n\n").count(), 30);
    let first = text.split("\n\n").next().unwrap();
    assert!(
        first.ends_with(
            "Frame; clean: 7.5 of 10. =Trimming, even: 4 of 5. Mark: B+. Good; \"clean\" frame,\nnext: the collar."
        ),
        "{first}"
    );
    for by in Separator::ALL {
        let table = as_table(&board, &lesson, &all, by).unwrap();
        let mut read = csv::ReaderBuilder::new()
            .delimiter(if by == Separator::Comma { b',' } else { b';' })
            .from_reader(table.as_bytes());
        let lines: Vec<csv::StringRecord> = read.records().map(Result::unwrap).collect();
        assert_eq!(lines.len(), 30);
        assert_eq!(
            (&lines[0][0], &lines[0][1], &lines[0][2]),
            ("TERN", "1", first)
        );
    }
}

#[test]
fn what_can_t_be_marked_is_refused_with_a_sentence() {
    let board = board();
    let lesson = lesson(&board);
    let code = lesson.answered[0].clone();
    let points = |typed: &str| {
        lesson.after(&LessonAction::Judge(
            code.clone(),
            TutorSays::Points("a".into(), typed.into()),
        ))
    };
    for typed in ["11", "-1", "seven", "1.234"] {
        let said = points(typed).unwrap_err().to_string();
        assert_eq!(said, "Give 0 to 10 points.", "{typed}");
    }
    assert!(points(" ").unwrap().judged[0].points.len() < lesson.judged[0].points.len());
    let long = LessonAction::Judge(code.clone(), TutorSays::Whole("x".repeat(21)));
    assert!(lesson.after(&long).is_err());
    let criterion = |name: &str, most| {
        LessonAction::Mark(Criterion {
            id: "z".into(),
            name: name.into(),
            most,
            gone: false,
        })
    };
    for (name, most) in [(" ", 10), ("x", 0), ("x", 101)] {
        assert!(lesson.after(&criterion(name, most)).is_err());
    }
    // Taken off and put back, its points are there.
    let without = lesson.after(&LessonAction::Unmark("a".into())).unwrap();
    assert_eq!(without.marked().count(), 1);
    let back = lesson.criteria[0].clone();
    assert_eq!(without.after(&LessonAction::Mark(back)).unwrap(), lesson);
    assert_eq!(
        nicknames("1. Tern, 2. gull; Longname\nKITE"),
        (
            vec!["Tern".into(), "gull".into(), "KITE".into()],
            vec!["Longname".into()]
        )
    );
}
