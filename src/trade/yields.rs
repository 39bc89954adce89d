//! The butcher's yield test of one fish: what the usable part weighs, and what it truly cost.
//!
//! Formulae: yield = edible portion / as purchased; cost per usable unit = cost as purchased / edible
//! portion (Traster, *Foundations of Cost Control*, ch. 4; BCcampus, *Basic Kitchen and Food Service
//! Management*, ch. 12). With by-products, the value of the other parts is taken off the total first
//! (Dittmer & Keefe, *Principles of Food, Beverage and Labor Cost Controls*, 9th ed., ch. 6, as quoted
//! in a lecture summary).

use rust_decimal::Decimal;
use serde::{Deserialize, Serialize};

use super::breakdown::Breakdown;
use super::mass::Mass;
use super::money::{MassPrice, Money, PriceUnit};
use super::refusals::NoYieldTest;
use super::rounding;
use crate::base::refusal::Refusal;

/// A trimming kept for another dish, such as the frame for stock, and what it would cost to buy.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Trimming {
    /// What it is, in the cook's words.
    pub name: String,
    /// Its mass.
    pub mass: Mass,
    /// What it is worth by mass.
    pub price: MassPrice,
}

/// A yield test: one fish, its price, and the credit for trimmings kept.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct YieldTest {
    breakdown: Breakdown,
    price: MassPrice,
    credit: Decimal,
}

/// How many whole portions the fillets give.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Portions {
    /// Whole portions.
    pub count: i64,
    /// What is left after them.
    pub left_over: Mass,
}

/// One of several equal portions.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct EqualPortion {
    /// Its mass, to the nearest milligram.
    pub mass: Mass,
    /// Its cost; the portions together cost the whole net cost.
    pub cost: Money,
}

impl YieldTest {
    /// The test of a fish bought at `price`, less the value of the trimmings kept.
    ///
    /// # Errors
    /// A sentence when a trimming has no mass or another currency, when the trimmings weigh more than
    /// was trimmed, or when they are worth more than the whole fish.
    pub fn of(
        breakdown: Breakdown,
        price: MassPrice,
        trimmings: &[Trimming],
    ) -> Result<Self, Refusal> {
        let mut kept = Mass::ZERO;
        let mut credit = Decimal::ZERO;
        for trimming in trimmings {
            let name = || trimming.name.clone();
            if trimming.mass <= Mass::ZERO {
                return Err(NoYieldTest::Unweighed(name()).into());
            }
            if trimming.price.currency() != price.currency() {
                return Err(NoYieldTest::OtherCurrency(name(), price.currency()).into());
            }
            kept = kept
                .checked_add(trimming.mass)
                .filter(|kept| *kept <= breakdown.total_loss())
                .ok_or(NoYieldTest::TooHeavy)?;
            credit += trimming.price.cost_of(trimming.mass).amount;
        }
        if credit > price.cost_of(breakdown.delivered()).amount {
            return Err(NoYieldTest::TooDear.into());
        }
        Ok(Self {
            breakdown,
            price,
            credit,
        })
    }

    /// The weights the test rests on.
    #[must_use]
    pub fn breakdown(&self) -> Breakdown {
        self.breakdown
    }

    /// The price as purchased.
    #[must_use]
    pub fn price(&self) -> MassPrice {
        self.price
    }

    /// Yield: ready to cook over as delivered, above 0 and at most 1. A credit leaves it alone.
    #[must_use]
    pub fn yield_ratio(&self) -> Decimal {
        self.breakdown.yield_ratio()
    }

    /// What the fish cost as purchased.
    #[must_use]
    pub fn cost_as_purchased(&self) -> Money {
        self.price.cost_of(self.breakdown.delivered())
    }

    /// The value of the trimmings kept.
    #[must_use]
    pub fn credit(&self) -> Money {
        self.money(self.credit)
    }

    /// What the usable part has to bear: cost as purchased less the credit.
    #[must_use]
    pub fn net_cost(&self) -> Money {
        self.money(self.cost_as_purchased().amount - self.credit)
    }

    /// Net cost of one usable kilogram.
    #[must_use]
    pub fn cost_per_kilo(&self) -> Money {
        // `Breakdown::of` lets nothing through without a ready mass above zero.
        self.money(self.net_cost().amount / self.breakdown.ready().in_kilos())
    }

    /// Net cost of one usable avoirdupois pound.
    #[must_use]
    pub fn cost_per_pound(&self) -> Money {
        self.money(self.net_cost().amount / self.breakdown.ready().in_pounds())
    }

    /// Net cost of one usable `unit`.
    #[must_use]
    pub fn cost_per(&self, unit: PriceUnit) -> Money {
        match unit {
            PriceUnit::Kilo => self.cost_per_kilo(),
            PriceUnit::Pound => self.cost_per_pound(),
        }
    }

    /// Cost factor: net cost per usable kilo over the price per kilo as purchased.
    ///
    /// Without a credit it is one over the yield, and tomorrow's price times the factor is tomorrow's
    /// usable cost. A credit lowers it, and then it carries over to another day's price only as far as
    /// the trimmings' worth moves with that price.
    #[must_use]
    pub fn cost_factor(&self) -> Decimal {
        self.cost_per_kilo().amount / self.price.per_kilo()
    }

