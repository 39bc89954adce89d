//! What is said where a fish can't be moved in or out of the cold.

use std::fmt;

use super::chill::Chill;
use crate::base::instant::Instant;
use crate::base::refusal::Said;

/// Why a fish stays where it is.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum NoMove {
    /// It is in the fridge.
    InFridge,
    /// It is out.
    Out,
    /// At this moment it has been out for too long to go back.
    TooLongOut(Chill, Instant),
}

impl Said for NoMove {}

impl fmt::Display for NoMove {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::InFridge => f.write_str("The fish is in the fridge already."),
            Self::Out => f.write_str("The fish is out already."),
            Self::TooLongOut(chill, now) => f.write_str(&chill.sentence(*now)),
        }
    }
}
