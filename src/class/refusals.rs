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

/// Why something of the lesson can't be kept.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum NoLesson {
    /// The roster has more than [`super::lesson::MOST_EXPECTED`].
    FullRoster,
    /// A criterion has no name.
    UnnamedCriterion,
    /// Its name is too long.
    LongCriterion,
    /// There are more than [`super::lesson::MOST_CRITERIA`].
    FullCriteria,
    /// The most points are none, or too many.
    MostPoints,
    /// The mark is too long.
    LongMark,
    /// These points can't be, of so many.
    Points(u16),
}

impl Said for NoLesson {}

impl fmt::Display for NoLesson {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::FullRoster => "A roster holds 500 nicknames: begin another class for the rest.",
            Self::UnnamedCriterion => "Say what you mark, such as: clean frame.",
            Self::LongCriterion => "Keep the name of a criterion under 60 letters.",
            Self::FullCriteria => "A class has room for 12 criteria: take one off first.",
            Self::MostPoints => "Give each criterion 1 to 100 points.",
            Self::LongMark => "Keep the mark under 20 letters, and say the rest in words.",
            Self::Points(most) => return write!(f, "Give 0 to {most} points."),
        })
    }
}
