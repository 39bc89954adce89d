//! What an order by a published yield leaves to chance, in figures and in a sentence.

use rust_decimal::Decimal;

use super::order::Buy;
use super::units::{Quantity, QuantityUnit};
use crate::trade::rounding;

/// What an order by the middle of a published range leaves to chance.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum OrderChance {
    /// The fish may give as little as the least that is published.
    Low {
        /// That yield, as a share.
        low: Decimal,
        /// What would have to be bought then.
        buy: Buy,
        /// How much more that is, as purchased; nothing where what is bought is enough at the low end too.
        more: Quantity,
    },
    /// One figure is published and no range: how little a fish may give, nobody says.
    NoRange(Decimal),
}

impl OrderChance {
    /// In a sentence, in the unit the line is spoken of in.
    #[must_use]
    pub fn told(&self, unit: QuantityUnit) -> String {
        match self {
            Self::Low { low, more, .. } if more.amount.is_zero() => format!(
                "Still enough at the least published, {}",
                rounding::percent(*low, 1)
            ),
            Self::Low { low, buy, more } => {
                let more = match buy {
                    Buy::Fish(_, each) => {
                        let fish = more.amount.checked_div(each.amount).unwrap_or_default();
                        format!("{} fish", fish.normalize())
                    }
                    Buy::Packs(..) | Buy::Loose(_) => more.show(unit),
                };
                format!(
                    "At the least published, {}, you need {more} more: {}",
                    rounding::percent(*low, 1),
                    buy.show(unit)
                )
            }
            Self::NoRange(one) => format!(
                "Only {} is published, and no range: a fish may give less",
                rounding::percent(*one, 1)
            ),
        }
    }
}
