//! What is said where a result can't be written as a code.

use std::fmt;

use crate::base::refusal::Said;

/// Why a result can't be written as a code.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum NoCode {
    /// The scale has a division that has no number.
    Division,
    /// A weight is heavier than any grain counts.
    Weight,
    /// The price has too many figures.
    Price,
    /// The portions or the fish are none, or too many.
    Counts,
    /// The student's test has a number past 8.
    Test,
    /// The letters are too many to be sealed.
    Length,
    /// The nickname is no word of one to four letters.
    Nickname,
    /// The dish has a number past 15.
    Dish,
    /// A time at the pan is too long.
    Times,
}

impl Said for NoCode {}

impl fmt::Display for NoCode {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::Division => "A code can't carry this scale's division.",
            Self::Weight => "A code can't carry a weight as heavy as this.",
            Self::Price => "The price has too many figures for a code: leave out the last one.",
            Self::Counts => "A code carries 1 to 63 portions and 1 to 32 fish.",
            Self::Test => "A code carries tests numbered 1 to 8.",
            Self::Length => "A code of this length can't be written.",
            Self::Nickname => "A nickname for the code is one to four letters, A to Z.",
            Self::Dish => "A code carries dishes numbered up to 15.",
            Self::Times => {
                "A code carries about ten minutes skin side down, five of finishing and ten of rest."
            }
        })
    }
}
