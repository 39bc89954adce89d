//! The scale on the bench: which readings it can show, and how far each can be trusted.

use rust_decimal::Decimal;
use rust_decimal::prelude::ToPrimitive;
use serde::{Deserialize, Serialize};

use super::mass::{self, Mass, Unit};
use super::rounding;

/// How far ounce steps that were each rounded to the milligram may come to lie off: twenty of a quarter ounce, twice.
const OUNCE_DUST_MG: u64 = 20;

/// A kitchen scale, known by its division: the step between two readings it can show.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Scale {
    /// The division; for an ounce scale rounded to the milligram.
    pub division: Mass,
}

impl Scale {
    /// A scale that reads to a tenth of a gram.
    pub const TENTH_GRAM: Self = Self::of_mg(100);
    /// A scale that reads to the gram.
    pub const ONE_GRAM: Self = Self::of_mg(1_000);
    /// A scale that reads to two grams.
    pub const TWO_GRAMS: Self = Self::of_mg(2_000);
    /// A scale that reads to five grams.
    pub const FIVE_GRAMS: Self = Self::of_mg(5_000);
    /// A scale that reads to ten grams.
    pub const TEN_GRAMS: Self = Self::of_mg(10_000);
    /// A scale that reads to a tenth of an ounce (2834.95 mg).
    pub const TENTH_OUNCE: Self = Self::of_mg(2_835);
    /// A scale that reads to a quarter of an ounce (7087.38 mg).
    pub const QUARTER_OUNCE: Self = Self::of_mg(7_087);

    /// The divisions a picker offers, finest first in grams, then in ounces.
    pub const CHOICES: [Self; 7] = [
        Self::TENTH_GRAM,
        Self::ONE_GRAM,
        Self::TWO_GRAMS,
        Self::FIVE_GRAMS,
        Self::TEN_GRAMS,
        Self::TENTH_OUNCE,
        Self::QUARTER_OUNCE,
    ];

    const fn of_mg(mg: i64) -> Self {
        Self {
            division: Mass::from_mg(mg),
        }
    }

    /// The division as it stands on the scale's plate: `2 g`, `0.25 oz`.
    #[must_use]
    pub fn name(self) -> String {
        mass::show(self.division, self.unit())
    }

    /// The unit of its division.
    #[must_use]
    pub fn unit(self) -> Unit {
        if self == Self::TENTH_OUNCE || self == Self::QUARTER_OUNCE {
            Unit::Ounce
        } else {
            Unit::Gram
        }
    }

    /// The unit that a weight from it is keyed in: `wanted`, unless the scale can't show that.
    #[must_use]
    pub fn keyed_in(self, wanted: Unit) -> Unit {
        let is_metric = |unit| matches!(unit, Unit::Gram | Unit::Kilo);
        if is_metric(wanted) == is_metric(self.unit()) {
            wanted
        } else {
            self.unit()
        }
    }

    /// The division in milligrams, before an ounce step is rounded to the milligram.
    fn exact_mg(self) -> Decimal {
        match self {
            Self::TENTH_OUNCE => mass::MG_PER_OUNCE / Decimal::TEN,
            Self::QUARTER_OUNCE => mass::MG_PER_OUNCE / Decimal::from(4),
            Self { division } => Decimal::from(division.mg()),
        }
    }

    /// Whether this scale can have shown `mass`: a whole number of divisions, exactly for grams and to
    /// the nearest milligram for ounces. A scale of no division tells nothing, so it never objects.
    #[must_use]
    pub fn on_a_step(self, mass: Mass) -> bool {
        if self.division <= Mass::ZERO {
            return true;
        }
        self.nearest_mg(mass) == Decimal::from(mass.mg())
    }

