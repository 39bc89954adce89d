//! What a cover sells for: its food-cost share, the price at a wanted share, tax and margin.
//!
//! Food-cost share = food cost ÷ selling price (Ontario Pork, "Costing for Foodservice"); the price at a
//! wanted share is the same sum turned round. The selling price in it is the one without tax.

use rust_decimal::Decimal;

use super::percentage::parse_percent;
use super::refusals::{NoSum, NoTarget};
use crate::base::refusal::Refusal;
use crate::trade::money::{self, Currency, Money};

/// The highest tax and the highest wanted share that are read, in percent.
const MOST_TAX: u32 = 100;

/// A price on the menu, with and without tax.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct MenuPrice {
    /// What the guest pays.
    pub with_tax: Money,
    /// What the house keeps of it.
    pub net: Money,
}

impl MenuPrice {
    /// A price the guest pays, with `tax` in it, as a share of the price without tax.
    ///
    /// # Errors
    /// A sentence past the range of a decimal.
    pub fn paid(with_tax: Decimal, tax: Decimal, currency: Currency) -> Result<Self, Refusal> {
        let net = with_tax
            .checked_div(Decimal::ONE + tax)
            .ok_or(NoSum::TooFar)?;
        Ok(Self::of(with_tax, net, currency))
    }

    /// The price at which `cost` is the `share` of it that is wanted.
    ///
    /// # Errors
    /// A sentence for a share of nothing, or past the range of a decimal.
    pub fn at_share(cost: Money, share: Decimal, tax: Decimal) -> Result<Self, Refusal> {
        let net = cost.amount.checked_div(share).ok_or(NoSum::TooFar)?;
        let with_tax = net.checked_mul(Decimal::ONE + tax).ok_or(NoSum::TooFar)?;
        Ok(Self::of(with_tax, net, cost.currency))
    }

    fn of(with_tax: Decimal, net: Decimal, currency: Currency) -> Self {
        let money = |amount| Money { amount, currency };
        Self {
            with_tax: money(with_tax),
            net: money(net),
        }
    }

    /// What part of the price without tax `cost` is; `None` for a price of nothing.
    #[must_use]
    pub fn food_cost_share(self, cost: Money) -> Option<Decimal> {
        cost.amount.checked_div(self.net.amount)
    }

    /// What is left of the price without tax once the food is paid; below zero when it costs more.
    #[must_use]
    pub fn margin(self, cost: Money) -> Money {
        Money {
            amount: self.net.amount - cost.amount,
            currency: self.net.currency,
        }
    }
}

/// Reads a tax rate in percent; none when nothing is typed.
///
/// # Errors
/// One sentence for what is no percentage.
pub fn parse_tax(text: &str) -> Result<Decimal, Refusal> {
    match text.trim() {
        "" => Ok(Decimal::ZERO),
        text => parse_percent(text, "The tax", MOST_TAX),
    }
}

/// Reads a wanted food-cost share in percent.
///
/// # Errors
/// One sentence when it is no percentage, or zero.
pub fn parse_target(text: &str) -> Result<Decimal, Refusal> {
    let share = parse_percent(text, "The wanted share", 100)?;
    if share.is_zero() {
        return Err(NoTarget::Zero.into());
    }
    Ok(share)
}

/// Reads a price on the menu; `None` when nothing is typed.
///
/// # Errors
/// One sentence for what is no price.
pub fn parse_menu(text: &str) -> Result<Option<Decimal>, Refusal> {
    match text.trim() {
        "" => Ok(None),
        text => money::parse_amount(text).map(Some),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn shares_and_taxes_are_read_or_refused() {
        for (text, tax, target) in [
            ("", Ok("0"), Err("a percentage")),
            ("0", Ok("0"), Err("above zero")),
            ("30", Ok("0.30"), Ok("0.30")),
            ("-1", Err("below zero"), Err("below zero")),
            ("101", Err("over 100 %"), Err("over 100 %")),
        ] {
            for (got, wanted) in [(parse_tax(text), tax), (parse_target(text), target)] {
                match (got, wanted) {
                    (Ok(share), Ok(wanted)) => assert_eq!(share, wanted.parse().unwrap()),
                    (Err(refusal), Err(said)) => {
                        assert!(refusal.to_string().contains(said), "{text}: {refusal}");
                    }
                    (got, _) => panic!("{text}: {got:?}"),
                }
            }
        }
        assert_eq!(parse_menu(" "), Ok(None));
        assert!(parse_menu("much").is_err());
    }
}
