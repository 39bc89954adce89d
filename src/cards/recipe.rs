//! A cook's own dish, or a part made ahead for one, as typed: its lines, its price, what is wanted of it.

use serde::{Deserialize, Serialize};

use super::ingredient::Ingredient;
use super::refusals::NoChange;
use crate::base::instant::Instant;
use crate::base::part;
use crate::base::refusal::Refusal;
use crate::fish::settings::Settings;
use crate::journal::{Journal, JournalTap};
use crate::service::dish::{Dish, PlateCheck};
use crate::store::entry::Entry;
use crate::trade::money::Currency;
use crate::trade::plate::units::QuantityUnit;

/// The most lines of one dish.
pub const MOST_LINES: usize = 60;
/// The longest text of a field, in letters.
pub const LONGEST_FIELD: usize = 120;
/// The longest text of a line as it came, in letters.
pub const LONGEST_CAME_AS: usize = 400;
/// The longest method, in letters.
pub const LONGEST_METHOD: usize = 8_000;

/// What the lines of a card come to.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Serves {
    /// A dish for covers.
    #[default]
    Covers,
    /// A part made ahead: so much of it.
    Amount,
}

/// A card as it is kept.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Recipe {
    /// What the cook calls it.
    pub name: String,
    /// When it was begun.
    pub begun: Instant,
    /// Whether it is the demonstration, with invented figures.
    #[serde(default)]
    pub demo: bool,
    /// Whether it is a dish or a part made ahead.
    #[serde(default)]
    pub serves: Serves,
    /// For how many covers the lines are, as typed.
    #[serde(default)]
    pub covers: String,
    /// How much of a part the lines make, as typed.
    #[serde(default)]
    pub makes: String,
    /// The unit of what a part makes.
    #[serde(default)]
    pub makes_unit: QuantityUnit,
    /// The currency of every price on it.
    #[serde(default)]
    pub currency: Currency,
    /// Its lines.
    #[serde(
        default,
        deserialize_with = "part::read",
        serialize_with = "part::write"
    )]
    pub lines: Vec<Ingredient>,
    /// What is added for what is never measured, in percent of the measured cost; empty for nothing.
    #[serde(default)]
    pub share: String,
    /// How it is made, a step a line.
    #[serde(default)]
    pub method: String,
    /// The price on the menu, tax included, as typed.
    #[serde(default)]
    pub price: String,
    /// The tax in the price on the menu, in percent; empty for none.
    #[serde(default)]
    pub tax: String,
    /// The food-cost share that is wanted, in percent.
    #[serde(default)]
    pub target: String,
    /// For how many covers it is scaled and ordered, as typed.
    #[serde(default)]
    pub wanted: String,
    /// How many more covers are ordered for, in percent; empty for none.
    #[serde(default)]
    pub margin: String,
    /// How it is cooked, step by step, once the cook has said so.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub steps: Option<Box<Dish>>,
    /// What the cook says of it.
    #[serde(default, skip_serializing_if = "Journal::is_empty")]
    pub journal: Journal,
}

/// What a tap does to a card.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum RecipeAction {
    /// It was given another name.
    Name(String),
    /// What its lines are for was typed: covers of a dish.
    Covers(String),
    /// How much of a part they make was typed, and its unit.
    Makes(String, QuantityUnit),
    /// The currency was chosen.
    Currency(Currency),
    /// The share for what is never measured was typed.
    Share(String),
    /// The method was typed.
    Method(String),
    /// An empty line with this identity was added.
    AddLine(String),
    /// Something of the line `id` was typed or chosen.
    Line {
        /// Which line.
        id: String,
        /// The line as it was.
        was: Box<Ingredient>,
        /// The line as it is to be.
        is: Box<Ingredient>,
    },
    /// The line with this identity was taken out.
    DropLine(String),
    /// The price on the menu was typed.
    Price(String),
    /// The tax was typed.
    Tax(String),
    /// The wanted food-cost share was typed.
    Target(String),
    /// The covers to scale to and order for were typed.
    Wanted(String),
    /// The margin of an order was typed.
    Margin(String),
    /// The steps of its service were changed.
    Steps {
        /// The steps as they were.
        was: Option<Box<Dish>>,
        /// The steps as they are to be.
        is: Box<Dish>,
    },
    /// A tap on the journal.
    Journal(JournalTap),
}

impl Recipe {
    /// An empty card in the cook's currency.
    #[must_use]
    pub fn new(serves: Serves, now: Instant, settings: &Settings) -> Self {
        Self {
            name: String::new(),
            begun: now,
            demo: false,
            serves,
            covers: "2".to_owned(),
            makes: String::new(),
            makes_unit: QuantityUnit::Gram,
            currency: settings.currency,
            lines: Vec::new(),
            share: String::new(),
            method: String::new(),
            price: String::new(),
            tax: String::new(),
            target: "30".to_owned(),
            wanted: String::new(),
            margin: String::new(),
            steps: None,
            journal: Journal::default(),
        }
    }

    /// The name it goes by in a list.
    #[must_use]
    pub fn title(&self) -> String {
        match (self.name.trim(), self.serves) {
            ("", Serves::Covers) => "A dish without a name".to_owned(),
            ("", Serves::Amount) => "A part without a name".to_owned(),
            (name, _) => name.to_owned(),
        }
    }

    /// The questions about its plate: of its own steps, or of those that it starts from.
    #[must_use]
    pub fn plate_check(&self) -> Vec<PlateCheck> {
        let steps = self.steps.as_deref().or(self.starting().ok());
        steps.map_or_else(Vec::new, |steps| steps.plate_check.clone())
    }
}

