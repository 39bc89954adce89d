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
        Self {
            standard: ready / delivered * (reading / ready).hypot(reading / delivered),
            lowest: ((ready - half_step) / (delivered + half_step)).max(0.0),
            highest,
        }
    }

    /// How many decimals of the yield in percent are honest: one while twice the standard uncertainty
    /// stays within a tenth of a point, else none. Never two, however fine the scale: the gram left on
    /// the board is worth more than a hundredth of a point.
    #[must_use]
    pub fn percent_decimals(&self) -> u32 {
        u32::from(2.0 * self.standard <= 0.001)
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
            (Scale::FIVE_GRAMS, 0),
            (Scale::TEN_GRAMS, 0),
        ] {
            assert_eq!(
                reading(1500, 660, scale).percent_decimals(),
                decimals,
                "{scale:?}"
            );
        }
        assert_eq!(
            reading(120, 60, Scale::ONE_GRAM).percent_decimals(),
            0,
            "a small fish"
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
