//! What is said where there is no plan.

use std::fmt;

use super::check::{MOST_LINKS, MOST_PLACES, MOST_STATIONS, MOST_TASKS, MOST_WEIGHT};
use super::quarrel::Quarrel;
use crate::base::refusal::{Refusal, Said};
use crate::service::dish::refusals::NoLaying;

/// Why there is no plan.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum NoPlan {
    /// The data makes no sense.
    Refused(Refusal),
    /// Nothing fits, and here is why.
    Quarrel(Box<Quarrel>),
    /// Neither a plan nor a proof that there is none, within so many choices.
    Undecided {
        /// Choices made.
        nodes: u64,
    },
}

impl<T: Said> From<T> for NoPlan {
    fn from(reason: T) -> Self {
        Self::Refused(reason.into())
    }
}

impl fmt::Display for NoPlan {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Refused(refusal) => refusal.fmt(f),
            Self::Quarrel(quarrel) => f.write_str(&quarrel.sentence),
            Self::Undecided { .. } => f.write_str(
                "No plan was found in the time given: make the dish simpler, or its gaps wider.",
            ),
        }
    }
}

impl std::error::Error for NoPlan {}

/// What of a kitchen has an id of its own.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum KitchenPart {
    /// A task.
    Task,
    /// A station.
    Station,
}

/// Why a kitchen makes no sense. A task and a station are called by their names.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum NoKitchen {
    /// It is past what a plan holds.
    TooLarge,
    /// It is for no cook, or for too many.
    Cooks,
    /// The station has too many places.
    ManyPlaces(String),
    /// The station takes too long to be made ready, or less than nothing.
    Ready(String),
    /// Two of a kind have this id.
    Twice(KitchenPart, String),
    /// No task has this id.
    NoTask(String),
    /// The gap between the tasks of these ids is too long.
    LongGap(String, String),
    /// Between the tasks the least gap is above the greatest.
    GapsCrossed(String, String),
    /// The task lasts too long, or less than nothing.
    Lasts(String),
    /// The task takes hands for longer than it lasts.
    ManyHands(String),
    /// Waiting for the task counts too much.
    ManyTimes(String),
    /// The task needs the station of this id, which there is not.
    NoStation(String, String),
    /// The task needs more places at a station than there are.
    FewPlaces {
        /// The task.
        task: String,
        /// The station.
        station: String,
        /// Places it needs.
        wanted: i32,
        /// Places there are.
        there: u32,
    },
    /// Its times add up to years.
    Years,
    /// Links wait for each other, and so they ask.
    Circle(Vec<String>),
}

impl Said for NoKitchen {}

impl fmt::Display for NoKitchen {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::TooLarge => write!(
                f,
                "A plan holds at most {MOST_TASKS} steps, {MOST_LINKS} links and {MOST_STATIONS} stations."
            ),
            Self::Cooks => NoLaying::Cooks.fmt(f),
            Self::ManyPlaces(station) => {
                write!(f, "The {station} has more than {MOST_PLACES} places.")
            }
            Self::Ready(station) => write!(
                f,
                "The {station} must be made ready in between nothing and two days."
            ),
            Self::Twice(KitchenPart::Task, id) => write!(f, "Two steps are both called “{id}”."),
            Self::Twice(KitchenPart::Station, id) => {
                write!(f, "Two stations are both called “{id}”.")
            }
            Self::NoTask(id) => write!(f, "There is no step called “{id}” in this dish."),
            Self::LongGap(from, to) => write!(
                f,
                "The gap between “{from}” and “{to}” is longer than two days."
            ),
            Self::GapsCrossed(from, to) => write!(
                f,
                "Between “{from}” and “{to}” the least gap is longer than the greatest."
            ),
            Self::Lasts(task) => {
                write!(f, "“{task}” must last between nothing and two days.")
            }
            Self::ManyHands(task) => write!(f, "“{task}” takes hands for longer than it lasts."),
            Self::ManyTimes(task) => write!(
                f,
                "Waiting for “{task}” may count at most {MOST_WEIGHT} times."
            ),
            Self::NoStation(task, id) => {
                write!(f, "“{task}” needs “{id}”, which is not in this kitchen.")
            }
            Self::FewPlaces {
                task,
                station,
                wanted,
                there,
            } => write!(
                f,
                "“{task}” needs {wanted} places at the {station}, and there are {there}."
            ),
            Self::Years => f.write_str("The times of this dish add up to years: check them."),
            Self::Circle(demands) => {
                write!(f, "These wait for each other: {}.", demands.join("; "))
            }
        }
    }
}

/// Why what has happened so far can't have. A task is called by its name.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum NoProgress {
    /// Plating is too far away.
    FarPlating,
    /// Plating has begun.
    Plated,
    /// The task has started twice.
    Twice(String),
    /// The task has started or ended after now.
    AfterNow(String),
    /// The task has started days ago.
    LongAgo(String),
    /// The task has ended before it started.
    EndsFirst(String),
}

impl Said for NoProgress {}

impl fmt::Display for NoProgress {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::FarPlating => f.write_str("Plating is more than two days away."),
            Self::Plated => f.write_str("Plating has begun: nothing is left to plan."),
            Self::Twice(task) => write!(f, "“{task}” has started twice."),
            Self::AfterNow(task) => write!(f, "“{task}” can't have happened after now."),
            Self::LongAgo(task) => write!(f, "“{task}” started more than two days ago."),
            Self::EndsFirst(task) => write!(f, "“{task}” can't have ended before it started."),
        }
    }
}
