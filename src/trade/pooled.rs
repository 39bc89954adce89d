//! Several tests as one: totals over totals, with the spread between fish beside it.
//!
//! The mean of the percentages is not used: a small fish would count as much as a large one, and the
//! cost is paid by the kilo.

use rust_decimal::Decimal;
use rust_decimal::prelude::ToPrimitive;

use super::breakdown::Breakdown;
use super::mass::Mass;
use super::moments::moments;

/// Several fish of one species, delivered in one form; the caller groups them so.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Pooled {
    /// How many fish.
    pub fish: usize,
    /// Their mass as delivered, together.
    pub delivered: Mass,
    /// Their mass ready to cook, together.
    pub ready: Mass,
    /// Ready over delivered, above 0 and at most 1.
    pub yield_ratio: Decimal,
    /// The sample standard deviation (n − 1) of the single yields, as a share; `None` for one fish.
    pub spread: Option<f64>,
}

impl Pooled {
    /// The tests taken together; `None` when there are none.
    #[must_use]
    pub fn of(fish: &[Breakdown]) -> Option<Self> {
        let total = |mass: fn(&Breakdown) -> Mass| {
            fish.iter()
                .map(mass)
                .try_fold(Mass::ZERO, Mass::checked_add)
        };
        let delivered = total(Breakdown::delivered)?;
        let ready = total(Breakdown::ready)?;
        Some(Self {
            fish: fish.len(),
            delivered,
            ready,
            yield_ratio: ready.in_kilos().checked_div(delivered.in_kilos())?,
            spread: spread(fish),
        })
    }
}

fn spread(fish: &[Breakdown]) -> Option<f64> {
    let yields: Vec<f64> = fish
        .iter()
        .map(|fish| fish.yield_ratio().to_f64())
        .collect::<Option<_>>()?;
    moments(&yields).1
}

#[cfg(test)]
mod tests {
    use super::super::breakdown::fish;
    use super::*;

    #[test]
    fn a_large_fish_counts_for_more() {
        let pooled = Pooled::of(&[fish(3000, 1500), fish(1000, 300)]).unwrap();
        assert_eq!(
            pooled.yield_ratio,
            Decimal::new(45, 2),
            "not the mean of 50 and 30"
        );
        let spread = pooled.spread.unwrap();
        assert!((spread - 0.02_f64.sqrt()).abs() < 1e-12, "{spread}");
    }

    #[test]
    fn one_fish_has_no_spread_and_none_has_no_yield() {
        assert_eq!(Pooled::of(&[fish(1000, 300)]).unwrap().spread, None);
        assert_eq!(Pooled::of(&[]), None);
    }
}
