//! What is said where a text is refused, in any room.

use std::fmt;

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
