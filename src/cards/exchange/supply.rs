//! One line of a dish that comes from another kitchen: with its price and its yield, or as words alone.

use serde_json::{Map, Value};

use super::read::{cut, each, is_a, text_of};
use super::words::{Spoken, spoken};
use super::{HUNDRED_ML, PERCENT, TRIM_YIELD, UNMEASURED, unit_of_code};
use crate::cards::ingredient::{Ingredient, Origin, PricedBy};
use crate::cards::recipe::{LONGEST_CAME_AS, LONGEST_FIELD, Recipe};
use crate::trade::money::Currency;
use crate::trade::plate::line::LineGroup;
use crate::trade::plate::units::{Dimension, QuantityUnit};

/// A line with its quantity, its price and its yield; `None` when the quantity is not among them.
pub(super) fn supplied(
    item: &Map<String, Value>,
    parts: &[(String, Recipe)],
    card: &mut Recipe,
) -> Option<Ingredient> {
    let (quantity, unit) = measured(item.get("requiredQuantity")?.as_object()?)?;
    let mut line = Ingredient {
        name: cut(&text_of(item.get("name"))?, LONGEST_FIELD),
        quantity,
        unit,
        ..Ingredient::default()
    };
    let Some(item) = item.get("item").and_then(Value::as_object) else {
        return Some(line);
    };
    if is_a(item, "Recipe") {
        let mark = text_of(item.get("@id"))?;
        let known = parts.iter().any(|(known, _)| *known == mark);
        line.origin = if known {
            Origin::Part(mark)
        } else {
            Origin::Bought
        };
        return Some(line);
    }
    let category = text_of(item.get("category")).unwrap_or_default();
    line.group = LineGroup::ALL
        .into_iter()
        .find(|group| group.name() == category);
    for property in each(item.get("additionalProperty")).filter_map(Value::as_object) {
        let value = text_of(property.get("value")).unwrap_or_default();
        let code = text_of(property.get("unitCode")).unwrap_or_default();
        match text_of(property.get("name")).as_deref() {
            Some(TRIM_YIELD) if code == PERCENT => line.trim = cut(&value, LONGEST_FIELD),
            Some(HUNDRED_ML) if code == "GRM" => line.density = cut(&value, LONGEST_FIELD),
            _ => {}
        }
    }
    if line.group == Some(LineGroup::Fish) && !line.trim.is_empty() {
        line.origin = Origin::TypedFish;
    }
    if let Some((grams, QuantityUnit::Gram)) = item
        .get("weight")
        .and_then(Value::as_object)
        .and_then(measured)
    {
        line.piece = grams;
    }
    let price = each(item.get("offers"))
        .filter_map(|offer| offer.get("priceSpecification")?.as_object())
        .next();
    if let Some(price) = price {
        priced(price, &mut line, card);
    }
    Some(line)
}

/// The share for what is never measured, in percent, where this item is that.
pub(super) fn unmeasured(item: &Map<String, Value>) -> Option<String> {
    let quantity = item.get("requiredQuantity")?.as_object()?;
    let is_share = text_of(item.get("name")).as_deref() == Some(UNMEASURED)
        && text_of(quantity.get("unitCode")).as_deref() == Some(PERCENT);
    text_of(quantity.get("value")).filter(|_| is_share)
}

fn priced(price: &Map<String, Value>, line: &mut Ingredient, card: &mut Recipe) {
    let currency = text_of(price.get("priceCurrency")).unwrap_or_default();
    let currency = Currency::ALL
        .into_iter()
        .find(|known| known.code() == currency);
    let first = card.lines.iter().all(|line| line.price.is_empty());
    match currency {
        // The first price says what the card is costed in; one in another currency can't stand on it.
        Some(currency) if first => card.currency = currency,
        Some(currency) if currency != card.currency => return,
        _ => {}
    }
    let Some((figure, unit)) = price
        .get("referenceQuantity")
        .and_then(Value::as_object)
        .and_then(measured)
    else {
        return;
    };
    line.price = cut(
        &text_of(price.get("price")).unwrap_or_default(),
        LONGEST_FIELD,
    );
    line.per = Some(match (figure.as_str(), unit) {
        ("1", QuantityUnit::Kilo) => PricedBy::Kilo,
        ("1", QuantityUnit::Pound) => PricedBy::Pound,
        ("1", QuantityUnit::Litre) => PricedBy::Litre,
        ("1", QuantityUnit::Piece) => PricedBy::Piece,
        _ => {
            (line.pack, line.pack_unit) = (figure, unit);
            PricedBy::Pack
        }
    });
}

/// The figure and the unit of a QuantitativeValue.
pub(super) fn measured(value: &Map<String, Value>) -> Option<(String, QuantityUnit)> {
    let unit = unit_of_code(&text_of(value.get("unitCode"))?)?;
    let figure = spoken(&text_of(value.get("value"))?)?;
    (figure.unit.kind() == Dimension::Pieces && figure.rest.is_empty())
        .then_some((figure.quantity, unit))
}

pub(super) fn as_spoken(text: &str) -> Ingredient {
    match spoken(text) {
        Some(Spoken {
            quantity,
            unit,
            rest,
        }) if !rest.is_empty() => Ingredient {
            name: cut(&rest, LONGEST_FIELD),
            quantity,
            unit,
            ..Ingredient::default()
        },
        _ => Ingredient {
            name: cut(text, LONGEST_FIELD),
            came_as: cut(text, LONGEST_CAME_AS),
            ..Ingredient::default()
        },
    }
}
