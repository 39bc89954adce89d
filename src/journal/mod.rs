//! What a cook says of a fish or of a dish. The photos stand beside it, in a store of their own.

pub mod photo;

use std::collections::BTreeMap;

use serde::{Deserialize, Serialize};

use crate::base::refusal::Refusal;
use crate::base::text::short;

/// The journal of a record.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(default)]
pub struct Journal {
    /// The answers of the plate check.
    pub plate: BTreeMap<String, bool>,
    /// What the cook will do differently.
    pub note: String,
    /// What went well.
    pub went_well: String,
    /// How it tasted.
    pub taste: String,
}

/// A tap on a journal, as a plain value.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum JournalTap {
    /// A question of the plate check was answered.
    Plate(String, bool),
    /// What to do differently was typed.
    Note(String),
    /// What went well was typed.
    WentWell(String),
    /// How it tasted was typed.
    Taste(String),
}

impl Journal {
    /// The journal after a tap.
    ///
    /// # Errors
    /// The sentence for a text that is too long.
    pub fn apply(&self, tap: &JournalTap) -> Result<Self, Refusal> {
        let mut next = self.clone();
        match tap {
            JournalTap::Plate(ask, answer) => {
                next.plate.insert(ask.clone(), *answer);
            }
            JournalTap::Note(text) => next.note = short(text)?,
            JournalTap::WentWell(text) => next.went_well = short(text)?,
            JournalTap::Taste(text) => next.taste = short(text)?,
        }
        Ok(next)
    }

    /// Whether nothing is written in it.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        *self == Self::default()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::base::text::LONGEST_TEXT;

    #[test]
    fn a_tap_changes_its_field_and_a_text_too_long_changes_nothing() {
        let text = |text: &str| text.to_owned();
        let taps = [
            JournalTap::WentWell(text("crisp")),
            JournalTap::Note(text("dry it longer")),
            JournalTap::Taste(text("sweet")),
            JournalTap::Plate(text("hot"), false),
            JournalTap::Plate(text("hot"), true),
        ];
        assert!(Journal::default().is_empty());
        let after = taps.iter().fold(Journal::default(), |journal, tap| {
            journal.apply(tap).unwrap()
        });
        let wanted = Journal {
            plate: BTreeMap::from([(text("hot"), true)]),
            note: text("dry it longer"),
            went_well: text("crisp"),
            taste: text("sweet"),
        };
        assert_eq!(after, wanted);
        assert!(!after.is_empty());
        let longest = "ö".repeat(LONGEST_TEXT);
        assert!(after.apply(&JournalTap::Taste(longest.clone())).is_ok());
        let said = after.apply(&JournalTap::Taste(longest + "ö")).unwrap_err();
        assert!(said.to_string().contains("2,000 letters"), "{said}");
    }
}
