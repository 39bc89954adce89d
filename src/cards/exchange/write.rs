//! A card, with the parts made ahead for it, as JSON-LD.

use serde_json::{Map, Value, json};

use super::{HUNDRED_ML, PERCENT, TRIM_YIELD, UNMEASURED, unit_code};
use crate::cards::ingredient::{Ingredient, Origin};
use crate::cards::larder;
use crate::cards::larder::Larder;
use crate::cards::recipe::{Recipe, Serves};
use crate::trade::plate::invoice::{Per, Price};
use crate::trade::plate::line::{Bought, PlateLine, Source};
use crate::trade::plate::units::{Dimension, Quantity, QuantityUnit};
use crate::trade::rounding;
use rust_decimal::Decimal;

/// The card `id` as JSON-LD text. A fish of the cook's own goes out with the yield and the price it had.
#[must_use]
pub fn write(id: &str, card: &Recipe, larder: Larder) -> String {
    let mut recipe = recipe(id, card, larder, &mut vec![id.to_owned()]);
    let mut whole = Map::new();
    whole.insert("@context".to_owned(), json!("https://schema.org"));
    whole.append(&mut recipe);
    serde_json::to_string_pretty(&whole).unwrap_or_default()
}

fn recipe(id: &str, card: &Recipe, larder: Larder, trail: &mut Vec<String>) -> Map<String, Value> {
    let reading = larder::read(id, card, larder);
    let mut ingredients = Vec::new();
    let mut supply = Vec::new();
    let mut parts = Vec::new();
    for (at, written) in card.lines.iter().enumerate() {
        let line = reading
            .places
            .iter()
            .zip(&reading.preparation.lines)
            .find(|(place, _)| **place == at);
        let Some((_, line)) = line else {
            ingredients.push(json!(as_typed(written, larder)));
            continue;
        };
        ingredients.push(json!(spoken(line)));
        match (&line.source, &written.origin) {
            (Source::Bought(bought), _) => supply.push(supplied(line, product(line, bought))),
            (Source::Part(_), Origin::Part(part)) => {
                supply.push(supplied(
                    line,
                    json!({ "@type": "Recipe", "@id": mark(part) }),
                ));
                if let Some(card) = (larder.card)(part).filter(|_| !trail.contains(part)) {
                    trail.push(part.clone());
                    let mut whole = recipe(part, &card, larder, trail);
                    trail.pop();
                    whole.insert("@id".to_owned(), json!(mark(part)));
                    let whole = Value::Object(whole);
                    if !parts.contains(&whole) {
                        parts.push(whole);
                    }
                }
            }
            (Source::Part(_), _) => {}
        }
    }
    if !reading.preparation.share.is_zero() {
        let percent = (reading.preparation.share * Decimal::ONE_HUNDRED).normalize();
        supply.push(json!({
            "@type": "HowToSupply",
            "name": UNMEASURED,
            "requiredQuantity": { "@type": "QuantitativeValue", "value": percent.to_string(), "unitCode": PERCENT },
        }));
    }
    let steps: Vec<Value> = card
        .method
        .lines()
        .map(str::trim)
        .filter(|line| !line.is_empty())
        .map(|line| json!({ "@type": "HowToStep", "text": line }))
        .collect();
    let comes_to = match card.serves {
        Serves::Covers => format!("{} covers", card.covers.trim()),
        Serves::Amount => format!("{} {}", card.makes.trim(), card.makes_unit.symbol()),
    };
    let mut whole = Map::new();
    for (name, value) in [
        ("@type", json!("Recipe")),
        ("name", json!(card.title())),
        ("recipeYield", json!(comes_to)),
        ("recipeIngredient", Value::Array(ingredients)),
        ("supply", Value::Array(supply)),
        ("recipeInstructions", Value::Array(steps)),
        ("hasPart", Value::Array(parts)),
    ] {
        if value.as_array().is_none_or(|list| !list.is_empty()) {
            whole.insert(name.to_owned(), value);
        }
    }
    whole
}

fn mark(part: &str) -> String {
    format!("#{part}")
}

fn as_typed(written: &Ingredient, larder: Larder) -> String {
    if written.quantity.trim().is_empty() && !written.came_as.is_empty() {
        return written.came_as.clone();
    }
    let title = written.title(larder);
    match written.quantity.trim() {
        "" => title,
        quantity => format!("{quantity} {} {title}", written.unit.symbol()),
    }
}

fn spoken(line: &PlateLine) -> String {
    let figure = figure(line.quantity, line.unit);
    match line.unit {
        QuantityUnit::Piece => format!("{figure} {}", line.name),
        unit => format!("{figure} {} {}", unit.symbol(), line.name),
    }
}

fn figure(quantity: Quantity, unit: QuantityUnit) -> String {
    rounding::half_away(quantity.amount / unit.in_base(), 6)
        .normalize()
        .to_string()
}

fn supplied(line: &PlateLine, item: Value) -> Value {
    json!({
        "@type": "HowToSupply",
        "name": line.name,
        "requiredQuantity": quantity(line.quantity, line.unit),
        "item": item,
    })
}

fn quantity(quantity: Quantity, unit: QuantityUnit) -> Value {
    let unit = match (unit_code(unit), quantity.kind) {
        (Some(_), _) => unit,
        (None, _) => QuantityUnit::Millilitre,
    };
    json!({
        "@type": "QuantitativeValue",
        "value": figure(quantity, unit),
        "unitCode": unit_code(unit),
    })
}

fn product(line: &PlateLine, bought: &Bought) -> Value {
    let mut properties = Vec::new();
    if bought.trim != Decimal::ONE || bought.fish.is_some() {
        let percent = rounding::half_away(bought.trim * Decimal::ONE_HUNDRED, 3).normalize();
        properties.push(property(TRIM_YIELD, percent, PERCENT));
    }
    if let Some(density) = bought.density {
        let grams = (density * Decimal::ONE_HUNDRED).normalize();
        properties.push(property(HUNDRED_ML, grams, "GRM"));
    }
    let mut product = Map::new();
    product.insert("@type".to_owned(), json!("Product"));
    product.insert("name".to_owned(), json!(line.name));
    product.insert("category".to_owned(), json!(bought.group.name()));
    product.insert("offers".to_owned(), offer(bought.price));
    if let Some(piece) = bought.piece {
        let weight = Quantity::new(Dimension::Mass, piece);
        product.insert("weight".to_owned(), quantity(weight, QuantityUnit::Gram));
    }
    if !properties.is_empty() {
        product.insert("additionalProperty".to_owned(), Value::Array(properties));
    }
    Value::Object(product)
}

fn property(name: &str, value: Decimal, code: &str) -> Value {
    json!({ "@type": "PropertyValue", "name": name, "value": value.to_string(), "unitCode": code })
}

fn offer(price: Price) -> Value {
    let unit = match price.per {
        Per::Kilo => QuantityUnit::Kilo,
        Per::Pound => QuantityUnit::Pound,
        Per::Litre => QuantityUnit::Litre,
        Per::Piece => QuantityUnit::Piece,
        Per::Pack(content) => match content.kind {
            Dimension::Mass => QuantityUnit::Gram,
            Dimension::Volume => QuantityUnit::Millilitre,
            Dimension::Pieces => QuantityUnit::Piece,
        },
    };
    json!({
        "@type": "Offer",
        "priceSpecification": {
            "@type": "UnitPriceSpecification",
            "price": price.amount.normalize().to_string(),
            "priceCurrency": price.currency.code(),
            "referenceQuantity": quantity(price.unit(), unit),
        },
    })
}
