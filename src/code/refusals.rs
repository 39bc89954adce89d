//! What is said where a result can't be written as a code, or a code does not open.

use std::fmt;

use super::unopened::Unopened;
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
    /// The student's test has a number past 32.
    Test,
    /// Of the filleting nothing was told, or what no fish can be.
    Answers,
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
            Self::Test => "A code carries tests numbered 1 to 32.",
            Self::Answers => {
                "A code carries what became of the pin bones, or how a flat fish was cut, and not both."
            }
            Self::Length => "A code of this length can't be written.",
            Self::Nickname => "A nickname for the code is one to four letters, A to Z.",
            Self::Dish => "A code carries dishes numbered up to 15.",
            Self::Times => {
                "A code carries about ten minutes skin side down, five of finishing and ten of rest."
            }
        })
    }
}

impl Said for Unopened {}

impl fmt::Display for Unopened {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::TooShort { letters: 0, .. } => f.write_str("Type the code, or paste it."),
            Self::TooShort { group: Some(group), .. } => {
                write!(f, "Group {group} is short: every group has four letters.")
            }
            Self::TooShort { letters, .. } => write!(
                f,
                "The code is cut short: it has {letters} letters, and every code has 24 to 48 in groups of four."
            ),
            Self::TooLong { group: Some(group), .. } => {
                write!(f, "Group {group} is too long: every group has four letters.")
            }
            Self::TooLong { letters, .. } => write!(
                f,
                "The code is too long: it has {letters} letters, and every code has 24 to 48 in groups of four."
            ),
            Self::BadLetter { letter, group } => write!(
                f,
                "There is no {letter} in a code: look at group {group} again, or type ? for a letter you can't read."
            ),
            Self::TooManyWrong => f.write_str(
                "Too many letters are wrong, or a group is missing: read the code again group by group.",
            ),
            Self::WrongGroup(group) => write!(
                f,
                "Group {group} does not fit the others, which fit together: ask for group {group} again."
            ),
            Self::MissingGroup(group) => write!(
                f,
                "Group {group} is missing, and the others fit together: ask for group {group}."
            ),
            Self::FutureVersion(version) => write!(
                f,
                "This code was made by a newer app (format {version}): update this one to open it."
            ),
            Self::Newer(what) => write!(
                f,
                "This code names a {what} that this app does not know yet: update it to open the code."
            ),
            Self::OutOfRange(what) => write!(
                f,
                "The letters fit together, but the {what} in them can't be: ask for the code again."
            ),
        }
    }
}