    /// A weight that was read, less what the scale shows with nothing on it (below zero where it shows less than nothing)
    /// for each of the `times` it was read and added up. A constant offset of all readings moves a yield, and one that is
    /// known is taken off each (JCGM 100:2008, 3.2.4: a recognised systematic effect is corrected for); what the reading
    /// of it hides is in the doubt of a yield.
    #[must_use]
    pub fn less_zero(self, mass: Mass, zero: Mass, times: i64) -> Mass {
        let left = Mass::from_mg(mass.mg().saturating_sub(zero.mg().saturating_mul(times)));
        // An ounce step is no whole milligram: what is left stands on a step again.
        let nearest = (self.unit() == Unit::Ounce).then(|| self.nearest_mg(left));
        match nearest.and_then(|mg| mg.to_i64()) {
            Some(mg) if mg.abs_diff(left.mg()) <= OUNCE_DUST_MG => Mass::from_mg(mg),
            _ => left,
        }
    }

    /// What it would show of `mass`, in whole milligrams.
    fn nearest_mg(self, mass: Mass) -> Decimal {
        let step = self.exact_mg();
        let steps = rounding::half_away(Decimal::from(mass.mg()) / step, 0);
        rounding::half_away(steps * step, 0)
    }

    /// The standard uncertainty of one reading, in milligrams: the division over the square root of
    /// twelve (JCGM 100:2008, F.2.2.1: any value within the step is equally likely).
    #[must_use]
    pub fn standard_uncertainty_mg(self) -> f64 {
        self.exact_mg().to_f64().unwrap_or_default().max(0.0) / 12_f64.sqrt()
    }
}

impl Default for Scale {
    fn default() -> Self {
        Self::ONE_GRAM
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_reading_between_two_steps_is_noticed() {
        for (scale, mg, wanted) in [
            (Scale::TWO_GRAMS, 648_000, true),
            (Scale::TWO_GRAMS, 649_000, false),
            (Scale::TENTH_GRAM, 648_100, true),
            (Scale::TENTH_GRAM, 648_150, false),
            (Scale::TENTH_OUNCE, 637_864, true),
            (Scale::QUARTER_OUNCE, 637_864, true),
            (Scale::QUARTER_OUNCE, 640_000, false),
            (Scale::of_mg(0), 1, true),
        ] {
            assert_eq!(scale.on_a_step(Mass::from_mg(mg)), wanted, "{scale:?} {mg}");
        }
    }

    #[test]
    fn a_weight_is_keyed_in_what_the_scale_shows() {
        for (scale, wanted, keyed) in [
            (Scale::TWO_GRAMS, Unit::Gram, Unit::Gram),
            (Scale::TWO_GRAMS, Unit::Kilo, Unit::Kilo),
            (Scale::TWO_GRAMS, Unit::PoundOunce, Unit::Gram),
            (Scale::QUARTER_OUNCE, Unit::Kilo, Unit::Ounce),
            (Scale::TENTH_OUNCE, Unit::PoundOunce, Unit::PoundOunce),
        ] {
            assert_eq!(scale.keyed_in(wanted), keyed, "{scale:?} {wanted:?}");
        }
    }

    /// 22.5 oz are 637,864.27 mg and 22.25 oz 630,776.89 mg, by hand.
    #[test]
    fn what_the_empty_scale_shows_is_taken_off() {
        for (scale, mg, zero, times, left) in [
            (Scale::TWO_GRAMS, 648_000, 2_000, 1, 646_000),
            (Scale::TWO_GRAMS, 648_000, -6_000, 1, 654_000),
            (Scale::TWO_GRAMS, 648_000, 2_000, 2, 644_000),
            (Scale::TWO_GRAMS, 648_000, 0, 2, 648_000),
            (Scale::TENTH_GRAM, 647_510, 100, 1, 647_410),
            (Scale::TWO_GRAMS, 2_000, 2_000, 1, 0),
            (Scale::QUARTER_OUNCE, 637_864, 7_087, 1, 630_777),
            (Scale::of_mg(0), 648_000, 1_000, 1, 647_000),
        ] {
            let told = scale.less_zero(Mass::from_mg(mg), Mass::from_mg(zero), times);
            assert_eq!(told.mg(), left, "{scale:?} {mg} {zero}");
        }
    }

    #[test]
    fn a_scale_is_named_by_its_division() {
        let names: Vec<String> = Scale::CHOICES.into_iter().map(Scale::name).collect();
        assert_eq!(
            names,
            ["0.1 g", "1 g", "2 g", "5 g", "10 g", "0.1 oz", "0.25 oz"]
        );
    }
}
