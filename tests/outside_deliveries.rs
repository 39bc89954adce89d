//! Fish of several deliveries: what the next one of another delivery gives, against numpy and scipy, and how often what
//! is told of it holds.
#![allow(clippy::unwrap_used, clippy::indexing_slicing, missing_docs)]

use proptest::prelude::RngExt as _;
use proptest::test_runner::{RngAlgorithm, TestRng};
use scaleside::trade::outlook::{Confidence, Outlook};

/// Figures by the versions of scipy and numpy on the file's first line: see vectors/delivery_vectors.py.
#[test]
fn what_is_told_of_another_delivery_agrees_with_scipy() {
    let mut rows = csv::ReaderBuilder::new()
        .comment(Some(b'#'))
        .from_path("tests/vectors/deliveries.csv")
        .unwrap();
    let mut checked = 0;
    for row in rows.records().map(Result::unwrap) {
        let yields = |own: &str| own.split(' ').map(|share| share.parse().unwrap()).collect();
        let deliveries: Vec<Vec<f64>> = row[0].split(';').map(yields).collect();
        let figure = |nth: usize| row[nth].parse::<f64>().unwrap();
        let confidence = Confidence::ALL
            .into_iter()
            .find(|confidence| confidence.share() == figure(1))
            .unwrap();
        let outlook = Outlook::of_deliveries(&deliveries).unwrap();
        assert_eq!(outlook.deliveries, Some(deliveries.len()));
        let (low, high) = outlook.between(confidence);
        let told = [low, high, outlook.at_least(confidence)];
        for (told, wanted) in told.into_iter().zip([2, 3, 4].map(figure)) {
            // What lies below nothing or above the whole fish is cut there.
            assert!(
                (told - wanted.clamp(0.0, 1.0)).abs() < 1e-8,
                "{row:?}: {told}"
            );
        }
        checked += 1;
    }
    assert_eq!(checked, 36);
}

struct Chance(TestRng);

impl Chance {
    fn even(&mut self) -> f64 {
        (f64::from(self.0.random::<u32>()) + 0.5) / 4_294_967_296.0
    }

    /// Normally spread: Box and Muller, 1958.
    fn normal(&mut self) -> f64 {
        let (one, other) = (self.even(), self.even());
        (-2.0 * one.ln()).sqrt() * (std::f64::consts::TAU * other).cos()
    }

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
    let mut chance = Chance(TestRng::from_seed(RngAlgorithm::ChaCha, &[21; 32]));
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
