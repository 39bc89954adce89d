//! How far a yield can be trusted when all that is known of the scale is its division.
//!
//! A division tells how finely the scale reads, not how true it is. An error in the scale's factor
//! cancels in a yield, since both weights come off the same scale. A zero that is off does not: every weight is a
//! difference of two readings, the one with the fish on the scale and the one without (the empty tray that was set to
//! zero, or what the scale shows empty, taken off by [`Scale::less_zero`]). Each of the two hides up to half a step. A
//! verified scale sets itself to zero within a quarter of a step (OIML R 76-1, 4.5.2, from memory, not verified); of a
//! kitchen scale nobody knows, and where the offset is read off, half a step is what that reading hides. Both weights
//! are taken as zeroed each for itself; where one zero holds for both, part of it cancels, and they are surer than told.

use super::breakdown::Breakdown;
use super::mass::{Mass, Scale};

/// A yield with the doubt its two weights leave. Shares, 0 to 1; floats, because doubt is physics.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct YieldReading {
    /// The standard uncertainty of the yield.
    pub standard: f64,
    /// The lowest yield the two weights allow: the ready one a step less, the delivered one a step more.
    pub lowest: f64,
    /// The highest yield the two weights allow.
    pub highest: f64,
    /// The furthest the true yield can lie from the one worked out.
    pub at_most: f64,
    /// The yield as worked out.
    ratio: f64,
    /// One step of the scale as a share of the fish as delivered.
    step: f64,
}

impl YieldReading {
    /// The doubt in the yield of `fish` weighed on `scale`.
    ///
    /// For a quotient of two independent weights the relative variances add (JCGM 100:2008, 5.1.6); the variance of a
    /// weight is that of two readings (ibid., 5.1.2), and a step off at worst.
    #[must_use]
    pub fn of(fish: &Breakdown, scale: Scale) -> Self {
        let delivered = in_mg(fish.delivered());
        let ready = in_mg(fish.ready());
        let weight = scale.standard_uncertainty_mg() * 2_f64.sqrt();
        let step = weight * 6_f64.sqrt(); // d, from d/√6
        // A division as coarse as the fish leaves no upper bound but the whole of it.
        let highest = if delivered > step {
            ((ready + step) / (delivered - step)).min(1.0)
        } else {
            1.0
        };
        let lowest = ((ready - step) / (delivered + step)).max(0.0);
        let ratio = ready / delivered;
        Self {
            standard: ratio * (weight / ready).hypot(weight / delivered),
            lowest,
            highest,
            at_most: (highest - ratio).max(ratio - lowest),
            ratio,
            step: step / delivered,
        }
    }

    /// How far the true yield lies from the one worked out in 95 of 100 cases, each of the four readings being anywhere
    /// within its step with equal chance (propagation of distributions, JCGM 101:2008), to the first order.
    #[must_use]
    pub fn mostly(&self) -> f64 {
        (self.step * within(self.ratio)).min(self.at_most)
    }

    /// How many decimals of the yield in percent are honest: one while the standard uncertainty stays
    /// under half a point, so that rounding never adds more doubt than the scale does, else none. Never
    /// two, however fine the scale: the gram left on the board is worth more than a hundredth of a point.
    #[must_use]
    pub fn percent_decimals(&self) -> u32 {
        u32::from(self.standard < 0.005)
    }
}

/// What two readings of one step and two of `ratio` steps (0 to 1) together stay within in 95 of 100 cases, in steps.
fn within(ratio: f64) -> f64 {
    // Halved, until the tail beyond it is a fortieth on either side.
    let (mut inside, mut outside) = (0.0, 1.0 + ratio);
    for _ in 0..50 {
        let middle = f64::midpoint(inside, outside);
        if beyond(middle, ratio) > 0.025 {
            inside = middle;
        } else {
            outside = middle;
        }
    }
    inside
}

/// How likely those four together are more than `limit` steps: the volume of a cube beyond a plane, counted from its
/// corners (Olds, *Annals of Mathematical Statistics* 23, 1952, 282; from memory, checked against `SciPy`).
fn beyond(limit: f64, ratio: f64) -> f64 {
    // Less than a ten-thousandth is as good as none, and would be divided by.
    let ratio = ratio.max(1e-4);
    // Of the readings of one size none, one or both stand at the low end of their step: 1, −2 and 1 corners.
    let corners = [(0.0, 1.0), (1.0, -2.0), (2.0, 1.0)];
    let mut volume = 0.0;
    for (low, sign) in corners {
        for (low_of_ratio, other) in corners {
            let ahead = 1.0 - low + ratio * (1.0 - low_of_ratio) - limit;
            volume += sign * other * ahead.max(0.0).powi(4);
        }
    }
    volume / (24.0 * ratio * ratio)
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

    /// Counted over a grid of all four readings, which knows nothing of corners.
    #[test]
    fn nineteen_in_twenty_lie_within() {
        for ratio in [0.466, 1.0, 0.3, 0.02] {
            let limit = within(ratio);
            let steps = 40;
            let at = |nth: u32| (f64::from(nth) + 0.5) / f64::from(steps) - 0.5;
            // The two of one size together, each sum so often as it comes.
            let two: Vec<f64> = (0..steps)
                .flat_map(|x| (0..steps).map(move |y| at(x) + at(y)))
                .collect();
            let inside: usize = two
                .iter()
                .map(|x| {
                    let holds = |y: &&f64| (x + ratio * **y).abs() <= limit;
                    two.iter().filter(holds).count()
                })
                .sum();
            let share = inside as f64 / (two.len() * two.len()) as f64;
            assert!((share - 0.95).abs() < 0.004, "{ratio}: {share}");
        }
        // Two alone spread as a triangle, whose ends beyond this hold a fortieth each.
        assert!((within(0.0) - (1.0 - 0.05_f64.sqrt())).abs() < 1e-6);
    }

    /// 648 g gave 302 g on a scale of 5 g: (302 + 5) / (648 − 5) is 47.74 %, 1.14 points over 46.60 %.
    #[test]
    fn the_furthest_is_the_worst_of_both_ends() {
        let band = reading(648, 302, Scale::FIVE_GRAMS);
        assert!((band.at_most - 0.011_400).abs() < 1e-6, "{band:?}");
        assert!(
            band.standard < band.mostly() && band.mostly() < band.at_most,
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
