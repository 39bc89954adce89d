//! Many fish together: the outlook for the next one, against printed tables, a textbook and scipy.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::indexing_slicing,
    clippy::panic,
    missing_docs
)]

mod chance;

use chance::Chance;
use scaleside::trade::outlook::{Confidence, Outlook, student_t};

fn near(found: f64, expected: f64, within: f64, what: &str) {
    assert!(
        (found - expected).abs() <= within,
        "{what}: {found} is not {expected}"
    );
}

/// Upper critical values as printed in the NIST/SEMATECH *e-Handbook of Statistical Methods*, read in a
/// copy of its table: probability of exceeding 0.10, 0.05 and 0.025.
#[test]
fn quantiles_are_those_of_the_printed_table() {
    for (freedom, printed) in [
        (1.0, [3.078, 6.314, 12.706]),
        (2.0, [1.886, 2.920, 4.303]),
        (3.0, [1.638, 2.353, 3.182]),
        (4.0, [1.533, 2.132, 2.776]),
        (5.0, [1.476, 2.015, 2.571]),
        (6.0, [1.440, 1.943, 2.447]),
        (9.0, [1.383, 1.833, 2.262]),
        (10.0, [1.372, 1.812, 2.228]),
        (20.0, [1.325, 1.725, 2.086]),
        (30.0, [1.310, 1.697, 2.042]),
        (60.0, [1.296, 1.671, 2.000]),
        (100.0, [1.290, 1.660, 1.984]),
    ] {
        for (exceeding, printed) in [0.10, 0.05, 0.025].into_iter().zip(printed) {
            let what = format!("{freedom} degrees of freedom, {exceeding}");
            near(student_t(freedom, 1.0 - exceeding), printed, 0.000_5, &what);
        }
    }
}

/// A worked example of a textbook of statistics for engineers, section 8-6, read in a copy: 22 specimens
/// with mean 13.71 and deviation 3.55 give 6.16 to 21.26 for the next one, 19 times in 20. (The title,
/// Montgomery and Runger, *Applied Statistics and Probability for Engineers*, is from memory, not verified.)
/// In hundredths, so that both ends are shares.
#[test]
fn the_next_one_is_where_a_textbook_expects_it() {
    let outlook = Outlook::of_moments(22, 0.1371, 0.0355);
    let (low, high) = outlook.between(Confidence::NineteenInTwenty);
    near(low, 0.0616, 0.000_05, "low");
    near(high, 0.2126, 0.000_05, "high");
}

/// A table of `vectors/`, with the versions it was made by on its first line.
fn rows(name: &str) -> impl Iterator<Item = csv::StringRecord> {
    let table = csv::ReaderBuilder::new()
        .comment(Some(b'#'))
        .from_path(format!("tests/vectors/{name}"))
        .unwrap();
    table.into_records().map(Result::unwrap)
}

/// Holds what an outlook tells to a row that has the share of times, both ends and the least from its column `at` on.
fn told_as(outlook: &Outlook, row: &csv::StringRecord, at: usize, within: f64) {
    let figure = |nth: usize| row[at + nth].parse::<f64>().unwrap();
    let confidence = Confidence::ALL
        .into_iter()
        .find(|confidence| confidence.share() == figure(0))
        .unwrap();
    let (low, high) = outlook.between(confidence);
    let told = [low, high, outlook.at_least(confidence)];
    for (nth, (told, what)) in (1..).zip(told.into_iter().zip(["low", "high", "at least"])) {
        near(told, figure(nth), within, what);
    }
}

fn yields(written: &str) -> Vec<f64> {
    written
        .split(' ')
        .map(|share| share.parse().unwrap())
        .collect()
}

/// Figures by scipy and numpy: see vectors/outlook_vectors.py.
#[test]
fn quantiles_and_outlooks_agree_with_scipy() {
    let (mut quantiles, mut outlooks) = (0, 0);
    for row in rows("outlooks.csv") {
        let figure = |nth: usize| row[nth].parse::<f64>().unwrap();
        if &row[0] == "t" {
            // The inverse is good to a part in 10^8 at thousands of degrees of freedom: far below a gram.
            near(
                student_t(figure(1), figure(2)) / figure(3),
                1.0,
                1e-7,
                &row[1],
            );
            quantiles += 1;
            continue;
        }
        told_as(
            &Outlook::of_yields(&yields(&row[1])).unwrap(),
            &row,
            2,
            1e-9,
        );
        outlooks += 1;
    }
    assert_eq!((quantiles, outlooks), (60, 30));
}

