//! A cook's tests as a table: written, opened by other programs, and brought back.
#![cfg(not(target_arch = "wasm32"))]
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::indexing_slicing,
    clippy::panic,
    missing_docs
)]

use std::io::Write;
use std::process::{Command, Stdio};

use proptest::prelude::*;
use scaleside::base::filleted::FilletAnswer;
use scaleside::base::instant::Instant;
use scaleside::base::kit::Kit;
use scaleside::class::board::Board;
use scaleside::class::cell::Separator;
use scaleside::class::lesson::Lesson;
use scaleside::class::sheet_csv::sheet_csv;
use scaleside::compare::table::write;
use scaleside::compare::taken::{FoundTests, read, sort};
use scaleside::compare::test::Test;
use scaleside::fish::demo;
use scaleside::fish::record::{Fish, Kept};
use scaleside::fish::settings::Settings;
use scaleside::fish::slip::Species;
use scaleside::fish::weighing::ScaleReading;
use scaleside::trade::breakdown::DeliveryForm;
use scaleside::trade::mass::{Mass, Unit};
use scaleside::trade::rounding::percent;

/// 2026-03-09T14:05:12.250Z.
const NOW: Instant = Instant(1_773_065_112_250);

fn weighed(typed: &str, unit: Unit) -> ScaleReading {
    ScaleReading {
        typed: typed.to_owned(),
        unit,
        taken: true,
    }
}

fn fish(id: &str, whole: &str, ready: &str, unit: Unit) -> Fish {
    let mut fish = Fish::new(id.to_owned(), NOW, &Settings::default());
    fish.slip.species = Some(Species::Listed("snapper".to_owned()));
    fish.slip.form = Some(DeliveryForm::Whole);
    fish.slip.price = "18.90".to_owned();
    fish.whole = weighed(whole, unit);
    fish.ready = weighed(ready, unit);
    fish.raw = Some(true);
    fish.cut = fish.cuts();
    fish
}

/// Everything a table carries, and what makes a table hard to carry.
fn loaded() -> Fish {
    let mut fish = fish("b2", "1 lb 6.5", "0.7", Unit::PoundOunce);
    fish.slip.species = Some(Species::Other("=SUM(A1), \"wreckfish\"".to_owned()));
    fish.slip.count = "12".to_owned();
    fish.slip.missing = [Kit::Pliers, Kit::Probe].into();
    fish.ready = weighed("9", Unit::Ounce);
    fish.off_bone = weighed("300", Unit::Gram);
    fish.portion = "5.5".to_owned();
    fish.kept = vec![Kept {
        id: "1".to_owned(),
        name: "Frame, \"head\"\nand tail".to_owned(),
        weight: "3".to_owned(),
        price: "2,00".to_owned(),
    }];
    fish.note = "+ less salt\r\n@ table 4; \u{202e}mirrored\u{202c}, “quoted”".to_owned();
    fish.test = Some(3);
    fish.filleted = [FilletAnswer::SkinOff, FilletAnswer::PinBonesLeft]
        .into_iter()
        .collect();
    fish.finished = Some(NOW.plus_secs(3_600));
    fish
}

fn brought(text: &str) -> FoundTests {
    read(text, &Settings::default(), NOW).unwrap()
}

#[test]
fn a_table_comes_back_as_it_was() {
    let kilo = fish("c3", "2.350", "1.034", Unit::Kilo);
    let all = [fish("a1", "648", "302", Unit::Gram), loaded(), kilo];
    let text = write(&all).unwrap();
    let found = brought(&text);
    assert_eq!(found.refused, []);
    assert_eq!(found.aside, [""; 0]);
    let back: Vec<Fish> = found.fish.into_iter().map(|(_, fish)| fish).collect();
    assert_eq!(back, all);
    assert_eq!(write(&back).unwrap(), text);
}

#[test]
fn the_demo_and_what_is_not_weighed_are_not_in_it() {
    let demo = demo::TESTED[0]("d".to_owned(), NOW, &Settings::default());
    let begun = Fish::new("e".to_owned(), NOW, &Settings::default());
    assert_eq!(brought(&write(&[demo, begun]).unwrap()).fish, []);
}

