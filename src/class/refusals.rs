//! What is said where a class can't be kept as it is wanted, or not be written as a sheet.

use std::fmt;

use crate::base::refusal::Said;

/// Why a class can't be so.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum NoClass {
    /// It has no name.
    Unnamed,
    /// Its name is too long.
    LongName,
    /// It has more than [`super::class_list::MOST_CODES`].
    Full,
}

impl Said for NoClass {}

impl fmt::Display for NoClass {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::Unnamed => "Give the class a name, so that you can find it again.",
            Self::LongName => "Keep the name of the class under 60 letters.",
            Self::Full => "A class holds 5000 codes: begin another class for the rest.",
        })
    }
}

/// Why there is no class sheet.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum NoSheet {
    /// It can't be put together.
    Unwritten,
}

impl Said for NoSheet {}

impl fmt::Display for NoSheet {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Unwritten => f.write_str("The class sheet could not be written."),
        }
    }
}
