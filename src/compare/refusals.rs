//! What is said where tests can't be written as a table, or a table not be read.

use std::fmt;

use super::taken::NEEDED;
use crate::base::refusal::{Refusal, Said};

/// Why there is no table.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum NoTable {
    /// It can't be put together.
    Unwritten,
    /// The file holds none.
    NoneThere,
    /// Its first line has no column of this name.
    NoColumn(&'static str),
}

impl Said for NoTable {}

impl fmt::Display for NoTable {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Unwritten => f.write_str("The table could not be written."),
            Self::NoneThere => f.write_str("There is no table in this file."),
            Self::NoColumn(lacking) => write!(
                f,
                "The first line has no column “{lacking}”: a table of tests has at least the columns {}.",
                NEEDED.join(", ")
            ),
        }
    }
}

/// Why a line of a table is no test. A column is called by its name, a cell by what stands in it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum NoTest {
    /// The line is not to be parted into cells.
    Unreadable,
    /// The cell of this column is longer than is kept.
    LongCell(&'static str),
    /// This is no identity.
    NoIdentity(String),
    /// This is no date.
    NoDate(String),
    /// This may be two days.
    EitherDay(String),
    /// This day is still to come.
    DayAhead(String),
    /// This is no delivery form.
    NoForm(String),
    /// This is nothing that its column knows.
    Unknown {
        /// The column.
        column: &'static str,
        /// What stands there.
        text: String,
    },
    /// What stands in this column is no weight, and why.
    NoWeight(&'static str, Refusal),
    /// This price doesn't read, and why.
    NoPrice(String, Refusal),
    /// The number of the test is none of a student's.
    NoNumber,
    /// It has no delivered or no ready weight.
    Unweighed,
    /// It has too many kept parts.
    ManyKept,
}

impl Said for NoTest {}

impl fmt::Display for NoTest {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Unreadable => f.write_str("This line could not be read."),
            Self::LongCell(column) => write!(
                f,
                "The cell “{column}” is too long to keep: shorten it to 2,000 letters."
            ),
            Self::NoIdentity(text) => write!(
                f,
                "“{}” is no identity: leave the cell empty for a test of your own writing.",
                Short(text)
            ),
            Self::NoDate(text) => write!(
                f,
                "“{}” is no date: write it as 2026-03-09, year, month and day.",
                Short(text)
            ),
            Self::EitherDay(text) => write!(
                f,
                "“{}” may be two days: write it as 2026-03-09, year, month and day.",
                Short(text)
            ),
            Self::DayAhead(text) => {
                write!(f, "“{}” is still to come: check the date.", Short(text))
            }
            Self::NoForm(text) => write!(
                f,
                "“{}” is no delivery form: write whole, gutted, gutted and scaled, or headed and gutted.",
                Short(text)
            ),
            Self::Unknown { column, text } => {
                write!(f, "“{}” is not known under “{column}”.", Short(text))
            }
            Self::NoWeight(column, why) => write!(f, "Under “{column}”: {why}"),
            Self::NoPrice(text, why) => write!(
                f,
                "It comes without a price, for “{}” is none: {why}",
                Short(text)
            ),
            Self::NoNumber => f.write_str("A test has a number from 1 to 32, or none."),
            Self::Unweighed => f.write_str("A test has a delivered and a ready weight."),
            Self::ManyKept => f.write_str("One fish has at most eight kept parts."),
        }
    }
}

/// The beginning of a text, for a sentence about it.
struct Short<'a>(&'a str);

impl fmt::Display for Short<'_> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        const MOST: usize = 40;
        let end = self.0.char_indices().nth(MOST);
        match end.and_then(|(end, _)| self.0.get(..end)) {
            Some(beginning) => write!(f, "{beginning}…"),
            None => f.write_str(self.0),
        }
    }
}