/// A table tells what the fish weighed: what the scale shows empty is off it, and not taken off again.
#[test]
fn a_table_is_free_of_what_the_empty_scale_shows() {
    let mut fish = fish("a1", "1500", "660+40", Unit::Gram);
    fish.slip.zero = Mass::from_mg(3_000);
    let first = Test::of(&fish, 0).unwrap();
    assert_eq!(first.breakdown.ready(), Mass::from_mg(694_000));
    let table = write([&fish]).unwrap();
    for zero in [0, 1_000].map(Mass::from_mg) {
        // What the scale of the phone that reads it shows empty is of other weights.
        let settings = Settings {
            zero,
            ..Settings::default()
        };
        let (_, back) = &read(&table, &settings, NOW).unwrap().fish[0];
        assert_eq!(back.slip.zero, Mass::ZERO);
        assert_eq!(Test::of(back, 0).unwrap().breakdown, first.breakdown);
    }
}

#[test]
fn nothing_that_is_here_is_changed() {
    let here = [fish("a1", "648", "302", Unit::Gram), loaded()];
    let mut other = here[0].clone();
    other.ready = weighed("310", Unit::Gram);
    let mut new = here[0].clone();
    new.id = "n1".to_owned();
    let mut twin = new.clone();
    twin.slip.price = "1".to_owned();
    let text = write(&[other, here[1].clone(), new.clone(), new.clone(), twin]).unwrap();
    let by_id = |id: &str| here.iter().find(|fish| fish.id == id).cloned();
    let sorted = sort(brought(&text), by_id);
    assert_eq!(sorted.new, [new]);
    let line = |nth: usize| brought(&text).fish[nth].0;
    assert_eq!(sorted.known, [line(1), line(3)]);
    let differing: Vec<usize> = sorted.differing.iter().map(|(line, _)| *line).collect();
    assert_eq!(differing, [line(0), line(4)]);
}

/// Filled in by hand in a spreadsheet set to a decimal comma, its columns in another order.
#[test]
fn a_table_written_by_hand_is_taken() {
    let text = "\u{feff}READY;delivered; Fish ;form;begun;weather;price\r\n\
                0,302 kg;648;gilthead BREAM;Gutted and scaled;2026-03-09;fine;15,40\r\n\
                ;;;;;;\r\n\
                1 lb 2 oz;2 lb;Wreckfish;whole;2026-03-10T06:00:00+01:00;;\r\n";
    let found = brought(text);
    assert_eq!(found.refused, []);
    assert_eq!(found.aside, ["weather"]);
    let lines: Vec<usize> = found.fish.iter().map(|(line, _)| *line).collect();
    assert_eq!(lines, [2, 4]);
    let bream = &found.fish[0].1;
    assert_eq!(
        bream.slip.species,
        Some(Species::Listed("gilthead_bream".into()))
    );
    let test = Test::of(bream, 0).unwrap();
    assert_eq!(percent(test.yield_ratio(), 1), "46.6 %");
    assert_eq!(test.cost_per_kilo.unwrap().show(), "€33.04");
    assert_eq!(test.day.unwrap().to_string(), "2026-03-09");
    let wreckfish = Test::of(&found.fish[1].1, 0).unwrap();
    assert_eq!(wreckfish.breakdown.delivered(), Mass::from_mg(907_185));
    assert_eq!(percent(wreckfish.yield_ratio(), 2), "56.25 %");
    // The same line is the same test when it comes again.
    assert_eq!(brought(text).fish, found.fish);
}

