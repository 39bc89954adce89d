//! A dish that comes from another kitchen: what is understood of it is taken, the rest is named, nothing is
//! made up.

use std::collections::BTreeMap;

use serde_json::{Map, Value};

use super::refusals::NoRecipe;
use super::supply::{as_spoken, measured, supplied, unmeasured};
use super::words::spoken;
use crate::base::instant::Instant;
use crate::base::refusal::Refusal;
use crate::cards::ingredient::Origin;
use crate::cards::recipe::{LONGEST_FIELD, LONGEST_METHOD, MOST_LINES, Recipe, Serves};
use crate::fish::settings::Settings;
use crate::trade::money::Currency;
use crate::trade::plate::units::QuantityUnit;

/// The longest text that is read, in bytes: far past any dish.
const LONGEST: usize = 1_000_000;
/// The most parts made ahead that are taken with a dish.
const MOST_PARTS: usize = 20;
/// What is read of a dish; anything else in it is named as left out.
const KNOWN: [&str; 9] = [
    "@context",
    "@type",
    "@id",
    "name",
    "recipeYield",
    "recipeIngredient",
    "supply",
    "recipeInstructions",
    "hasPart",
];

/// What came of a text.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Imported {
    /// The cards in the order they have to be kept, parts before what they go into, the dish last; each with the
    /// mark the others name it by.
    pub cards: Vec<(String, Recipe)>,
    /// What was understood, a sentence each.
    pub taken: Vec<String>,
    /// What was not, a sentence each.
    pub left: Vec<String>,
}

impl Imported {
    /// A card with the marks of its parts exchanged for the identities they were kept under.
    #[must_use]
    pub fn with_identities(card: &Recipe, identities: &BTreeMap<String, String>) -> Recipe {
        let mut card = card.clone();
        for line in &mut card.lines {
            if let Origin::Part(mark) = &line.origin {
                line.origin = match identities.get(mark) {
                    Some(id) => Origin::Part(id.clone()),
                    None => Origin::Bought,
                };
            }
        }
        card
    }

    /// The dish itself.
    #[must_use]
    pub fn dish(&self) -> Option<&Recipe> {
        self.cards.last().map(|(_, card)| card)
    }
}

/// Reads a schema.org/Recipe in JSON-LD. Prices without a currency are taken to be in the cook's.
///
/// # Errors
/// One sentence when the text is no JSON, or there is no dish in it.
pub fn read(text: &str, now: Instant, settings: &Settings) -> Result<Imported, Refusal> {
    let text = text.trim().trim_start_matches('\u{feff}').trim();
    if text.is_empty() {
        return Err(NoRecipe::Empty.into());
    }
    if text.len() > LONGEST {
        return Err(NoRecipe::TooLong.into());
    }
    let whole: Value = serde_json::from_str(text).map_err(|fault| NoRecipe::NoJson {
        line: fault.line(),
        column: fault.column(),
    })?;
    let mut found = Vec::new();
    recipes(&whole, &mut found);
    let dish = found.first().ok_or(NoRecipe::NoneMarked)?;
    let mut reader = Reader {
        now,
        currency: settings.currency,
        cards: Vec::new(),
        taken: Vec::new(),
        left: Vec::new(),
    };
    reader.card(dish, String::new());
    if found.len() > 1 {
        reader.left.push(format!(
            "{} more in the same text: only the first dish was read.",
            found.len() - 1
        ));
    }
    Ok(Imported {
        cards: reader.cards,
        taken: reader.taken,
        left: reader.left,
    })
}

/// Finds the outermost things marked as a Recipe.
fn recipes<'a>(value: &'a Value, found: &mut Vec<&'a Map<String, Value>>) {
    match value {
        Value::Array(list) => list.iter().for_each(|value| recipes(value, found)),
        Value::Object(object) if is_a(object, "Recipe") => found.push(object),
        Value::Object(object) => object.values().for_each(|value| recipes(value, found)),
        _ => {}
    }
}

pub(super) fn is_a(object: &Map<String, Value>, kind: &str) -> bool {
    let names = |text: &str| {
        text == kind
            || ["http://schema.org/", "https://schema.org/", "schema:"]
                .iter()
                .any(|head| text.strip_prefix(head) == Some(kind))
    };
    each(object.get("@type")).any(|value| value.as_str().is_some_and(names))
}

/// One value or a list of them, as JSON-LD allows everywhere.
pub(super) fn each(value: Option<&Value>) -> impl Iterator<Item = &Value> {
    let (one, many) = match value {
        Some(Value::Array(list)) => (None, list.as_slice()),
        one => (one, [].as_slice()),
    };
    one.into_iter().chain(many)
}

/// A text, whatever it is wrapped in; a number as its figures.
pub(super) fn text_of(value: Option<&Value>) -> Option<String> {
    match value? {
        Value::String(text) => Some(text.trim().to_owned()),
        Value::Number(number) => Some(number.to_string()),
        Value::Array(list) => text_of(list.first()),
        Value::Object(object) => text_of(object.get("@value").or(object.get("value"))),
        _ => None,
    }
    .filter(|text| !text.is_empty())
}

pub(super) fn cut(text: &str, longest: usize) -> String {
    text.chars().take(longest).collect()
}

