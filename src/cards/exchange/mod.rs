//! A dish between kitchens, as schema.org/Recipe in JSON-LD: an open standard that other programs read.
//!
//! Ingredients travel twice: as plain texts in `recipeIngredient`, which every reader knows, and as `supply`
//! with quantity, price and trim yield, which come back exactly. Units are UN/CEFACT common codes.

mod read;
mod refusals;
mod supply;
mod words;
mod write;

pub use read::{Imported, read};
pub use write::write;

use crate::trade::plate::units::QuantityUnit;

/// The name of the trim yield among the properties of something bought.
const TRIM_YIELD: &str = "trim yield";
/// The name of what 100 ml weigh.
const HUNDRED_ML: &str = "weight of 100 ml";
/// The name of the share for what is never measured, which stands among the supplies in percent.
const UNMEASURED: &str = "what is never measured";
/// The UN/CEFACT code for percent.
const PERCENT: &str = "P1";

/// The UN/CEFACT common code of a unit; a spoon goes out as the millilitres it holds.
fn unit_code(unit: QuantityUnit) -> Option<&'static str> {
    match unit {
        QuantityUnit::Gram => Some("GRM"),
        QuantityUnit::Kilo => Some("KGM"),
        QuantityUnit::Ounce => Some("ONZ"),
        QuantityUnit::Pound => Some("LBR"),
        QuantityUnit::Millilitre => Some("MLT"),
        QuantityUnit::Litre => Some("LTR"),
        QuantityUnit::Piece => Some("C62"),
        QuantityUnit::Teaspoon | QuantityUnit::Tablespoon => None,
    }
}

/// The unit of a code.
fn unit_of_code(code: &str) -> Option<QuantityUnit> {
    QuantityUnit::ALL
        .into_iter()
        .find(|unit| unit_code(*unit) == Some(code))
}