/// Only the four columns that are named as needed, as a sentence asks for them; signs of money; a comma for the decimals.
#[test]
fn what_people_write_is_read() {
    let four = "fish,form,delivered,ready\nCod,whole,2350,1034\n";
    let found = brought(four);
    assert_eq!(found.refused, []);
    let cod = &found.fish[0].1;
    assert_eq!((cod.begun, cod.finished), (NOW, Some(NOW)));
    // The same line on another day is the same test.
    let later = read(four, &Settings::default(), NOW.plus_secs(86_400 * 30)).unwrap();
    assert_eq!(later.fish[0].1.id, cod.id);

    let text = "fish;form;delivered;ready;begun;price\n\
                Cod;whole;2350;1034;25/2/2026;€18,90\n\
                Cod;whole;2350;1034;3/2/2026;12.50 £/lb\n\
                Cod;whole;2350;1034;9 March 2026;a lot\n\
                Cod;whole;2350;2200;9.3.2026;18,90\n";
    let found = brought(text);
    assert_eq!(found.refused, []);
    let told: Vec<String> = (found.fish.iter())
        .map(|(_, fish)| {
            let day = Test::of(fish, 0).unwrap().day.unwrap();
            let price = fish.slip.read_price().map(|price| price.show());
            format!("{day} {}", price.unwrap_or_default())
        })
        .collect();
    assert_eq!(
        told,
        [
            "2026-02-25 €18.90 per kg",
            "2026-02-03 £12.50 per lb",
            "2026-03-09 ",
            "2026-03-09 €18.90 per kg"
        ]
    );
    let odd: Vec<usize> = found.odd.iter().map(|(line, _)| *line).collect();
    assert_eq!(odd, [4, 5], "{:?}", found.odd);
    assert!(
        found.odd[0].1.contains("without a price"),
        "{:?}",
        found.odd
    );
}

#[test]
fn what_can_not_be_taken_is_said_by_line() {
    for (line, said) in [
        ("Cod,filleted,648,302,2026-03-09", "is no delivery form"),
        (
            "Cod,whole,648,302,09/03/2026",
            "“09/03/2026” may be two days: write it as 2026-03-09",
        ),
        ("Cod,whole,648,302,soon", "“soon” is no date"),
        ("Cod,whole,648,302,2026-04-01", "is still to come"),
        (
            "Cod,whole,,302,2026-03-09",
            "Under “delivered”: Type the weight",
        ),
        (
            "Cod,whole,648,much,2026-03-09",
            "Under “ready”: Type only digits",
        ),
        ("Cod,whole,648,-3,2026-03-09", "can't be below zero"),
        (
            "Cod,whole,302,648,2026-03-09",
            "weigh more than the fish they came from",
        ),
        ("Cod,whole,\"1,234\",302,2026-03-09", "between thousands"),
        (",whole,648,302,2026-03-09", "Give the fish a name"),
        ("Cod,whole,648,302,2026-03-09,0", "at least one fish"),
        (
            "Cod,whole,648,302,2026-03-09,1,tongs",
            "is not known under “missing kit”",
        ),
        ("Cod,whole,648,302,2026-03-09,1,,UPPER", "is no identity"),
        ("Cod,whole,648,302,2026-03-09,1,,,33", "number from 1 to 32"),
    ] {
        let text = format!(
            "fish,form,delivered,ready,begun,fish together,missing kit,identity,test number\n\
             Cod,whole,648,302,2026-03-09\n{line}\n"
        );
        let found = brought(&text);
        assert_eq!(found.fish.len(), 1, "{line}");
        assert_eq!(found.refused.len(), 1, "{line}");
        let (at, why) = &found.refused[0];
        assert_eq!(*at, 3, "{line}");
        assert!(why.contains(said), "{line}: {why}");
    }
    for (text, said) in [
        ("", "no table"),
        ("hello", "no column “fish”"),
        ("fish,form,ready\nCod,whole,302", "no column “delivered”"),
    ] {
        let why = read(text, &Settings::default(), NOW)
            .unwrap_err()
            .to_string();
        assert!(why.contains(said), "{text:?}: {why}");
    }
}

