//! The tutor's board against numpy, scipy, and a class of thirty codes whose slips are known.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::indexing_slicing,
    clippy::panic,
    missing_docs
)]

use rust_decimal::Decimal;
use scaleside::base::kit::Kit;
use scaleside::class::feedback::feedback;
use scaleside::class::flags::{Flag, Slipped, flags};
use scaleside::class::group::{ClassSplit, Measure, groups};
use scaleside::class::result::ClassResult;
use scaleside::class::roll::{Roll, RollRow};
use scaleside::class::spread::Spread;
use scaleside::code::day::Day;
use scaleside::code::find::{Findings, find};
use scaleside::code::fish::SpeciesCode;
use scaleside::code::letters::Code;
use scaleside::code::sheet::{Cooked, Nickname, Sheet, Student, Technique};
use scaleside::trade::breakdown::{DeliveryForm, Weights};
use scaleside::trade::mass::{Mass, Scale};
use scaleside::trade::money::{Currency, MassPrice, PriceUnit};
use scaleside::trade::rounding::percent;

const THIRTY: &str = include_str!("vectors/class_thirty.txt");

/// Quantiles by numpy 2.4.6 (method "linear", type 7), median absolute deviation by scipy 1.17.1: see
/// vectors/spread_vectors.py.
#[test]
fn spreads_agree_with_numpy_and_scipy() {
    let mut rows = csv::Reader::from_path("tests/vectors/spreads.csv").unwrap();
    let mut seen = 0;
    for row in rows.records().map(Result::unwrap) {
        let values: Vec<f64> = row[0]
            .split(' ')
            .map(|value| value.parse().unwrap())
            .collect();
        let expected: Vec<f64> = row
            .iter()
            .skip(1)
            .map(|value| value.parse().unwrap())
            .collect();
        let spread = Spread::of(&values).unwrap();
        let found = [
            spread.least,
            spread.lower_quartile,
            spread.median,
            spread.upper_quartile,
            spread.most,
            spread.mean,
            spread.deviation.unwrap(),
            spread.robust_deviation,
        ];
        for (found, expected) in found.into_iter().zip(expected) {
            assert!(
                (found - expected).abs() < 1e-12,
                "{found} {expected}: {row:?}"
            );
        }
        seen += 1;
    }
    assert_eq!(seen, 27);
}

fn bream(nickname: &str, grams: [i64; 3]) -> Sheet {
    let [delivered, off_bone, ready] = grams.map(|g| Mass::from_mg(g * 1_000));
    let delivered_g = grams[0];
    let missing = if delivered_g % 2 == 0 {
        vec![Kit::Pliers, Kit::Probe]
    } else {
        vec![Kit::Probe]
    };
    Sheet {
        fish: SpeciesCode::of_key("gilthead_bream"),
        form: DeliveryForm::GuttedScaled,
        scale: Scale::ONE_GRAM,
        weights: Weights {
            delivered,
            off_bone: Some(off_bone),
            ready,
        },
        price: Some(price(1_540)),
        portions: Some(2),
        count: 1,
        technique: Technique::Presumed {
            skin_on: true,
            pin_bones_cut: missing.contains(&Kit::Pliers),
        },
        missing: missing.into_iter().collect(),
        day: Day::new(2_259).unwrap(),
        student: Some(Student {
            nickname: Nickname::parse(nickname).unwrap(),
            test: 1,
        }),
        cooked: Cooked::of(1, 150, 60, 240).ok(),
    }
}

fn price(cents: i64) -> MassPrice {
    MassPrice::new(Decimal::new(cents, 2), Currency::Eur, PriceUnit::Kilo).unwrap()
}

