//! An ingredient as other kitchens write it, in one text: `300 g sea bream, filleted`, `1 1/2 tbsp oil`.

use rust_decimal::Decimal;

use crate::trade::plate::units::QuantityUnit;
use crate::trade::rounding;

/// Words that stand where a unit stands and say no exact amount, or not the same one everywhere.
const VAGUE: [&str; 16] = [
    "cup", "cups", "pinch", "pinches", "handful", "handfuls", "bunch", "bunches", "fl", "fluid",
    "pint", "pints", "dash", "knob", "glass", "can",
];

/// What a text says.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Spoken {
    /// How much, as it would be typed.
    pub(super) quantity: String,
    pub(super) unit: QuantityUnit,
    /// The rest of the text.
    pub(super) rest: String,
}

/// Reads a quantity, its unit and what follows; `None` for a text that does not begin with one exact amount.
/// A figure without a unit counts pieces.
pub(super) fn spoken(text: &str) -> Option<Spoken> {
    let text = spaced(text);
    let mut words = text.split_whitespace().peekable();
    let mut amount = figure(words.next()?)?;
    if let Some(fraction) = words
        .peek()
        .copied()
        .filter(|word| word.contains('/'))
        .and_then(figure)
    {
        amount = amount.checked_add(fraction)?;
        words.next();
    }
    let (unit, factor) = match words.peek().copied().and_then(unit) {
        Some(found) => {
            words.next();
            found
        }
        None => (QuantityUnit::Piece, 1),
    };
    let next = words.peek().copied().unwrap_or_default().to_lowercase();
    let vague = VAGUE.contains(&next.trim_end_matches('.'));
    if vague || next.starts_with('-') || next == "to" || next == "or" || next == "x" {
        return None;
    }
    if next == "of" {
        words.next();
    }
    let rest: Vec<&str> = words.collect();
    let amount = amount.checked_mul(Decimal::from(factor))?;
    Some(Spoken {
        quantity: rounding::half_away(amount, 3).normalize().to_string(),
        unit,
        rest: rest.join(" "),
    })
}

/// A gap between a figure and what follows it; fractions of one letter written out.
fn spaced(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    let mut before = ' ';
    for letter in text.chars() {
        let fraction = match letter {
            '¼' => Some("1/4"),
            '½' => Some("1/2"),
            '¾' => Some("3/4"),
            '⅓' => Some("1/3"),
            '⅔' => Some("2/3"),
            '⅛' => Some("1/8"),
            _ => None,
        };
        if let Some(fraction) = fraction {
            out.push(' ');
            out.push_str(fraction);
            out.push(' ');
        } else {
            if before.is_ascii_digit() && letter.is_alphabetic() {
                out.push(' ');
            }
            out.push(if letter == '⁄' { '/' } else { letter });
        }
        before = letter;
    }
    out
}

fn figure(word: &str) -> Option<Decimal> {
    let plain = |text: &str| -> Option<Decimal> {
        let digits = text
            .chars()
            .all(|c| c.is_ascii_digit() || c == '.' || c == ',');
        let figure: Decimal = text.replace(',', ".").parse().ok().filter(|_| digits)?;
        (figure > Decimal::ZERO && figure < Decimal::from(1_000_000) && figure.scale() < 9)
            .then_some(figure)
    };
    match word.split_once('/') {
        Some((over, under)) => plain(over)?.checked_div(plain(under)?),
        None => plain(word),
    }
}

fn unit(word: &str) -> Option<(QuantityUnit, u32)> {
    let word = word.to_lowercase();
    Some(match word.trim_end_matches('.') {
        "g" | "gr" | "gram" | "grams" | "gramme" | "grammes" => (QuantityUnit::Gram, 1),
        "kg" | "kilo" | "kilos" | "kilogram" | "kilograms" => (QuantityUnit::Kilo, 1),
        "ml" | "millilitre" | "millilitres" | "milliliter" | "milliliters" => {
            (QuantityUnit::Millilitre, 1)
        }
        "cl" => (QuantityUnit::Millilitre, 10),
        "dl" => (QuantityUnit::Millilitre, 100),
        "l" | "litre" | "litres" | "liter" | "liters" => (QuantityUnit::Litre, 1),
        "tsp" | "teaspoon" | "teaspoons" => (QuantityUnit::Teaspoon, 1),
        "tbsp" | "tablespoon" | "tablespoons" => (QuantityUnit::Tablespoon, 1),
        "oz" | "ounce" | "ounces" => (QuantityUnit::Ounce, 1),
        "lb" | "lbs" | "pound" | "pounds" => (QuantityUnit::Pound, 1),
        "piece" | "pieces" => (QuantityUnit::Piece, 1),
        _ => return None,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn amounts_of_other_kitchens_are_read_where_they_are_exact() {
        use QuantityUnit::{
            Gram, Kilo, Litre, Millilitre, Ounce, Piece, Pound, Tablespoon, Teaspoon,
        };
        for (text, wanted) in [
            (
                "300 g sea bream, filleted",
                Some(("300", Gram, "sea bream, filleted")),
            ),
            ("300g of sea bream", Some(("300", Gram, "sea bream"))),
            ("1,5 kg potatoes", Some(("1.5", Kilo, "potatoes"))),
            ("2 dl cream", Some(("200", Millilitre, "cream"))),
            ("1 Liter water", Some(("1", Litre, "water"))),
            (
                "1 1/2 tbsp. olive oil",
                Some(("1.5", Tablespoon, "olive oil")),
            ),
            ("½ tsp salt", Some(("0.5", Teaspoon, "salt"))),
            ("1½ tsp salt", Some(("1.5", Teaspoon, "salt"))),
            ("1/3 lb butter", Some(("0.333", Pound, "butter"))),
            ("8 oz cod", Some(("8", Ounce, "cod"))),
            ("2 lemons", Some(("2", Piece, "lemons"))),
            ("2", Some(("2", Piece, ""))),
            ("salt to taste", None),
            ("2-3 cloves garlic", None),
            ("2 to 3 cloves garlic", None),
            ("1 cup flour", None),
            ("1 pinch salt", None),
            ("2 fl oz oil", None),
            ("0 g salt", None),
            ("1/0 lemon", None),
            ("99999999999999999999999999999999 g salt", None),
            ("1e9 lemons", Some(("1", Piece, "e9 lemons"))),
            ("", None),
        ] {
            let spoken = spoken(text);
            let found = spoken
                .as_ref()
                .map(|s| (s.quantity.as_str(), s.unit, s.rest.as_str()));
            assert_eq!(found, wanted, "{text:?}");
        }
    }
}
