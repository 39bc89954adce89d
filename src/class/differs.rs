//! What two results of one student have in common, and what not: so that a tutor can tell a correction from another fish.

use super::result::ClassResult;
use crate::trade::mass::{Mass, Unit, show};

/// The readings of a fish that both took, and whether they are the same.
fn weights(one: &ClassResult, other: &ClassResult) -> [Option<bool>; 3] {
    let (one, other) = (one.sheet.weights, other.sheet.weights);
    [
        Some(one.delivered == other.delivered),
        (one.off_bone.zip(other.off_bone)).map(|(one, other)| one == other),
        Some(one.ready == other.ready),
    ]
}

/// Whether both are plainly one fish: at least two readings are the same, to the last step of the scale.
#[must_use]
pub fn is_one_fish(one: &ClassResult, other: &ClassResult) -> bool {
    let same = weights(one, other)
        .into_iter()
        .filter(|same| *same == Some(true));
    same.count() >= 2
}

/// What is different, from `one` to `other`, and which of fish, form and price are the same.
#[must_use]
pub fn told(one: &ClassResult, other: &ClassResult) -> String {
    let grams = |mass: Option<Mass>| {
        mass.map_or_else(|| "not weighed".into(), |mass| show(mass, Unit::Gram))
    };
    let price = |result: &ClassResult| {
        let price = result.sheet.price;
        price.map_or_else(|| "none".to_owned(), |price| price.show())
    };
    let weights = |result: &ClassResult| result.sheet.weights;
    let lines: [(&str, String, String); 7] = [
        (
            "fish",
            one.species().to_lowercase(),
            other.species().to_lowercase(),
        ),
        (
            "form",
            one.sheet.form.name().into(),
            other.sheet.form.name().into(),
        ),
        ("price", price(one), price(other)),
        (
            "delivered",
            grams(Some(weights(one).delivered)),
            grams(Some(weights(other).delivered)),
        ),
        (
            "off the bone",
            grams(weights(one).off_bone),
            grams(weights(other).off_bone),
        ),
        (
            "ready",
            grams(Some(weights(one).ready)),
            grams(Some(weights(other).ready)),
        ),
        (
            "day",
            one.sheet.day.to_string(),
            other.sheet.day.to_string(),
        ),
    ];
    let (same, changed): (Vec<_>, Vec<_>) = lines.iter().partition(|(_, one, other)| one == other);
    let mut said: Vec<String> = changed
        .iter()
        .map(|(name, one, other)| format!("{name} {one}, then {other}"))
        .collect();
    let same: Vec<&str> = same
        .iter()
        .map(|(name, ..)| *name)
        .filter(|name| ["fish", "form", "price"].contains(name))
        .collect();
    match same.as_slice() {
        [] => {}
        [all @ .., last] if !all.is_empty() => {
            said.push(format!("{} and {last} the same", all.join(", ")));
        }
        [one, ..] => said.push(format!("{one} the same")),
    }
    said.join("; ")
}
