//! How much of an ingredient, and what it is priced by: by weight, by volume or by the piece.
//!
//! Amounts are exact decimals of a kilogram, a litre or a piece.

use rust_decimal::Decimal;
use serde::{Deserialize, Serialize};

use super::refusals::{NoQuantity, NoSum};
use crate::base::refusal::Refusal;
use crate::trade::figure;
use crate::trade::mass::Mass;
use crate::trade::rounding;

/// The international avoirdupois pound in kilograms, exactly, and its sixteenth, the ounce.
pub(super) const POUND: Decimal = Decimal::from_parts(45_359_237, 0, 0, false, 8);
const OUNCE: Decimal = Decimal::from_parts(2_579_719_349, 6, 0, false, 12);

/// The most kilograms, litres, or hundreds of pieces one line takes.
const MOST: Decimal = Decimal::ONE_HUNDRED;

/// What is counted.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Dimension {
    /// Weight, in kilograms.
    Mass,
    /// Volume, in litres.
    Volume,
    /// Pieces.
    Pieces,
}

impl Dimension {
    /// As in "give the quantity by weight".
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::Mass => "weight",
            Self::Volume => "volume",
            Self::Pieces => "pieces",
        }
    }
}

/// How a quantity is typed and shown.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum QuantityUnit {
    /// Grams.
    #[default]
    Gram,
    /// Kilograms.
    Kilo,
    /// Avoirdupois ounces.
    Ounce,
    /// Avoirdupois pounds.
    Pound,
    /// Millilitres.
    Millilitre,
    /// Litres.
    Litre,
    /// Spoons of 5 ml.
    Teaspoon,
    /// Spoons of 15 ml.
    Tablespoon,
    /// Pieces.
    Piece,
}

impl QuantityUnit {
    /// Every unit, in the order a picker shows them.
    pub const ALL: [Self; 9] = [
        Self::Gram,
        Self::Kilo,
        Self::Millilitre,
        Self::Litre,
        Self::Piece,
        Self::Teaspoon,
        Self::Tablespoon,
        Self::Ounce,
        Self::Pound,
    ];

    /// What it counts.
    #[must_use]
    pub fn kind(self) -> Dimension {
        match self {
            Self::Gram | Self::Kilo | Self::Ounce | Self::Pound => Dimension::Mass,
            Self::Millilitre | Self::Litre | Self::Teaspoon | Self::Tablespoon => Dimension::Volume,
            Self::Piece => Dimension::Pieces,
        }
    }

    /// What stands after a figure.
    #[must_use]
    pub fn symbol(self) -> &'static str {
        match self {
            Self::Gram => "g",
            Self::Kilo => "kg",
            Self::Ounce => "oz",
            Self::Pound => "lb",
            Self::Millilitre => "ml",
            Self::Litre => "l",
            Self::Teaspoon => "tsp",
            Self::Tablespoon => "tbsp",
            Self::Piece => "pieces",
        }
    }

    /// One of it in kilograms, litres or pieces. The spoons are those of 5 and 15 ml: common practice, no source.
    #[must_use]
    pub fn in_base(self) -> Decimal {
        match self {
            Self::Gram | Self::Millilitre => Decimal::new(1, 3),
            Self::Kilo | Self::Litre | Self::Piece => Decimal::ONE,
            Self::Ounce => OUNCE,
            Self::Pound => POUND,
            Self::Teaspoon => Decimal::new(5, 3),
            Self::Tablespoon => Decimal::new(15, 3),
        }
    }
}

/// How much of something, in kilograms, litres or pieces. Never negative.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Quantity {
    /// What is counted.
    pub kind: Dimension,
    /// How many kilograms, litres or pieces.
    pub amount: Decimal,
}

impl Quantity {
    /// `amount` kilograms, litres or pieces.
    #[must_use]
    pub const fn new(kind: Dimension, amount: Decimal) -> Self {
        Self { kind, amount }
    }

    /// A weight.
    #[must_use]
    pub fn of_mass(mass: Mass) -> Self {
        Self::new(Dimension::Mass, mass.in_kilos())
    }

    /// As many times as much.
    ///
    /// # Errors
    /// A sentence past the range of a decimal.
    pub fn times(self, factor: Decimal) -> Result<Self, Refusal> {
        let amount = self.amount.checked_mul(factor).ok_or(NoSum::TooFar)?;
        Ok(Self::new(self.kind, amount))
    }

    /// As a cook reads it, in the family of `unit`: grams under a kilo, ounces under a pound, millilitres
    /// under a litre. Spoons stay spoons up to eight of them.
    #[must_use]
    pub fn show(self, unit: QuantityUnit) -> String {
        let unit = self.shown_in(unit);
        let figure = self.amount / unit.in_base();
        let digits = match unit {
            QuantityUnit::Gram | QuantityUnit::Millilitre if figure >= Decimal::ONE_HUNDRED => 0,
            QuantityUnit::Gram | QuantityUnit::Millilitre => 1,
            QuantityUnit::Kilo | QuantityUnit::Litre => 3,
            _ => 2,
        };
        let figure = rounding::half_away(figure, digits).normalize();
        if unit == QuantityUnit::Piece {
            let word = if figure == Decimal::ONE {
                "piece"
            } else {
                "pieces"
            };
            return format!("{figure} {word}");
        }
        format!("{figure} {}", unit.symbol())
    }