/// A class of 24 students, all invented: thirty codes, with a repeat, two corrections, and five slips.
fn thirty() -> String {
    let mut sheets: Vec<Sheet> = [
        ("TERN", [648, 336, 302]),
        ("GULL", [702, 366, 226]), // one digit wrong, corrected below
        ("KITE", [655, 322, 280]), // corrected below
        ("WREN", [611, 262, 233]),
        ("SWAN", [590, 279, 248]),
        ("IBIS", [734, 343, 309]),
        ("ROOK", [688, 330, 297]),
        ("LARK", [623, 307, 274]),
        ("CROW", [671, 331, 299]),
        ("DOVE", [745, 369, 334]),
        ("TEAL", [618, 311, 280]),
        ("KNOT", [706, 358, 324]),
        ("LORY", [639, 328, 297]),
        ("MYNA", [692, 359, 324]),
        ("RAIL", [577, 302, 273]),
        ("SKUA", [663, 351, 317]),
        ("RHEA", [721, 386, 348]),
        ("EMUS", [604, 328, 295]),
        ("LOON", [659, 364, 330]),
        ("HAWK", [681, 381, 350]),
        ("COOT", [310, 338, 660]), // the ends changed over
        ("RUFF", [702, 362, 268]), // ready weighed after the pan
        ("SMEW", [667, 345, 309]),
        ("SORA", [643, 335, 300]),
    ]
    .into_iter()
    .map(|(nickname, grams)| bream(nickname, grams))
    .collect();
    sheets[22].price = Some(price(15_400)); // a decimal mark slipped
    sheets[23].scale = Scale::FIVE_GRAMS; // and 643 g on it
    let other = |key: &str, form, cents, delivered: i64, ready: i64| Sheet {
        fish: SpeciesCode::of_key(key),
        form,
        weights: Weights {
            delivered: Mass::from_mg(delivered * 1_000),
            off_bone: None,
            ready: Mass::from_mg(ready * 1_000),
        },
        price: Some(price(cents)),
        cooked: None,
        ..bream("TERN", [1, 1, 1])
    };
    sheets.push(other(
        "rainbow_trout",
        DeliveryForm::Gutted,
        1_190,
        354,
        214,
    ));
    sheets.push(other("mackerel", DeliveryForm::Whole, 860, 412, 196));
    sheets.push(Sheet {
        day: Day::new(2_260).unwrap(),
        ..bream("GULL", [702, 366, 326])
    });
    sheets.push(bream("KITE", [655, 322, 290]));
    let mut second = bream("SWAN", [632, 317, 288]);
    second.student = second.student.map(|student| Student { test: 2, ..student });
    sheets.push(second);
    sheets.push(sheets[3].clone()); // sent twice
    sheets
        .iter()
        .enumerate()
        .map(|(nth, sheet)| {
            let mut code = Code::of(sheet).unwrap().to_string();
            if nth == 7 {
                code.replace_range(2..3, "V");
                code.replace_range(21..22, "M");
            }
            format!("{}: {code}\n", sheet.student.unwrap().nickname)
        })
        .collect()
}

/// Writes the class again after a change of the scenario:
/// `cargo test --test outside_class -- --ignored`.
#[test]
#[ignore = "writes a file"]
fn write_the_class_of_thirty() {
    std::fs::write("tests/vectors/class_thirty.txt", thirty()).unwrap();
}

fn roll() -> (Findings, Roll) {
    let findings = find(THIRTY);
    let roll = Roll::of(findings.found.clone());
    (findings, roll)
}

fn results(rows: &[RollRow]) -> impl Iterator<Item = &ClassResult> {
    rows.iter().map(|row| &row.result)
}

fn row<'a>(rows: &'a [RollRow], student: &str) -> (usize, &'a RollRow) {
    let named = |row: &&RollRow| row.result.student() == student;
    let (nth, row) = (0..).zip(rows).find(|(_, row)| named(row)).unwrap();
    (nth, row)
}

#[test]
fn the_thirty_codes_are_those_of_the_scenario() {
    assert_eq!(THIRTY, thirty());
    assert_eq!(THIRTY.lines().count(), 30);
}

#[test]
fn thirty_codes_make_twenty_seven_results() {
    let (findings, roll) = roll();
    assert_eq!(findings.found.len(), 30);
    assert!(findings.refused.is_empty() && findings.plain.is_empty());
    let mended: Vec<usize> = findings
        .found
        .iter()
        .filter(|found| !found.opened.mended.is_empty())
        .map(|found| found.line)
        .collect();
    assert_eq!(mended, [8]);
    assert_eq!(findings.found[7].opened.mended.len(), 2);
    assert_eq!(roll.rows().len(), 27);
    assert_eq!(roll.repeats().len(), 1);
    assert_eq!(roll.repeats()[0].line, 30);
    let corrected: Vec<String> = roll
        .rows()
        .iter()
        .filter(|row| !row.earlier.is_empty())
        .map(|row| row.result.student())
        .collect();
    assert_eq!(corrected, ["GULL 1", "KITE 1"]);
    let (_, gull) = row(roll.rows(), "GULL 1");
    assert_eq!(gull.result.sheet.weights.ready, Mass::from_mg(326_000));
}

