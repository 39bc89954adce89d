//! What is said where any room refuses a text, or a detour.

use std::fmt;

use super::kit::Kit;
use super::refusal::Said;

/// Why a text can't be kept.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum NoText {
    /// It is longer than [`super::text::LONGEST_TEXT`].
    TooLong,
}

impl Said for NoText {}

impl fmt::Display for NoText {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::TooLong => f.write_str("That is too long to keep: shorten it to 2,000 letters."),
        }
    }
}

/// Why it isn't known what changes without some kit.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) enum NoDetour {
    /// Two changes of what is called so stand for the same kit.
    Two {
        /// What changes.
        of: String,
        /// The kit that is missing.
        without: Kit,
    },
}

impl Said for NoDetour {}

impl fmt::Display for NoDetour {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Two { of, without } => write!(
                f,
                "“{of}” has two detours where there is no {}.",
                without.name()
            ),
        }
    }
}