/// Figures by scipy and numpy: see vectors/delivery_vectors.py.
#[test]
fn what_is_told_of_another_delivery_agrees_with_scipy() {
    let mut checked = 0;
    for row in rows("deliveries.csv") {
        let deliveries: Vec<Vec<f64>> = row[0].split(';').map(yields).collect();
        let outlook = Outlook::of_deliveries(&deliveries).unwrap();
        assert_eq!(outlook.deliveries, Some(deliveries.len()));
        told_as(&outlook, &row, 1, 1e-8);
        checked += 1;
    }
    assert_eq!(checked, 36);
}

/// Figures by statsmodels, scipy and numpy: see vectors/rise_vectors.py.
#[test]
fn what_is_told_along_a_trend_agrees_with_statsmodels() {
    let (mut followed, mut silent) = (0, 0);
    for row in rows("rises.csv") {
        let deliveries: Vec<Vec<f64>> = row[0].split(';').map(yields).collect();
        let outlook = Outlook::of_trend(&deliveries);
        if &row[2] == "0" {
            assert_eq!(outlook, None, "{row:?}");
            silent += 1;
            continue;
        }
        let figure = |nth: usize| row[nth].parse::<f64>().unwrap();
        let confidence = Confidence::ALL
            .into_iter()
            .find(|sure| sure.share() == figure(1));
        let (low, high) = outlook.unwrap().between(confidence.unwrap());
        near(low, figure(3), 1e-8, &row[0]);
        near(high, figure(4), 1e-8, &row[0]);
        followed += 1;
    }
    assert_eq!((followed, silent), (36, 36));
}

impl Chance {
    /// The yields of one delivery: `alike` is the share of all variance that lies between deliveries.
    fn delivery(&mut self, fish: usize, alike: f64) -> Vec<f64> {
        let own = 0.46 + 0.03 * alike.sqrt() * self.normal();
        (0..fish)
            .map(|_| own + 0.03 * (1.0 - alike).sqrt() * self.normal())
            .collect()
    }
}

/// Draws of each kind: the share that is counted is good to about one in a hundred.
const DRAWS: usize = 2_000;

/// "9 times in 10" holds for a fish of another delivery, however alike the fish of one are. What the same fish would
/// tell if nobody knew that they came together is printed beside it.
#[test]
fn nine_times_in_ten_holds_for_a_fish_of_another_delivery() {
    let sure = Confidence::NineInTen;
    let mut chance = Chance::of(21);
    for sizes in [
        &[2_usize, 2, 2][..],
        &[1, 3, 5],
        &[4; 4],
        &[1, 2, 6, 3, 1],
        &[5; 8],
        &[1; 6],
    ] {
        for alike in [0.0, 0.3, 0.6, 0.9] {
            let (mut held, mut together, mut low_held) = (0, 0, 0);
            for _ in 0..DRAWS {
                let deliveries: Vec<Vec<f64>> = sizes
                    .iter()
                    .map(|fish| chance.delivery(*fish, alike))
                    .collect();
                let next = chance.delivery(1, alike)[0];
                let holds = |outlook: &Outlook| {
                    let (low, high) = outlook.between(sure);
                    usize::from((low..=high).contains(&next))
                };
                let outlook = Outlook::of_deliveries(&deliveries).unwrap();
                held += holds(&outlook);
                low_held += usize::from(next >= outlook.at_least(sure));
                together += holds(&Outlook::of_yields(&deliveries.concat()).unwrap());
            }
            let share = |held: usize| held as f64 / DRAWS as f64;
            println!(
                "{sizes:?}, {alike} alike: between {:.3}, at least {:.3}; as if they came one by one {:.3}",
                share(held),
                share(low_held),
                share(together)
            );
            for held in [held, low_held] {
                assert!(
                    share(held) > 0.87 && share(held) < 0.98,
                    "{sizes:?}, {alike}"
                );
            }
        }
    }
}