    /// The unit of `unit`'s family that this amount reads best in.
    fn shown_in(self, unit: QuantityUnit) -> QuantityUnit {
        let pounds = matches!(unit, QuantityUnit::Ounce | QuantityUnit::Pound);
        match self.kind {
            Dimension::Mass if pounds && self.amount < POUND => QuantityUnit::Ounce,
            Dimension::Mass if pounds => QuantityUnit::Pound,
            Dimension::Mass if self.amount < Decimal::ONE => QuantityUnit::Gram,
            Dimension::Mass => QuantityUnit::Kilo,
            Dimension::Volume => {
                let spoon = matches!(unit, QuantityUnit::Teaspoon | QuantityUnit::Tablespoon);
                if spoon && self.amount <= Decimal::from(8) * unit.in_base() {
                    unit
                } else if self.amount < Decimal::ONE {
                    QuantityUnit::Millilitre
                } else {
                    QuantityUnit::Litre
                }
            }
            Dimension::Pieces => QuantityUnit::Piece,
        }
    }
}

/// Reads a quantity as typed, with or without the unit's symbol after it.
///
/// # Errors
/// One sentence when the text is empty, zero, negative, no figure, too precise or too large.
pub fn parse(text: &str, unit: QuantityUnit) -> Result<Quantity, Refusal> {
    let text = text.trim().to_lowercase();
    let text = text.strip_suffix(unit.symbol()).unwrap_or(&text);
    let figure = figure::read(text, 3).map_err(|fault| NoQuantity::NoFigure(fault, unit))?;
    if figure.is_zero() {
        return Err(NoQuantity::Zero.into());
    }
    let amount = figure.checked_mul(unit.in_base()).ok_or(NoSum::TooFar)?;
    let most = if unit.kind() == Dimension::Pieces {
        MOST * MOST
    } else {
        MOST
    };
    if amount > most {
        return Err(NoQuantity::TooMuch(unit.kind()).into());
    }
    Ok(Quantity::new(unit.kind(), amount))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn quantities_are_read_exactly() {
        for (text, unit, kind, amount) in [
            ("150", QuantityUnit::Gram, Dimension::Mass, "0.150"),
            ("1,5 kg", QuantityUnit::Kilo, Dimension::Mass, "1.5"),
            ("8 oz", QuantityUnit::Ounce, Dimension::Mass, "0.226796185"),
            ("2", QuantityUnit::Pound, Dimension::Mass, "0.90718474"),
            (
                "7.5 ml",
                QuantityUnit::Millilitre,
                Dimension::Volume,
                "0.0075",
            ),
            ("0.25 l", QuantityUnit::Litre, Dimension::Volume, "0.25"),
            ("2 tsp", QuantityUnit::Teaspoon, Dimension::Volume, "0.010"),
            ("1.5", QuantityUnit::Tablespoon, Dimension::Volume, "0.0225"),
            ("0.5", QuantityUnit::Piece, Dimension::Pieces, "0.5"),
        ] {
            let wanted = Quantity::new(kind, amount.parse().unwrap());
            assert_eq!(parse(text, unit), Ok(wanted), "{text} {unit:?}");
        }
    }

    #[test]
    fn what_is_no_quantity_is_refused_with_its_own_sentence() {
        for (text, unit, said) in [
            ("", QuantityUnit::Gram, "how much"),
            ("0", QuantityUnit::Gram, "is zero"),
            ("-3", QuantityUnit::Gram, "below zero"),
            ("some", QuantityUnit::Gram, "it is in g"),
            ("2 kg", QuantityUnit::Piece, "it is in pieces"),
            ("1.2.3", QuantityUnit::Kilo, "two decimal marks"),
            ("1 6", QuantityUnit::Kilo, "a gap inside"),
            ("1.2345", QuantityUnit::Kilo, "three decimals"),
            ("101", QuantityUnit::Kilo, "more than 100 kg"),
            ("101", QuantityUnit::Litre, "more than 100 litres"),
            ("10001", QuantityUnit::Piece, "10,000 pieces"),
            ("99999999999999999999999", QuantityUnit::Gram, "100 kg"),
        ] {
            let refusal = parse(text, unit).unwrap_err().to_string();
            assert!(refusal.contains(said), "{text:?} {unit:?}: {refusal}");
        }
    }

    #[test]
    fn quantities_are_shown_as_a_cook_reads_them() {
        for (kind, amount, unit, wanted) in [
            (Dimension::Mass, "0.150", QuantityUnit::Kilo, "150 g"),
            (Dimension::Mass, "0.00755", QuantityUnit::Gram, "7.6 g"),
            (Dimension::Mass, "8.72727", QuantityUnit::Gram, "8.727 kg"),
            (Dimension::Mass, "0.226796185", QuantityUnit::Pound, "8 oz"),
            (Dimension::Mass, "0.90718474", QuantityUnit::Ounce, "2 lb"),
            (Dimension::Volume, "0.010", QuantityUnit::Teaspoon, "2 tsp"),
            (Dimension::Volume, "0.060", QuantityUnit::Teaspoon, "60 ml"),
            (
                Dimension::Volume,
                "1.25",
                QuantityUnit::Tablespoon,
                "1.25 l",
            ),
            (Dimension::Pieces, "1", QuantityUnit::Piece, "1 piece"),
            (Dimension::Pieces, "2.5", QuantityUnit::Gram, "2.5 pieces"),
        ] {
            let quantity = Quantity::new(kind, amount.parse().unwrap());
            assert_eq!(quantity.show(unit), wanted);
        }
    }
}