/// What another program makes of a table: each line as a list of cells, sent back as JSON.
fn read_by(program: &str, arguments: &[&str], text: &str) -> Vec<Vec<String>> {
    let mut reader = Command::new(program)
        .args(arguments)
        .env(
            "NODE_PATH",
            std::env::var("SCALESIDE_NPM").unwrap_or_default(),
        )
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .spawn()
        .unwrap_or_else(|why| panic!("{program} is needed: run .ci/setup ({why})"));
    reader
        .stdin
        .take()
        .unwrap()
        .write_all(text.as_bytes())
        .unwrap();
    let out = reader.wait_with_output().unwrap();
    assert!(out.status.success(), "{program}");
    serde_json::from_slice(&out.stdout).unwrap()
}

/// The `csv` module of Python's standard library, strict.
const PYTHON: &str = "import csv, io, json, sys
text = io.TextIOWrapper(sys.stdin.buffer, encoding='utf-8', newline='')
print(json.dumps(list(csv.reader(text, strict=True))))";

fn cells_of(text: &str) -> Vec<Vec<String>> {
    let mut reader = csv::ReaderBuilder::new()
        .has_headers(false)
        .from_reader(text.as_bytes());
    reader
        .records()
        .map(|line| line.unwrap().iter().map(str::to_owned).collect())
        .collect()
}

fn class_sheet() -> String {
    let mut board = Board::default();
    for (nth, line) in include_str!("vectors/class_thirty.txt").lines().enumerate() {
        let code = line.split_once(": ").map_or(line, |(_, code)| code);
        board.take(nth, code);
    }
    board.judge();
    sheet_csv(&board, &Lesson::default(), Separator::Comma).unwrap()
}

#[test]
fn python_reads_both_tables_cell_by_cell() {
    for text in [
        write(&[loaded(), fish("a1", "648", "302", Unit::Gram)]).unwrap(),
        class_sheet(),
    ] {
        let cells = read_by("python3", &["-c", PYTHON], &text);
        assert_eq!(cells, cells_of(&text));
        assert!(cells.len() >= 3);
        for cell in cells.iter().flatten() {
            let live = cell.starts_with(['=', '+', '-', '@', '\t', '\r']);
            assert!(!live, "a spreadsheet would run {cell:?}");
        }
    }
    let cells = read_by("python3", &["-c", PYTHON], &write(&[loaded()]).unwrap());
    let column = |name: &str| cells[0].iter().position(|head| head == name).unwrap();
    for (name, value) in [
        ("fish", "'=SUM(A1), \"wreckfish\""),
        ("begun", "2026-03-09T14:05:12.25Z"),
        ("delivered", "1 lb 6.5 oz"),
        ("ready g (worked out)", "255.146"),
        ("kept parts", "\"Frame, \"\"head\"\"\nand tail\",3,\"2,00\""),
        ("yield % (worked out)", "40.00"),
    ] {
        assert_eq!(cells[1][column(name)], value, "{name}");
    }
}

fn any_text() -> impl Strategy<Value = String> {
    prop_oneof![
        "[=+@'\t\r\n,;\"\u{202e}\u{2066}a-z-]{0,12}",
        any::<String>(),
    ]
}

proptest! {
    // A failing case is printed, and then belongs in a table of cases, not in a file of seeds.
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn any_text_comes_back(name in any_text(), note in any_text(), part in any_text()) {
        let mut fish = fish("a1", "648", "302", Unit::Gram);
        let name = format!("wreckfish {name}").trim().to_owned();
        prop_assume!(name.chars().count() <= 60);
        fish.slip.species = Some(Species::Other(name));
        fish.note = note;
        fish.kept = vec![Kept { id: "1".to_owned(), name: part, ..Kept::default() }];
        let text = write(std::slice::from_ref(&fish)).unwrap();
        let found = brought(&text);
        prop_assert_eq!(found.refused, []);
        prop_assert_eq!(&found.fish[0].1, &fish);
    }

    #[test]
    fn no_text_makes_the_reader_panic(text in any::<String>(), rest in "[fishormdelvyt,;\"\r\n0-9 ]{0,200}") {
        let _ = read(&text, &Settings::default(), NOW);
        let _ = read(&format!("fish,form,delivered,ready\n{rest}{text}"), &Settings::default(), NOW);
    }
}
