//! What is said where a dish doesn't hold together, or can't be laid out.

use std::fmt;

use super::laid_out::{MOST_COOKS, MOST_PANFULS, MOST_PANS};
use crate::base::refusal::Said;

/// What of a dish has an id of its own.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum DishPart {
    /// A step.
    Step,
    /// A line of the mise en place.
    MiseLine,
    /// A question about the plate.
    PlateCheck,
}

/// Why a dish doesn't hold together. A dish and a step are called by their names.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) enum NoDish {
    /// It is no dish, for this reason.
    Unreadable(String),
    /// What was kept of it with a fish is no dish.
    NotKept,
    /// No dish of the wanted id comes with this build.
    NotShipped,
    /// The dish serves nobody, or nothing.
    NothingServed(String),
    /// The dish has no step at the plate.
    NoPlate(String),
    /// Two of a kind have this id.
    Twice(DishPart, String),
    /// The timer of the step is at zero.
    TimerAtZero(String),
    /// The step needs hands for longer than it lasts.
    ManyHands(String),
    /// The step waits for itself.
    WaitsForItself(String),
    /// The step waits for this id, which no step has.
    WaitsForNone(String, String),
    /// The step has a least gap above its greatest.
    GapsCrossed(String),
    /// The step begins at once, and has a least gap.
    GapAtOnce(String),
    /// The steps wait for each other.
    Circle(Vec<String>),
}

impl Said for NoDish {}

impl fmt::Display for NoDish {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Unreadable(why) => write!(f, "A dish can't be read: {why}."),
            Self::NotKept => f.write_str(
                "The steps kept with this fish can't be read: start the service again, or choose the dish anew.",
            ),
            Self::NotShipped => f.write_str("This dish is not in this version of Scaleside."),
            Self::NothingServed(dish) => {
                write!(f, "“{dish}” needs covers and a portion above zero.")
            }
            Self::NoPlate(dish) => write!(f, "“{dish}” has no step at the plate."),
            Self::Twice(named, id) => {
                let named = match named {
                    DishPart::Step => "steps",
                    DishPart::MiseLine => "mise lines",
                    DishPart::PlateCheck => "questions about the plates",
                };
                write!(f, "There are two {named} called “{id}”.")
            }
            Self::TimerAtZero(step) => write!(f, "The timer of “{step}” is at zero."),
            Self::ManyHands(step) => write!(f, "“{step}” needs hands for longer than it lasts."),
            Self::WaitsForItself(step) => write!(f, "“{step}” waits for itself."),
            Self::WaitsForNone(step, id) => write!(
                f,
                "“{step}” waits for “{id}”, which is not a step of this dish."
            ),
            Self::GapsCrossed(step) => {
                write!(f, "“{step}” has a least gap longer than its greatest gap.")
            }
            Self::GapAtOnce(step) => {
                write!(f, "“{step}” begins at once, so it can't have a least gap.")
            }
            Self::Circle(steps) => {
                let steps: Vec<_> = steps.iter().map(|step| format!("“{step}”")).collect();
                write!(f, "These steps wait for each other: {}.", steps.join(", "))
            }
        }
    }
}

/// Why a dish can't be laid out for a service.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) enum NoLaying {
    /// There is no cook, or there are too many.
    Cooks,
    /// There are no covers.
    NoCovers,
    /// Nothing lies in the pan.
    EmptyPan,
    /// The covers make more panfuls than one service has.
    ManyPanfuls,
    /// There is no pan, or there are too many.
    Pans,
    /// There is no panful, or there are too many.
    Panfuls,
    /// The dish of this name has no fish to repeat.
    NoFish(String),
}

impl Said for NoLaying {}

impl fmt::Display for NoLaying {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Cooks => write!(f, "A plan is for 1 to {MOST_COOKS} cooks."),
            Self::NoCovers => f.write_str("How many covers?"),
            Self::EmptyPan => f.write_str("The pan must hold at least one fillet."),
            Self::ManyPanfuls => write!(
                f,
                "That is more than {MOST_PANFULS} panfuls: use a wider pan."
            ),
            Self::Pans => write!(f, "A service is planned for 1 to {MOST_PANS} pans."),
            Self::Panfuls => write!(f, "The fish goes into the pan 1 to {MOST_PANFULS} times."),
            Self::NoFish(dish) => write!(
                f,
                "“{dish}” doesn't say which steps are done again for the next panful of fish."
            ),
        }
    }
}