impl Entry for Recipe {
    type Action = RecipeAction;
    const KIND: &'static str = "recipe";
    const NOUN: &'static str = "dish";

    fn begun(&self) -> Instant {
        self.begun
    }

    fn is_demo(&self) -> bool {
        self.demo
    }

    fn apply(&self, action: &RecipeAction, _now: Instant) -> Result<Self, Refusal> {
        let mut next = self.clone();
        match action {
            RecipeAction::Name(text) => next.name = field(text)?,
            RecipeAction::Covers(text) => next.covers = field(text)?,
            RecipeAction::Makes(text, unit) => {
                next.makes = field(text)?;
                next.makes_unit = *unit;
            }
            RecipeAction::Currency(currency) => next.currency = *currency,
            RecipeAction::Share(text) => next.share = field(text)?,
            RecipeAction::Method(text) => next.method = within(text, LONGEST_METHOD)?,
            RecipeAction::AddLine(id) => {
                if part::place_of(&self.lines, id).is_some() {
                    return Ok(next);
                }
                if self.lines.len() >= MOST_LINES {
                    return Err(NoChange::ManyLines.into());
                }
                next.lines.push(Ingredient {
                    id: id.clone(),
                    ..Ingredient::default()
                });
            }
            RecipeAction::Line { id, was, is } => {
                for text in is.typed() {
                    field(text)?;
                }
                within(&is.came_as, LONGEST_CAME_AS)?;
                let line = part::find_mut(&mut next.lines, id);
                line.ok_or(NoChange::LineGone)?.retype(was, is);
            }
            RecipeAction::DropLine(id) => {
                let at = part::place_of(&self.lines, id).ok_or(NoChange::LineGone)?;
                next.lines.remove(at);
            }
            RecipeAction::Price(text) => next.price = field(text)?,
            RecipeAction::Tax(text) => next.tax = field(text)?,
            RecipeAction::Target(text) => next.target = field(text)?,
            RecipeAction::Wanted(text) => next.wanted = field(text)?,
            RecipeAction::Margin(text) => next.margin = field(text)?,
            // A step leans on others: two tabs' changes are not put together unseen.
            RecipeAction::Steps { was, .. } if *was != self.steps => {
                return Err(NoChange::StepsChanged.into());
            }
            RecipeAction::Steps { is, .. } => next.steps = Some(is.clone()),
            RecipeAction::Journal(tap) => next.journal = self.journal.apply(tap)?,
        }
        Ok(next)
    }
}

fn field(text: &str) -> Result<String, Refusal> {
    within(text, LONGEST_FIELD)
}

fn within(text: &str, longest: usize) -> Result<String, Refusal> {
    if text.chars().count() > longest {
        return Err(NoChange::TooLong(longest).into());
    }
    Ok(text.to_owned())
}

#[cfg(test)]
mod tests {
    use super::*;

    const NOW: Instant = Instant(1_773_099_000_000);

    fn card() -> Recipe {
        Recipe::new(Serves::Covers, NOW, &Settings::default())
    }

    #[test]
    fn a_tap_changes_its_field_and_no_other() {
        let empty = Ingredient {
            id: "a".into(),
            ..Ingredient::default()
        };
        let line = Ingredient {
            name: "Leek".into(),
            quantity: "200".into(),
            ..empty.clone()
        };
        let typed = RecipeAction::Line {
            id: "a".into(),
            was: Box::new(empty),
            is: Box::new(line.clone()),
        };
        let actions = [
            RecipeAction::Name("Bream".into()),
            RecipeAction::Covers("4".into()),
            RecipeAction::AddLine("a".into()),
            typed,
            RecipeAction::AddLine("b".into()),
            RecipeAction::AddLine("a".into()),
            RecipeAction::DropLine("b".into()),
            RecipeAction::Share("2".into()),
            RecipeAction::Wanted("24".into()),
        ];
        let after = actions
            .iter()
            .fold(card(), |card, action| card.apply(action, NOW).unwrap());
        let wanted = Recipe {
            name: "Bream".into(),
            covers: "4".into(),
            lines: vec![line],
            share: "2".into(),
            wanted: "24".into(),
            ..card()
        };
        assert_eq!(after, wanted);
    }

    #[test]
    fn what_can_t_be_done_is_said() {
        let long = "x".repeat(121);
        let typed = |is: &Ingredient| RecipeAction::Line {
            id: "a".into(),
            was: Box::default(),
            is: Box::new(is.clone()),
        };
        for (action, said) in [
            (RecipeAction::Name(long.clone()), "120 letters"),
            (RecipeAction::DropLine("a".into()), "removed in another tab"),
            (typed(&Ingredient::default()), "removed in another tab"),
        ] {
            let refusal = card().apply(&action, NOW).unwrap_err().to_string();
            assert!(refusal.contains(said), "{refusal}");
        }
        let mut full = card();
        full.lines = vec![Ingredient::default(); MOST_LINES];
        assert!(full.apply(&RecipeAction::AddLine("a".into()), NOW).is_err());
        let line = Ingredient {
            name: long,
            ..Ingredient::default()
        };
        assert!(full.apply(&typed(&line), NOW).is_err());
    }

    #[test]
    fn a_card_of_an_older_build_is_read() {
        let old: Recipe = serde_json::from_str(r#"{"name":"Bream","begun":5}"#).unwrap();
        assert_eq!((old.title().as_str(), old.lines.len()), ("Bream", 0));
        let text = serde_json::to_string(&card()).unwrap();
        assert_eq!(serde_json::from_str::<Recipe>(&text).unwrap(), card());
    }
}
