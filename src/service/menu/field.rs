//! What of a step a refusal stands beside, and why.

use crate::base::refusal::Refusal;
use crate::service::menu::refusals::NoEdit;

/// What of a step a refusal stands beside.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Field {
    /// Its name.
    Title,
    /// Its words.
    Say,
    /// Its caution.
    Caution,
    /// Its length.
    Secs,
    /// What each cover adds to it.
    PerCover,
    /// The hands at its start.
    HandsFirst,
    /// The heat of the oven.
    Oven,
    /// How the oven is shared.
    OvenShared,
    /// One of its gaps, counted from nought.
    Gap(usize),
    /// The step, or the dish, as a whole.
    Whole,
}

impl Field {
    /// What names it on a page.
    #[must_use]
    pub fn key(self) -> String {
        let key = match self {
            Self::Title => "Title",
            Self::Say => "Say",
            Self::Caution => "Caution",
            Self::Secs => "Secs",
            Self::PerCover => "PerCover",
            Self::HandsFirst => "HandsFirst",
            Self::Oven => "Oven",
            Self::OvenShared => "OvenShared",
            Self::Gap(nth) => return format!("Gap{nth}"),
            Self::Whole => "Whole",
        };
        key.to_owned()
    }
}

/// A change that can't be made: beside what, and why.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct EditFault {
    /// What the sentence stands beside.
    pub field: Field,
    /// The sentence.
    pub refusal: Refusal,
}
pub(super) fn at<T>(field: Field, of: Result<T, impl Into<Refusal>>) -> Result<T, EditFault> {
    of.map_err(|why| EditFault {
        field,
        refusal: why.into(),
    })
}

pub(super) fn refuse<T>(field: Field, why: NoEdit) -> Result<T, EditFault> {
    at(field, Err(why))
}
