//! A dish for other covers: exact, and as a kitchen measures it, with the difference shown.

use rust_decimal::Decimal;

use super::line::{PlateLine, Preparation, Source};
use super::refusals::{NoCovers, NoSum};
use super::units::{Dimension, Quantity, QuantityUnit};
use crate::base::refusal::Refusal;
use crate::trade::rounding;

/// The most covers a dish is scaled to.
pub const MOST_COVERS: u32 = 10_000;

/// One line for other covers.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ScaledLine {
    /// The ingredient.
    pub name: String,
    /// The unit it is spoken of in.
    pub unit: QuantityUnit,
    /// How much, exactly.
    pub exact: Quantity,
    /// How much, as a kitchen measures it.
    pub rounded: Quantity,
    /// The lines of a part made ahead, for what this line takes of it.
    pub parts: Vec<ScaledLine>,
}

impl ScaledLine {
    /// How far the rounding is off, as a share of the exact quantity; zero when it is exact.
    #[must_use]
    pub fn off(&self) -> Decimal {
        (self.rounded.amount - self.exact.amount)
            .checked_div(self.exact.amount)
            .unwrap_or_default()
    }
}

/// Reads a number of covers.
///
/// # Errors
/// One sentence when it is no whole number from 1 to 10,000.
pub fn parse_covers(text: &str) -> Result<u32, Refusal> {
    let text = text.trim();
    let why = match text.parse::<u32>() {
        Ok(0) => NoCovers::Zero,
        Ok(covers) if covers <= MOST_COVERS => return Ok(covers),
        Ok(_) => NoCovers::TooMany,
        Err(_) if text.is_empty() => NoCovers::Empty,
        Err(_) => NoCovers::NotWhole,
    };
    Err(why.into())
}

/// Every line of a dish for `covers`.
///
/// # Errors
/// A sentence past the range of a decimal, or for a part that is not made by what it is used by.
pub fn scaled(dish: &Preparation, covers: u32) -> Result<Vec<ScaledLine>, Refusal> {
    let factor = Decimal::from(covers) / Decimal::from(dish.covers());
    times(dish, factor)
}

fn times(preparation: &Preparation, factor: Decimal) -> Result<Vec<ScaledLine>, Refusal> {
    preparation
        .lines
        .iter()
        .map(|line| scaled_line(line, factor))
        .collect()
}

fn scaled_line(line: &PlateLine, factor: Decimal) -> Result<ScaledLine, Refusal> {
    let exact = line.quantity.times(factor)?;
    let parts = match &line.source {
        Source::Bought(_) => Vec::new(),
        Source::Part(part) => {
            let batches = line.batches(part)?.checked_mul(factor);
            times(part, batches.ok_or(NoSum::TooFar)?)?
        }
    };
    Ok(ScaledLine {
        name: line.name.clone(),
        unit: line.unit,
        exact,
        rounded: kitchen(exact, line.unit),
        parts,
    })
}

/// A quantity as a kitchen measures it, to the nearest step and never to nothing.
///
/// Steps (common practice, no source): under 10 g or ml a tenth, under 100 one, under 1000 five, above
/// that ten, from ten kilos or litres on a hundred; a quarter of an ounce, under a pound, a whole one above; half a
/// spoon; half a piece, from ten on a whole one.
#[must_use]
pub fn kitchen(exact: Quantity, unit: QuantityUnit) -> Quantity {
    let pounds = matches!(unit, QuantityUnit::Ounce | QuantityUnit::Pound);
    let spoons = matches!(unit, QuantityUnit::Teaspoon | QuantityUnit::Tablespoon);
    let small = exact.amount <= Decimal::from(8) * unit.in_base();
    let step = match exact.kind {
        Dimension::Mass if pounds => {
            let ounce = QuantityUnit::Ounce.in_base();
            if exact.amount < QuantityUnit::Pound.in_base() {
                ounce / Decimal::from(4)
            } else {
                ounce
            }
        }
        Dimension::Volume if spoons && small => unit.in_base() / Decimal::from(2),
        Dimension::Mass | Dimension::Volume => metric_step(exact.amount),
        Dimension::Pieces if exact.amount < Decimal::TEN => Decimal::new(5, 1),
        Dimension::Pieces => Decimal::ONE,
    };
    let steps = rounding::half_away(exact.amount / step, 0).max(Decimal::ONE);
    Quantity::new(exact.kind, (steps * step).normalize())
}

/// The step of an amount in kilograms or litres.
fn metric_step(amount: Decimal) -> Decimal {
    for (under, step) in [
        (Decimal::new(10, 3), Decimal::new(1, 4)),
        (Decimal::new(100, 3), Decimal::new(1, 3)),
        (Decimal::ONE, Decimal::new(5, 3)),
        (Decimal::TEN, Decimal::new(10, 3)),
    ] {
        if amount < under {
            return step;
        }
    }
    Decimal::new(100, 3)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn quantities_are_rounded_as_a_kitchen_measures() {
        for (amount, kind, unit, shown) in [
            ("0.00444", Dimension::Mass, QuantityUnit::Gram, "4.4 g"),
            ("0.0474", Dimension::Mass, QuantityUnit::Gram, "47 g"),
            ("0.4726", Dimension::Mass, QuantityUnit::Gram, "475 g"),
            ("1.0049", Dimension::Mass, QuantityUnit::Gram, "1 kg"),
            ("12.349", Dimension::Mass, QuantityUnit::Kilo, "12.3 kg"),
            ("0.00001", Dimension::Mass, QuantityUnit::Gram, "0.1 g"),
            (
                "0.0123",
                Dimension::Volume,
                QuantityUnit::Teaspoon,
                "2.5 tsp",
            ),
            (
                "0.1234",
                Dimension::Volume,
                QuantityUnit::Tablespoon,
                "125 ml",
            ),
            ("0.01", Dimension::Mass, QuantityUnit::Ounce, "0.25 oz"),
            ("0.1", Dimension::Pieces, QuantityUnit::Piece, "0.5 pieces"),
            ("2.6", Dimension::Pieces, QuantityUnit::Piece, "2.5 pieces"),
            ("10.6", Dimension::Pieces, QuantityUnit::Piece, "11 pieces"),
        ] {
            let exact = Quantity::new(kind, amount.parse().unwrap());
            assert_eq!(kitchen(exact, unit).show(unit), shown, "{amount}");
        }
    }

    #[test]
    fn covers_are_whole_and_sensible() {
        for (text, wanted) in [
            (" 24 ", Some(24)),
            ("10000", Some(10_000)),
            ("10001", None),
            ("0", None),
            ("", None),
            ("2.5", None),
            ("-3", None),
        ] {
            assert_eq!(parse_covers(text).ok(), wanted, "{text:?}");
        }
    }
}