#[test]
fn the_right_ones_are_flagged_and_no_other() {
    let (_, roll) = roll();
    let flagged: Vec<(String, Vec<Flag>)> = roll
        .rows()
        .iter()
        .zip(flags(roll.rows()))
        .filter(|(_, flags)| !flags.is_empty())
        .map(|(row, flags)| (row.result.student(), flags))
        .collect();
    let swapped = Flag::Swapped {
        yield_then: "47.0 %".into(),
    };
    let cooked = Flag::CookedLikely {
        kept: "82 %".into(),
    };
    let finer = Flag::FinerThanScale {
        weight: "643 g".into(),
        division: "5 g".into(),
    };
    assert_eq!(
        flagged,
        [
            ("COOT 1".to_owned(), vec![swapped]),
            ("RUFF 1".to_owned(), vec![cooked]),
            ("SMEW 1".to_owned(), vec![Flag::PriceOff(Slipped::Ten)]),
            ("SORA 1".to_owned(), vec![finer]),
        ]
    );
}

/// The bream without COOT, whose weights can't be: sums of the weights in `thirty`, added by a second program.
#[test]
fn the_class_is_grouped_and_pooled() {
    let (_, roll) = roll();
    let species = groups(results(roll.rows()), ClassSplit::SpeciesAndForm);
    let labels: Vec<(&str, usize)> = species
        .iter()
        .map(|group| (group.label.as_str(), group.results.len()))
        .collect();
    assert_eq!(
        labels,
        [
            ("Gilthead bream, gutted and scaled", 25),
            ("Rainbow trout, gutted", 1),
            ("Mackerel, whole", 1),
        ]
    );
    let pooled = species[0].pooled().unwrap();
    assert_eq!(pooled.fish, 24);
    let (delivered, ready) = (15_871, 7_215);
    assert_eq!(pooled.delivered, Mass::from_mg(delivered * 1_000));
    assert_eq!(pooled.ready, Mass::from_mg(ready * 1_000));
    assert_eq!(percent(pooled.yield_ratio, 2), "45.46 %");
    let kit = groups(results(roll.rows()), ClassSplit::Kit(Kit::Pliers));
    let labels: Vec<&str> = kit.iter().map(|group| group.label.as_str()).collect();
    assert_eq!(
        labels,
        [
            "with fish pliers or tweezers",
            "without fish pliers or tweezers"
        ]
    );
    let costs = species[0]
        .spread(Measure::CostPerPortion(Currency::Eur))
        .unwrap();
    assert_eq!(costs.count, 24);
    assert_eq!(
        species[0].spread(Measure::CostPerPortion(Currency::Usd)),
        None
    );
}

#[test]
fn feedback_is_a_sentence_to_send_back() {
    let (_, roll) = roll();
    let rows = roll.rows();
    let flags = flags(rows);
    let species = groups(results(rows), ClassSplit::SpeciesAndForm);
    let says = |student: &str| {
        let (nth, row) = row(rows, student);
        feedback(&row.result, &flags[nth], species[0].results.iter().copied())
    };
    assert_eq!(
        says("TERN 1"),
        "TERN 1, gilthead bream: yield 46.6 %, in the middle half of the class."
    );
    assert_eq!(
        says("COOT 1"),
        "COOT 1, gilthead bream: Two weights look changed over: the other way round they make a yield of 47.0 %."
    );
    for (student, said) in [
        ("HAWK 1", "in the highest quarter of the class"),
        ("WREN 1", "in the lowest quarter of the class"),
        ("RUFF 1", "weighed after cooking: they kept 82 %"),
        ("SMEW 1", "about ten times what the class paid"),
        ("SORA 1", "a division of 5 g can't show 643 g"),
    ] {
        assert!(says(student).contains(said), "{}", says(student));
    }
}