/// How a cook's yields move from day to day, by the number of the day.
struct Learning {
    name: &'static str,
    at: fn(f64) -> f64,
    /// Whether days differ by chance as well, and not only fish.
    days_differ: bool,
}

/// A learner, a master, a blunt knife. Yields as shares; one fish lies 1.5 points from another.
const LEARNING: [Learning; 6] = [
    Learning {
        name: "no trend",
        at: |_| 0.44,
        days_differ: false,
    },
    Learning {
        name: "no trend, days differ",
        at: |_| 0.44,
        days_differ: true,
    },
    Learning {
        name: "1 point a day",
        at: |day| 0.38 + 0.01 * day,
        days_differ: false,
    },
    Learning {
        name: "1 point down a day",
        at: |day| 0.60 - 0.01 * day,
        days_differ: true,
    },
    Learning {
        name: "flattens soon",
        at: |day| 0.46 - 0.08 * (-(day - 1.0) / 3.0).exp(),
        days_differ: false,
    },
    Learning {
        name: "flattens late",
        at: |day| 0.46 - 0.08 * (-(day - 1.0) / 5.0).exp(),
        days_differ: true,
    },
];

/// What came of some draws of one design.
#[derive(Default)]
struct Held {
    all: usize,
    followed: usize,
    of_followed: usize,
    by_mean: usize,
    low: usize,
}

fn learned(chance: &mut Chance, learning: &Learning, days: usize, fish: usize) -> Held {
    let mut held = Held::default();
    for _ in 0..DRAWS {
        let mut drawn: Vec<Vec<f64>> = (1..=days + 1)
            .map(|day| {
                let apart = if learning.days_differ {
                    0.008 * chance.normal()
                } else {
                    0.0
                };
                let own = (learning.at)(day as f64) + apart;
                (0..fish).map(|_| own + 0.015 * chance.normal()).collect()
            })
            .collect();
        let next = drawn.pop().unwrap()[0];
        let mean = Outlook::of_deliveries(&drawn).unwrap();
        let along = Outlook::of_trend(&drawn);
        let holds = |outlook: &Outlook| {
            let (low, high) = outlook.between(Confidence::NineInTen);
            usize::from((low..=high).contains(&next))
        };
        let told = along.unwrap_or(mean);
        held.all += holds(&told);
        held.low += usize::from(next >= told.at_least(Confidence::NineInTen));
        held.by_mean += holds(&mean);
        held.followed += usize::from(along.is_some());
        held.of_followed += along.map_or(0, |along| holds(&along));
    }
    held
}

/// "9 times in 10" along a trend, and where there is none. A trend that few days don't show yet misses more often: it is
/// printed, and never much worse than the mean, which is all there was before.
#[test]
fn nine_times_in_ten_holds_for_a_cook_who_learns() {
    let mut chance = Chance::of(31);
    for learning in &LEARNING {
        for (days, fish) in [(6, 1), (10, 1), (20, 1), (8, 3)] {
            let held = learned(&mut chance, learning, days, fish);
            let share = |held: usize, of: usize| held as f64 / of.max(1) as f64;
            println!(
                "{}, {days} days of {fish}: between {:.3}, at least {:.3}; a trend seen in {:.3}, then {:.3}; by the mean alone {:.3}",
                learning.name,
                share(held.all, DRAWS),
                share(held.low, DRAWS),
                share(held.followed, DRAWS),
                share(held.of_followed, held.followed),
                share(held.by_mean, DRAWS)
            );
            let what = format!("{}, {days} days of {fish}", learning.name);
            let seen = share(held.followed, DRAWS);
            if learning.name.starts_with("no trend") {
                // By chance in one of twenty; then it leads astray, and costs that much.
                assert!(seen < 0.065, "{what}: {seen}");
                assert!(share(held.all, DRAWS) > 0.86, "{what}");
            } else if seen > 0.5 {
                assert!(share(held.of_followed, held.followed) > 0.87, "{what}");
                assert!(share(held.all, DRAWS) > 0.85, "{what}");
            } else {
                assert!(
                    share(held.all, DRAWS) > share(held.by_mean, DRAWS) - 0.04,
                    "{what}"
                );
            }
        }
    }
}
