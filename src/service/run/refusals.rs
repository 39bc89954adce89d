//! What is said where a tap on a running service can't be taken.

use std::fmt;

use crate::base::refusal::Said;
use crate::base::stretch::in_words;
use crate::service::dish::step::Station;

/// Why a tap changes nothing. A step is called by its title.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum NoTap {
    /// No step has this id.
    NoStep(String),
    /// The step is without a timer.
    NoTimer(String),
    /// The step hasn't begun.
    NotBegun(String),
    /// The step has begun.
    Begun(String),
    /// The step is done.
    Done(String),
    /// The step is held.
    Held(String),
    /// The step isn't held.
    NotHeld(String),
    /// The timer of the step has rung.
    Rung(String),
    /// The step would run too much longer than planned.
    TooLong(String),
    /// The step follows what is to be undone, and has begun.
    FollowerBegun(String),
    /// The step waits for others.
    Waits {
        /// The step.
        step: String,
        /// What it waits for.
        on: Vec<String>,
    },
    /// The gap before the step is not over.
    TooSoon {
        /// The step.
        step: String,
        /// Milliseconds until it can begin.
        ms: i64,
    },
    /// The last place at a station is taken by the step.
    Taken(Station, String),
}

impl Said for NoTap {}

impl fmt::Display for NoTap {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NoStep(id) => write!(f, "“{id}” is not a step of this dish."),
            Self::NoTimer(step) => write!(f, "“{step}” ends by eye: it has no timer."),
            Self::NotBegun(step) => write!(f, "“{step}” hasn't begun."),
            Self::Begun(step) => write!(f, "“{step}” has begun already."),
            Self::Done(step) => write!(f, "“{step}” is done already."),
            Self::Held(step) => write!(f, "“{step}” is held already."),
            Self::NotHeld(step) => write!(f, "“{step}” isn't held."),
            Self::Rung(step) => write!(
                f,
                "“{step}” has rung: give it thirty seconds more, or call it done."
            ),
            Self::TooLong(step) => write!(
                f,
                "“{step}” would run an hour longer than planned: call it done, or undo it."
            ),
            Self::FollowerBegun(step) => write!(f, "“{step}” has begun since: undo that first."),
            Self::Waits { step, on } => {
                let on: Vec<_> = on.iter().map(|step| format!("“{step}”")).collect();
                write!(f, "“{step}” waits for {}.", on.join(" and "))
            }
            Self::TooSoon { step, ms } => {
                // Up to the next second, so that it is not tried a moment too soon.
                let left = in_words(ms.saturating_add(999));
                write!(f, "“{step}” can begin in {left}.")
            }
            Self::Taken(station, by) => {
                write!(f, "The {} is still taken by “{by}”.", station.name())
            }
        }
    }
}
