//! How often an honest class is troubled by the board, and how often a slip is found: by simulation, seeded.
//!
//! The limits themselves come from numpy and scipy (`vectors/flag_limits.py`); the classes here go through all of the
//! board's reasons at once, weighed on a real scale.
#![allow(
    clippy::unwrap_used,
    clippy::indexing_slicing,
    clippy::panic,
    missing_docs
)]

mod chance;

use chance::Chance;
use rust_decimal::Decimal;
use scaleside::base::kit::Kit;
use scaleside::class::flags::{Flag, Slipped, flags};
use scaleside::class::limits::limit;
use scaleside::class::result::ClassResult;
use scaleside::class::roll::RollRow;
use scaleside::class::settled::Apart;
use scaleside::code::day::Day;
use scaleside::code::fish::SpeciesCode;
use scaleside::code::letters::Code;
use scaleside::code::opening::OpenedCode;
use scaleside::code::sheet::{Sheet, Technique};
use scaleside::trade::breakdown::{DeliveryForm, Weights};
use scaleside::trade::mass::{Mass, Scale};
use scaleside::trade::money::{Currency, MassPrice, PriceUnit};

/// Honest classes of each size and kind.
const CLASSES: usize = 1_000;
/// Classes that each slip is made in.
const SLIPPED: usize = 200;

/// The limits by numpy 2.4.6 and scipy 1.17.1; between two sizes the wider of both.
#[test]
fn the_limits_are_those_of_the_simulation() {
    let text = include_str!("vectors/flag_limits.csv");
    let rows = text
        .lines()
        .filter(|line| line.starts_with(char::is_numeric));
    let rows: Vec<(usize, f64, f64)> = rows
        .map(|row| {
            let mut cells = row.split(',');
            let mut next = || cells.next().unwrap();
            (
                next().parse().unwrap(),
                next().parse().unwrap(),
                next().parse().unwrap(),
            )
        })
        .collect();
    assert!(rows.len() > 10);
    for (results, expected, largest) in &rows {
        assert!((limit(*results) - expected).abs() < 1e-9, "{results}");
        assert!(
            *expected > 0.97 * largest,
            "{results}: less than Student's t asks"
        );
    }
    for pair in rows.windows(2) {
        let between = limit(pair[0].0 + 1);
        if pair[0].0 + 1 < pair[1].0 {
            assert!((between - pair[0].1.max(pair[1].1)).abs() < 1e-9);
        }
    }
    assert!((limit(9_999) - rows.last().unwrap().1).abs() < 1e-9);
}

/// A class as it is: what its fish, hands, shops and benches differ by.
#[derive(Clone, Copy, Debug)]
struct Kind {
    name: &'static str,
    /// The spread of the share off the bone, and of what trimming keeps.
    hands: [f64; 2],
    /// The spread of weights and prices, as shares.
    fish: f64,
    prices: f64,
    /// How often a bench lacks pliers, and what a strip cut out for want of them takes.
    without_pliers: f64,
    scale: Scale,
}

const KINDS: [Kind; 4] = [
    Kind {
        name: "close together, one box",
        hands: [0.01, 0.005],
        fish: 0.05,
        prices: 0.0,
        without_pliers: 0.0,
        scale: Scale::ONE_GRAM,
    },
    Kind {
        name: "as usual",
        hands: [0.025, 0.015],
        fish: 0.12,
        prices: 0.06,
        without_pliers: 0.2,
        scale: Scale::ONE_GRAM,
    },
    Kind {
        name: "beginners, own shops",
        hands: [0.04, 0.02],
        fish: 0.2,
        prices: 0.15,
        without_pliers: 0.4,
        scale: Scale::ONE_GRAM,
    },
    Kind {
        name: "a coarse scale",
        hands: [0.025, 0.015],
        fish: 0.12,
        prices: 0.06,
        without_pliers: 0.2,
        scale: Scale::FIVE_GRAMS,
    },
];

impl Chance {
    /// One student's readings in grams, the price in cents, the portions.
    fn student(&mut self, kind: Kind) -> Student {
        let lacks = self.even() < kind.without_pliers;
        let delivered = 650.0 * (kind.fish * self.normal()).exp();
        let off_bone = delivered * (0.51 + kind.hands[0] * self.normal());
        let strip = if lacks { 0.03 } else { 0.0 };
        let keeps = (0.90 - strip + kind.hands[1] * self.normal()).min(1.0);
        Student {
            grams: [delivered, off_bone, off_bone * keeps],
            cents: 1_540.0 * (kind.prices * self.normal()).exp(),
            portions: if self.even() < 0.8 { 2 } else { 3 },
            form: DeliveryForm::GuttedScaled,
            lacks,
        }
    }
}

#[derive(Clone, Copy, Debug)]
struct Student {
    grams: [f64; 3],
    cents: f64,
    portions: u8,
    form: DeliveryForm,
    lacks: bool,
}

