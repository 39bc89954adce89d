//! What something costs as it is bought: by weight, by volume, by the piece, or by the pack.

use rust_decimal::Decimal;

use super::refusals::NoSum;
use super::units::{Dimension, POUND, Quantity, QuantityUnit};
use crate::base::refusal::Refusal;
use crate::trade::money::{Currency, Money};

/// What a price is for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Per {
    /// One kilogram.
    Kilo,
    /// One avoirdupois pound.
    Pound,
    /// One litre.
    Litre,
    /// One piece.
    Piece,
    /// A pack with this much in it.
    Pack(Quantity),
}

/// A price as bought.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Price {
    /// The amount of money, above zero.
    pub amount: Decimal,
    /// The currency it is in.
    pub currency: Currency,
    /// What it is for.
    pub per: Per,
}

impl Price {
    /// What it is counted in.
    #[must_use]
    pub fn kind(self) -> Dimension {
        self.unit().kind
    }

    /// The quantity the amount buys.
    #[must_use]
    pub fn unit(self) -> Quantity {
        match self.per {
            Per::Kilo => Quantity::new(Dimension::Mass, Decimal::ONE),
            Per::Pound => Quantity::new(Dimension::Mass, POUND),
            Per::Litre => Quantity::new(Dimension::Volume, Decimal::ONE),
            Per::Piece => Quantity::new(Dimension::Pieces, Decimal::ONE),
            Per::Pack(content) => content,
        }
    }

    /// What `amount` kilograms, litres or pieces cost at this price, in whole units of the currency.
    ///
    /// # Errors
    /// A sentence past the range of a decimal.
    pub fn cost_of(self, amount: Decimal) -> Result<Decimal, Refusal> {
        self.amount
            .checked_mul(amount)
            .and_then(|money| money.checked_div(self.unit().amount))
            .ok_or_else(|| NoSum::TooFar.into())
    }

    /// As on an invoice: `€15.40 per kg`, `€1.20 a pack of 250 g`.
    #[must_use]
    pub fn show(self) -> String {
        let money = Money {
            amount: self.amount,
            currency: self.currency,
        }
        .show_fine();
        match self.per {
            Per::Kilo => format!("{money} per kg"),
            Per::Pound => format!("{money} per lb"),
            Per::Litre => format!("{money} per litre"),
            Per::Piece => format!("{money} a piece"),
            Per::Pack(content) => {
                format!("{money} a pack of {}", content.show(QuantityUnit::Gram))
            }
        }
    }
}
