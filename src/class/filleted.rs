//! How the fillets of a result were made, as its code tells: what a student said, and never a guess.

use super::result::ClassResult;
use crate::base::filleted::{FilletAnswer, FilletQuestion};
use crate::base::kit::Kit;
use crate::trade::species;

/// What is said where a code holds no answer.
pub const NOT_TOLD: &str = "not told";

/// The kit whose lack says most of what is asked, where nobody was asked.
#[must_use]
pub fn of_kit(kit: Kit) -> Option<FilletQuestion> {
    match kit {
        Kit::Pliers => Some(FilletQuestion::PinBones),
        Kit::FlexibleKnife => Some(FilletQuestion::Knife),
        Kit::NonStickPan | Kit::Probe | Kit::FineGrater => None,
    }
}

impl ClassResult {
    /// What the student said of a question; nothing where the code does not tell.
    #[must_use]
    pub fn filleted(&self, question: FilletQuestion) -> Option<FilletAnswer> {
        self.sheet.technique.told(question)
    }

    /// The same in words, [`NOT_TOLD`] where the code does not tell; nothing where the question is of other fish.
    #[must_use]
    pub fn filleted_told(&self, question: FilletQuestion) -> Option<&'static str> {
        if let Some(answer) = self.filleted(question) {
            return Some(answer.name());
        }
        let is_flat = self.filleted(FilletQuestion::Method).is_some()
            || self.sheet.fish.key().is_some_and(species::is_flat);
        let is_asked = match question {
            FilletQuestion::Skin | FilletQuestion::Knife => true,
            FilletQuestion::PinBones => !is_flat,
            FilletQuestion::Method => is_flat,
        };
        is_asked.then_some(NOT_TOLD)
    }

    /// All that the student said, in one line.
    #[must_use]
    pub fn filleted_line(&self) -> String {
        let answers = self.sheet.technique.answers();
        if answers.is_empty() {
            return NOT_TOLD.to_owned();
        }
        answers.told()
    }
}

/// Whether any of these told something of their filleting.
#[must_use]
pub fn is_any_told<'a>(results: impl IntoIterator<Item = &'a ClassResult>) -> bool {
    let mut results = results.into_iter();
    results.any(|one| !one.sheet.technique.answers().is_empty())
}

/// The answer that more than half of those gave who told; nothing where fewer than `fewest` did.
#[must_use]
pub fn usual<'a>(
    question: FilletQuestion,
    results: impl IntoIterator<Item = &'a ClassResult>,
    fewest: usize,
) -> Option<FilletAnswer> {
    let told = results.into_iter().filter_map(|one| one.filleted(question));
    let mut told: Vec<FilletAnswer> = told.collect();
    told.sort_unstable();
    let middle = told.get(told.len() / 2).copied()?;
    let alike = told.iter().filter(|answer| **answer == middle).count();
    (told.len() >= fewest && alike * 2 > told.len()).then_some(middle)
}
