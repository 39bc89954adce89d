//! Why a code did not open, in a cook's words.

use std::fmt;

use crate::base::refusal::Said;

/// Why a code did not open. Groups count from 1.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Unopened {
    /// Letters are missing.
    TooShort {
        /// Letters there are.
        letters: usize,
        /// The first group with fewer than four, if the groups were kept apart.
        group: Option<usize>,
    },
    /// There are letters too many.
    TooLong {
        /// Letters there are.
        letters: usize,
        /// The first group with more than four, if the groups were kept apart.
        group: Option<usize>,
    },
    /// A character that is in no code.
    BadLetter {
        /// The character.
        letter: char,
        /// The group it stands in.
        group: usize,
    },
    /// More letters are wrong or unread than can be mended.
    TooManyWrong,
    /// The code was made by a later version of the format.
    FutureVersion(u8),
    /// The code names something that this version of the app does not know.
    Newer(&'static str),
    /// The letters hold but a field does not make sense.
    OutOfRange(&'static str),
}

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

impl std::error::Error for Unopened {}

impl Said for Unopened {}
