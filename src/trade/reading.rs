//! How far a yield can be trusted when all that is known of the scale is its division.
//!
//! A division tells how finely the scale reads, not how true it is. An error in the scale's factor
//! cancels in a yield, since both weights come off the same scale; a zero that has drifted does not.

use super::breakdown::Breakdown;
use super::mass::{Mass, Scale};

/// A yield with the doubt its two readings leave. Shares, 0 to 1; floats, because doubt is physics.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct YieldReading {
    /// The standard uncertainty of the yield.
    pub standard: f64,
    /// The lowest yield the two readings allow.
    pub lowest: f64,
    /// The highest yield the two readings allow.
    pub highest: f64,
    /// The furthest the true yield can lie from the one worked out.
    pub at_most: f64,
    /// How far it lies from it in 95 of 100 cases, each reading being anywhere within its step with equal chance: the sum
    /// of two rectangular distributions, to the first order (JCGM 101:2008, 6.4.4, where the sum of two is a trapezoid).
    pub mostly: f64,
}

impl YieldReading {
    /// The doubt in the yield of `fish` weighed on `scale`.
    ///
    /// For a quotient of two independent readings the relative variances add
    /// (JCGM 100:2008, 5.1.6); each reading may be off by half a division at worst.
    #[must_use]
    pub fn of(fish: &Breakdown, scale: Scale) -> Self {
        let delivered = in_mg(fish.delivered());
        let ready = in_mg(fish.ready());
        let reading = scale.standard_uncertainty_mg();
        let half_step = reading * 3_f64.sqrt(); // d/2, from d/√12
        // A division as coarse as the fish leaves no upper bound but the whole of it.
        let highest = if delivered > half_step {
            ((ready + half_step) / (delivered - half_step)).min(1.0)
        } else {
            1.0
        };
        let lowest = ((ready - half_step) / (delivered + half_step)).max(0.0);
        let ratio = ready / delivered;
        Self {
            standard: ratio * (reading / ready).hypot(reading / delivered),
            lowest,
            highest,
            at_most: (highest - ratio).max(ratio - lowest),
            mostly: within(half_step / delivered, ratio * half_step / delivered),
        }
    }

    /// How many decimals of the yield in percent are honest: one while the standard uncertainty stays
    /// under half a point, so that rounding never adds more doubt than the scale does, else none. Never
    /// two, however fine the scale: the gram left on the board is worth more than a hundredth of a point.
    #[must_use]
    pub fn percent_decimals(&self) -> u32 {
        u32::from(self.standard < 0.005)
    }
}

/// What the sum of two numbers stays within in 95 of 100 cases, when each lies within its own half width of nothing with
/// equal chance.
fn within(one: f64, other: f64) -> f64 {
    let (wide, narrow) = (one.max(other), one.min(other));
    // Beyond the flat top the tails of the trapezoid are triangles: together (w + n − s)² / 4wn.
    let tails = 0.05;
    let on_a_slope = wide + narrow - (4.0 * tails * wide * narrow).sqrt();
    if on_a_slope >= wide - narrow {
        on_a_slope
    } else {
        (1.0 - tails) * wide
    }
}

/// At most 100 kg, so every milligram is exact in a float.
#[expect(
    clippy::cast_precision_loss,
    reason = "a breakdown is at most 10^8 mg, exact in 53 bits"
)]
fn in_mg(mass: Mass) -> f64 {
    mass.mg() as f64
}

#[cfg(test)]
mod tests {
    use super::super::breakdown::Weights;
    use super::*;

    fn reading(delivered_g: i64, ready_g: i64, scale: Scale) -> YieldReading {
        let fish = Breakdown::of(Weights {
            delivered: Mass::from_mg(delivered_g * 1000),
            off_bone: None,
            ready: Mass::from_mg(ready_g * 1000),
        })
        .unwrap();
        YieldReading::of(&fish, scale)
    }

    #[test]
    fn a_coarse_scale_leaves_whole_percents() {
        for (scale, decimals) in [
            (Scale::TENTH_GRAM, 1),
            (Scale::ONE_GRAM, 1),
            (Scale::FIVE_GRAMS, 1),
            (Scale::TEN_GRAMS, 0),
        ] {
            assert_eq!(
                reading(600, 264, scale).percent_decimals(),
                decimals,
                "{scale:?}"
            );
        }
        assert_eq!(
            reading(120, 60, Scale::FIVE_GRAMS).percent_decimals(),
            0,
            "a small fish"
        );
    }

    /// Counted over a grid of both readings, which knows nothing of trapezoids.
    #[test]
    fn nineteen_in_twenty_lie_within() {
        for (one, other) in [(1.0, 0.45), (1.0, 1.0), (1.0, 0.02), (0.3, 2.0)] {
            let limit = within(one, other);
            let steps = 1000;
            let at = |nth: u32, half: f64| (f64::from(nth) + 0.5) / 500.0 * half - half;
            let inside: u32 = (0..steps)
                .map(|x| {
                    let sum = |y: &u32| (at(x, one) + at(*y, other)).abs();
                    (0..steps).filter(|y| sum(y) <= limit).count() as u32
                })
                .sum();
            let share = f64::from(inside) / 1e6;
            assert!((share - 0.95).abs() < 0.001, "{one} {other}: {share}");
        }
    }

    /// 648 g gave 302 g on a scale of 5 g: (302 + 2.5) / (648 − 2.5) is 47.17 %, 0.57 points over 46.60 %.
    #[test]
    fn the_furthest_is_the_worst_of_both_ends() {
        let band = reading(648, 302, Scale::FIVE_GRAMS);
        assert!((band.at_most - 0.005_678).abs() < 1e-6, "{band:?}");
        assert!(
            band.standard < band.mostly && band.mostly < band.at_most,
            "{band:?}"
        );
    }

    #[test]
    fn a_yield_stays_between_nothing_and_the_whole_fish() {
        let coarse = Scale {
            division: Mass::from_mg(10_000_000),
        };
        let band = reading(500, 200, coarse);
        assert_eq!((band.lowest, band.highest), (0.0, 1.0));
    }
}