struct Reader {
    now: Instant,
    currency: Currency,
    cards: Vec<(String, Recipe)>,
    taken: Vec<String>,
    left: Vec<String>,
}

impl Reader {
    /// Reads a card after the parts inside it, so that every mark a line names is known by then.
    fn card(&mut self, object: &Map<String, Value>, mark: String) {
        for part in each(object.get("hasPart")).filter_map(Value::as_object) {
            if let Some(mark) = text_of(part.get("@id"))
                && is_a(part, "Recipe")
                && part.contains_key("recipeIngredient")
                && self.cards.len() < MOST_PARTS
                && !self.cards.iter().any(|(known, _)| *known == mark)
            {
                self.card(part, mark);
            }
        }
        let serves = if mark.is_empty() {
            Serves::Covers
        } else {
            Serves::Amount
        };
        let settings = Settings {
            currency: self.currency,
            ..Settings::default()
        };
        let mut card = Recipe::new(serves, self.now, &settings);
        let name = text_of(object.get("name")).unwrap_or_default();
        card.name = cut(&name, LONGEST_FIELD);
        self.comes_to(object, &mut card);
        card.method = cut(
            &steps(object.get("recipeInstructions")).join("\n"),
            LONGEST_METHOD,
        );
        self.lines(object, &mut card);
        let title = card.title();
        let open = card.lines.iter().filter(|line| !line.came_as.is_empty());
        let open = open.count();
        self.taken.push(format!(
            "{title}: {} lines{}.",
            card.lines.len(),
            match card.method.lines().count() {
                0 => String::new(),
                steps => format!(", {steps} steps"),
            }
        ));
        if open > 0 {
            self.left.push(format!(
                "{title}: the amount of {open} lines was not understood; they stand on the card as they came."
            ));
        }
        let unknown: Vec<&str> = object
            .keys()
            .map(String::as_str)
            .filter(|key| !KNOWN.contains(key))
            .take(12)
            .collect();
        if !unknown.is_empty() {
            self.left
                .push(format!("{title}: left out {}.", unknown.join(", ")));
        }
        self.cards.push((mark, card));
    }

    fn comes_to(&mut self, object: &Map<String, Value>, card: &mut Recipe) {
        let said = each(object.get("recipeYield")).filter_map(|value| {
            let quantity = value.as_object().and_then(measured);
            quantity
                .map(|(figure, unit)| format!("{figure} {}", unit.symbol()))
                .or_else(|| text_of(Some(value)))
        });
        let said: Vec<String> = said.collect();
        card.covers.clear();
        for text in &said {
            let amount = spoken(text).filter(|amount| amount.unit != QuantityUnit::Piece);
            if let Some(amount) = amount {
                card.serves = Serves::Amount;
                (card.makes, card.makes_unit) = (amount.quantity, amount.unit);
                return;
            }
            let number = text
                .split(|letter: char| !letter.is_ascii_digit())
                .find(|digits| !digits.is_empty() && digits.len() < 6);
            if let Some(number) = number {
                if card.serves == Serves::Covers {
                    card.covers = number.to_owned();
                } else {
                    (card.makes, card.makes_unit) = (number.to_owned(), QuantityUnit::Piece);
                }
                return;
            }
        }
        self.left
            .push(format!("{}: for how many it is.", card.title()));
    }

    fn lines(&mut self, object: &Map<String, Value>, card: &mut Recipe) {
        let mut supply: Vec<&Map<String, Value>> = each(object.get("supply"))
            .filter_map(Value::as_object)
            .collect();
        let texts: Vec<String> = each(object.get("recipeIngredient"))
            .filter_map(|value| text_of(Some(value)))
            .collect();
        if let Some(percent) = supply.iter().find_map(|item| unmeasured(item)) {
            card.share = cut(&percent, LONGEST_FIELD);
        }
        if texts.len() > MOST_LINES {
            self.left.push(format!(
                "{}: the lines after the first {MOST_LINES}.",
                card.title()
            ));
        }
        for text in texts.into_iter().take(MOST_LINES) {
            let at = supply.iter().position(|item| {
                text_of(item.get("name")).is_some_and(|name| text.ends_with(&name))
            });
            let line = at
                .map(|at| supply.remove(at))
                .and_then(|item| supplied(item, &self.cards, card))
                .unwrap_or_else(|| as_spoken(&text));
            card.lines.push(line);
        }
    }
}

/// The steps of a method, out of texts, steps and sections of steps.
fn steps(value: Option<&Value>) -> Vec<String> {
    let mut found = Vec::new();
    for value in each(value) {
        match value {
            Value::String(text) => found.extend(lines_of(text)),
            Value::Object(step) if step.contains_key("itemListElement") => {
                found.extend(steps(step.get("itemListElement")));
            }
            Value::Object(step) => {
                let text = text_of(step.get("text")).or_else(|| text_of(step.get("name")));
                found.extend(lines_of(&text.unwrap_or_default()));
            }
            _ => {}
        }
    }
    found
}

fn lines_of(text: &str) -> Vec<String> {
    text.lines()
        .map(str::trim)
        .filter(|line| !line.is_empty())
        .map(str::to_owned)
        .collect()
}
