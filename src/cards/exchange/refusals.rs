//! What is said where a text holds no dish.

use std::fmt;

use crate::base::refusal::Said;

/// Why a text is no dish.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum NoRecipe {
    /// There is no text.
    Empty,
    /// It is longer than any dish.
    TooLong,
    /// It is no JSON from here on.
    NoJson {
        /// The line, from 1.
        line: usize,
        /// The column, from 1.
        column: usize,
    },
    /// Nothing in it is said to be a dish.
    NoneMarked,
}

impl Said for NoRecipe {}

impl fmt::Display for NoRecipe {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Empty => f.write_str("Paste a dish first, or choose its file."),
            Self::TooLong => f.write_str("That is too long to be one dish: paste only the dish."),
            Self::NoJson { line, column } => write!(
                f,
                "This is no JSON-LD: it breaks off or goes wrong at line {line}, column {column}."
            ),
            Self::NoneMarked => {
                f.write_str("There is no dish in it: nothing is marked as a Recipe.")
            }
        }
    }
}
