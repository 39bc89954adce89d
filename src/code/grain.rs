//! How finely weights travel: in the scale's own steps where they stand on them, else in ten milligrams.

use crate::trade::breakdown::Weights;
use crate::trade::mass::{Mass, Scale};
use crate::trade::rounding;

/// Parts of a milligram an ounce step is a whole number of.
const PARTS: i64 = 100_000_000;

/// The scale divisions a code knows by number: the number, the division in milligrams, and the step itself
/// in hundred-millionths of a milligram (an ounce step is no whole number of milligrams:
/// 28349.523125 mg × 0.1 and × 0.25).
const DIVISIONS: [(u8, i64, i64); 11] = [
    (0, 100, 100 * PARTS),
    (1, 200, 200 * PARTS),
    (2, 500, 500 * PARTS),
    (3, 1_000, 1_000 * PARTS),
    (4, 2_000, 2_000 * PARTS),
    (5, 5_000, 5_000 * PARTS),
    (6, 10_000, 10_000 * PARTS),
    (7, 20_000, 20_000 * PARTS),
    (8, 50_000, 50_000 * PARTS),
    (9, 2_835, 283_495_231_250),
    (10, 7_087, 708_738_078_125),
];

/// Bits of one weight for each grain: three widths of scale steps, then ten milligrams.
const WIDTHS: [u32; 4] = [11, 15, 20, 22];
const FINE: u8 = 3;
const FINE_MG: i64 = 10;

/// The scales whose division a code can carry.
pub fn divisions() -> impl Iterator<Item = Scale> {
    DIVISIONS.iter().map(|(_, mg, _)| Scale {
        division: Mass::from_mg(*mg),
    })
}

/// The number of a scale's division.
pub(super) fn number(scale: Scale) -> Option<u8> {
    let mut rows = DIVISIONS.iter();
    rows.find(|(_, mg, _)| *mg == scale.division.mg())
        .map(|(number, ..)| *number)
}

/// The scale with this number.
pub(super) fn scale(number: u8) -> Option<Scale> {
    let mut rows = DIVISIONS.iter();
    rows.find(|(known, ..)| *known == number)
        .map(|(_, mg, _)| Scale {
            division: Mass::from_mg(*mg),
        })
}

/// Weights as the numbers of a code: which grain, how many bits each takes, and the readings.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Grained {
    pub(super) grain: u8,
    pub(super) delivered: u32,
    pub(super) off_bone: Option<u32>,
    pub(super) ready: u32,
}

/// Bits of one weight at a grain (0 to 3).
pub(super) fn width(grain: u8) -> Option<u32> {
    WIDTHS.get(usize::from(grain)).copied()
}

/// The weights in the coarsest way that keeps them: scale steps, or rounded to ten milligrams when one of
/// them stands between two steps. `None` when they are below zero or too heavy to carry.
pub(super) fn grained(weights: Weights, scale: Scale) -> Option<Grained> {
    let unit = unit(scale)?;
    let fine = |mass: Mass| rounding::divide(mass.mg(), FINE_MG);
    let in_steps = |mass: Mass| steps(mass, unit);
    let rounded = |mass: Mass| steps(Mass::from_mg(fine(mass)?.checked_mul(FINE_MG)?), unit);
    (0..FINE)
        .find_map(|grain| each(weights, grain, in_steps))
        .or_else(|| (0..FINE).find_map(|grain| each(weights, grain, rounded)))
        .or_else(|| each(weights, FINE, fine))
}

/// Every reading counted by `count`, if each fits the width of `grain`.
fn each(weights: Weights, grain: u8, count: impl Fn(Mass) -> Option<i64>) -> Option<Grained> {
    let width = width(grain)?;
    let fitting = |mass: Mass| {
        let number = u32::try_from(count(mass)?).ok()?;
        (mass <= Mass::HEAVIEST && number >> width == 0).then_some(number)
    };
    let off_bone = match weights.off_bone {
        Some(mass) => Some(fitting(mass)?),
        None => None,
    };
    Some(Grained {
        grain,
        delivered: fitting(weights.delivered)?,
        off_bone,
        ready: fitting(weights.ready)?,
    })
}

/// The weights behind the numbers of a code; `None` when one is past [`Mass::HEAVIEST`].
pub(super) fn weights(grained: Grained, scale: Scale) -> Option<Weights> {
    let unit = unit(scale)?;
    let mass = |number: u32| {
        let mg = if grained.grain == FINE {
            i64::from(number) * FINE_MG
        } else {
            rounding::divide(i64::from(number).checked_mul(unit)?, PARTS)?
        };
        Some(Mass::from_mg(mg)).filter(|mass| *mass <= Mass::HEAVIEST)
    };
    let off_bone = match grained.off_bone {
        Some(number) => Some(mass(number)?),
        None => None,
    };
    Some(Weights {
        delivered: mass(grained.delivered)?,
        off_bone,
        ready: mass(grained.ready)?,
    })
}

fn unit(scale: Scale) -> Option<i64> {
    let mut rows = DIVISIONS.iter();
    rows.find(|(_, mg, _)| *mg == scale.division.mg())
        .map(|(.., unit)| *unit)
}

/// How many steps `mass` is, if the scale can have shown it.
fn steps(mass: Mass, unit: i64) -> Option<i64> {
    let steps = rounding::divide(mass.mg().checked_mul(PARTS)?, unit)?;
    let shown = rounding::divide(steps.checked_mul(unit)?, PARTS)?;
    (shown == mass.mg()).then_some(steps)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn of(delivered: i64, off_bone: Option<i64>, ready: i64) -> Weights {
        Weights {
            delivered: Mass::from_mg(delivered),
            off_bone: off_bone.map(Mass::from_mg),
            ready: Mass::from_mg(ready),
        }
    }

    #[test]
    fn weights_take_the_coarsest_grain_that_keeps_them() {
        let gram = Scale::ONE_GRAM;
        for (scale, given, grain, kept) in [
            (gram, of(648_000, Some(336_000), 302_000), Some(0), None),
            (gram, of(2_048_000, None, 302_000), Some(1), None),
            (gram, of(40_000_000, None, 1_000), Some(2), None),
            (gram, of(648_500, None, 302_000), Some(3), None),
            (Scale::TWO_GRAMS, of(649_000, None, 302_000), Some(3), None),
            // 6.333 oz on a scale that shows grams: to ten milligrams.
            (
                gram,
                of(179_538, None, 90_000),
                Some(3),
                Some(of(179_540, None, 90_000)),
            ),
            // Four milligrams off a step is on it.
            (
                gram,
                of(648_004, None, 90_000),
                Some(0),
                Some(of(648_000, None, 90_000)),
            ),
            (
                Scale::TENTH_OUNCE,
                of(637_864, None, 184_272),
                Some(0),
                None,
            ),
            (Scale::TENTH_GRAM, of(100_000_000, None, 0), Some(2), None),
            (gram, of(100_001_000, None, 0), None, None),
            (gram, of(-1_000, None, 0), None, None),
            (gram, of(60_000_500, None, 0), None, None),
        ] {
            let grained = grained(given, scale);
            assert_eq!(grained.map(|g| g.grain), grain, "{given:?}");
            if let Some(grained) = grained {
                assert_eq!(weights(grained, scale), Some(kept.unwrap_or(given)));
            }
        }
    }

    #[test]
    fn every_scale_on_offer_has_a_number() {
        for offered in Scale::CHOICES {
            assert_eq!(number(offered).and_then(scale), Some(offered));
        }
        assert_eq!(divisions().count(), DIVISIONS.len());
    }
}