/// As it stands on the board.
#[allow(clippy::cast_possible_truncation)]
fn row(student: Student, scale: Scale, code: &Code) -> RollRow {
    let step = if scale == Scale::FIVE_GRAMS { 5.0 } else { 1.0 };
    let [delivered, off_bone, ready] = student
        .grams
        .map(|grams| Mass::from_mg((grams / step).round() as i64 * (step as i64) * 1_000));
    let cents = Decimal::new((student.cents.round() as i64).max(1), 2);
    let sheet = Sheet {
        fish: SpeciesCode::of_key("gilthead_bream"),
        form: student.form,
        scale,
        weights: Weights {
            delivered,
            off_bone: Some(off_bone),
            ready,
        },
        price: MassPrice::new(cents, Currency::Eur, PriceUnit::Kilo).ok(),
        portions: Some(student.portions),
        count: 1,
        missing: student.lacks.then_some(Kit::Pliers).into_iter().collect(),
        technique: Technique::Presumed {
            skin_on: true,
            pin_bones_cut: student.lacks,
        },
        day: Day::new(2_259).unwrap(),
        student: None,
        cooked: None,
    };
    let opened = OpenedCode {
        sheet,
        code: code.clone(),
        mended: Vec::new(),
        slipped: None,
    };
    RollRow {
        result: ClassResult::of(opened),
        earlier: Vec::new(),
        apart: Apart::First,
        joined: Vec::new(),
    }
}

fn any_code() -> Code {
    let first = include_str!("vectors/class_thirty.txt")
        .lines()
        .next()
        .unwrap();
    scaleside::code::opening::open(first.split_once(": ").unwrap().1)
        .unwrap()
        .code
}

#[test]
fn of_a_hundred_honest_classes_at_most_one_is_troubled() {
    let (mut chance, code) = (Chance::of(14), any_code());
    for kind in KINDS {
        for results in [5, 6, 8, 12, 24, 40] {
            let mut told: Vec<String> = Vec::new();
            for _ in 0..CLASSES {
                let rows: Vec<RollRow> = (0..results)
                    .map(|_| row(chance.student(kind), kind.scale, &code))
                    .collect();
                told.extend(
                    flags(&rows)
                        .into_iter()
                        .flatten()
                        .next()
                        .map(|flag| flag.sentence()),
                );
            }
            #[allow(clippy::cast_precision_loss)]
            let rate = 100.0 * told.len() as f64 / CLASSES as f64;
            println!(
                "{}, {results} results: {rate:.1} % of honest classes have somebody flagged",
                kind.name
            );
            // One in a hundred, and three standard errors of so many classes.
            assert!(told.len() <= CLASSES / 100 + 9, "{}: {told:?}", kind.name);
        }
    }
}

type Slip = (&'static str, fn(&mut Student), fn(&Flag) -> bool);

/// What goes wrong at a bench, and what the board should call it.
const SLIPS: [Slip; 11] = [
    (
        "one fillet weighed",
        |s| {
            s.grams[1] /= 2.0;
            s.grams[2] /= 2.0;
        },
        |f| matches!(f, Flag::OneFillet { .. }),
    ),
    (
        "weighed after the pan",
        |s| s.grams[2] *= 0.8,
        |f| matches!(f, Flag::CookedLikely { .. }),
    ),
    (
        "wet fillets",
        |s| s.grams[2] = s.grams[1] * 1.03,
        |f| matches!(f, Flag::Gained { .. }),
    ),
    (
        "ends changed over",
        |s| s.grams.swap(0, 2),
        |f| matches!(f, Flag::Swapped { .. }),
    ),
    (
        "a figure of ready lost",
        |s| s.grams[2] = (s.grams[2] / 10.0).floor(),
        |f| matches!(f, Flag::Implausible(_)),
    ),
    (
        "price ten times",
        |s| s.cents *= 10.0,
        |f| matches!(f, Flag::PriceOff(Slipped::Ten)),
    ),
    (
        "price of a pound for a kilo",
        |s| s.cents *= 0.4536,
        |f| matches!(f, Flag::PriceOff(Slipped::KiloForPound)),
    ),
    (
        "portions times ten",
        |s| s.portions *= 10,
        |f| matches!(f, Flag::PortionsOff { .. }),
    ),
    (
        "ounces as grams",
        |s| s.grams = s.grams.map(|g| g / 28.349_523),
        |f| {
            matches!(
                f,
                Flag::SizeOff {
                    slip: Some(Slipped::Ounces),
                    ..
                }
            )
        },
    ),
    (
        "pounds as kilos",
        |s| s.grams = s.grams.map(|g| g * 2.204_62),
        |f| matches!(f, Flag::SizeOff { .. }),
    ),
    (
        "another form chosen",
        |s| s.form = DeliveryForm::Whole,
        |f| matches!(f, Flag::FormOff(_)),
    ),
];

#[test]
fn the_usual_slips_are_found_and_called_by_their_name() {
    let (mut chance, code) = (Chance::of(15), any_code());
    let kind = KINDS[1];
    for (name, slip, called) in SLIPS {
        let mut line = format!("{name}:");
        for results in [5, 8, 24] {
            let (mut found, mut named) = (0, 0);
            for _ in 0..SLIPPED {
                let mut students: Vec<Student> =
                    (0..results).map(|_| chance.student(kind)).collect();
                slip(&mut students[0]);
                let rows: Vec<RollRow> = students
                    .iter()
                    .map(|one| row(*one, kind.scale, &code))
                    .collect();
                let own = &flags(&rows)[0];
                found += usize::from(!own.is_empty());
                named += usize::from(own.iter().any(called));
            }
            line.push_str(&format!(
                " of {results} found {} %, named {} %;",
                found * 100 / SLIPPED,
                named * 100 / SLIPPED
            ));
            // What has a size of its own is found in a class of any size; the rest in a large one.
            let by_size = !matches!(
                name,
                "price of a pound for a kilo" | "pounds as kilos" | "another form chosen"
            );
            let least = if by_size {
                80
            } else if results == 24 {
                50
            } else {
                0
            };
            assert!(named * 100 / SLIPPED >= least, "{line}");
        }
        println!("{line}");
    }
}