    /// Cost of a portion of `mass` as a rate: right when every gram left over is used elsewhere.
    #[must_use]
    pub fn portion_cost(&self, mass: Mass) -> Money {
        self.money(self.net_cost().amount * mass.in_kilos() / self.breakdown.ready().in_kilos())
    }

    /// Whole portions of `mass`, and what is left; `None` for a portion of no mass.
    #[must_use]
    pub fn portions(&self, mass: Mass) -> Option<Portions> {
        if mass <= Mass::ZERO {
            return None;
        }
        let ready = self.breakdown.ready().mg();
        Some(Portions {
            count: ready.checked_div(mass.mg())?,
            left_over: Mass::from_mg(ready.checked_rem(mass.mg())?),
        })
    }

    /// Cost of each portion of `mass` when what is left over is not used: the whole net cost over the
    /// portions served. `None` when the fillets do not give one such portion.
    #[must_use]
    pub fn served_portion_cost(&self, mass: Mass) -> Option<Money> {
        let served = self.portions(mass)?.count;
        let each = self.net_cost().amount.checked_div(Decimal::from(served))?;
        Some(self.money(each))
    }

    /// One portion when the fillets are divided into `count` equal ones; `None` for a count of zero.
    #[must_use]
    pub fn divided_into(&self, count: u32) -> Option<EqualPortion> {
        let mass = rounding::divide(self.breakdown.ready().mg(), i64::from(count))?;
        let cost = self.net_cost().amount.checked_div(Decimal::from(count))?;
        Some(EqualPortion {
            mass: Mass::from_mg(mass),
            cost: self.money(cost),
        })
    }

    fn money(&self, amount: Decimal) -> Money {
        Money {
            amount,
            currency: self.price.currency(),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::super::breakdown::{Weights, fish};
    use super::super::money::Currency;
    use super::*;

    fn price(cents: i64, currency: Currency) -> MassPrice {
        MassPrice::new(Decimal::new(cents, 2), currency, PriceUnit::Kilo).unwrap()
    }

    fn frame(grams: i64, cents: i64, currency: Currency) -> Trimming {
        Trimming {
            name: "frame".into(),
            mass: Mass::from_mg(grams * 1000),
            price: price(cents, currency),
        }
    }

    #[test]
    fn trimmings_that_cannot_be_are_refused() {
        for (trimming, said) in [
            (frame(0, 200, Currency::Eur), "Weigh the frame first"),
            (frame(200, 200, Currency::Gbp), "Price the frame in euro"),
            (
                frame(601, 200, Currency::Eur),
                "more than all that was trimmed",
            ),
            (
                frame(600, 5000, Currency::Eur),
                "worth more than the whole fish",
            ),
        ] {
            let refusal = YieldTest::of(fish(1000, 400), price(1000, Currency::Eur), &[trimming])
                .unwrap_err()
                .to_string();
            assert!(refusal.contains(said), "{refusal}");
        }
    }

    #[test]
    fn two_trimmings_may_not_weigh_more_than_was_trimmed() {
        let kept = [
            frame(400, 100, Currency::Eur),
            frame(201, 100, Currency::Eur),
        ];
        assert!(YieldTest::of(fish(1000, 400), price(1000, Currency::Eur), &kept).is_err());
    }

    #[test]
    fn portions_are_whole_and_what_is_left_is_told() {
        let test = YieldTest::of(fish(1000, 400), price(1000, Currency::Eur), &[]).unwrap();
        for (grams, count, left) in [(150, 2, 100), (400, 1, 0), (401, 0, 400)] {
            let portions = test.portions(Mass::from_mg(grams * 1000)).unwrap();
            assert_eq!(
                (portions.count, portions.left_over.mg()),
                (count, left * 1000)
            );
        }
        assert_eq!(test.portions(Mass::ZERO), None);
        assert_eq!(test.served_portion_cost(Mass::from_mg(401_000)), None);
        assert_eq!(test.divided_into(0), None);
        let third = test.divided_into(3).unwrap();
        assert_eq!(third.mass.mg(), 133_333);
        assert_eq!(third.cost.show(), "€3.33");
    }

    #[test]
    fn the_cheapest_and_the_smallest_still_divide() {
        let speck = Breakdown::of(Weights {
            delivered: Mass::HEAVIEST,
            off_bone: None,
            ready: Mass::from_mg(1),
        })
        .unwrap();
        for amount in [Decimal::new(1, 4), Decimal::from(10_000_000)] {
            for per in PriceUnit::ALL {
                let price = MassPrice::new(amount, Currency::Jpy, per).unwrap();
                let test = YieldTest::of(speck, price, &[]).unwrap();
                let factor = rounding::half_away(test.cost_factor(), 9);
                assert_eq!(factor, Decimal::from(100_000_000), "{amount} {per:?}");
                assert!(test.cost_per_pound().amount < test.cost_per_kilo().amount);
            }
        }
    }
}
