//! What is said where a fish can't be moved in or out of the cold, or the filleting can't be read.

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

/// Why the cuts of this build don't hold together.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum NoFilleting {
    /// They are no cuts, for this reason.
    Unreadable(String),
    /// Two have this id.
    Twice(String),
    /// The cut of this title is for no form of fish.
    ForNoForm(String),
    /// There are none.
    NoCuts,
}

impl Said for NoFilleting {}

impl fmt::Display for NoFilleting {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Unreadable(why) => write!(f, "The filleting can't be read: {why}."),
            Self::Twice(id) => write!(f, "There are two cuts called “{id}”."),
            Self::ForNoForm(title) => write!(f, "“{title}” is for no form of fish at all."),
            Self::NoCuts => f.write_str("The filleting has no cuts."),
        }
    }
}
