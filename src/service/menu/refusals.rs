//! What is said where a cook's change of a dish can't be made.

use std::fmt;

use crate::base::refusal::Said;

/// Why a dish can't be changed so.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum NoEdit {
    /// The step has no name.
    NoTitle,
    /// The step says nothing.
    NoWords,
    /// The dish has no name.
    NoName,
    /// A text has more than so many letters.
    Long(usize),
    /// What was typed is no time.
    NoTime(String),
    /// A time is over four hours.
    TooLong,
    /// One cover adds more than ten minutes.
    ManyPerCover,
    /// A timer has no time.
    NoTimer,
    /// Hands are needed for longer than the step lasts.
    ManyHands,
    /// The least gap is above the greatest.
    GapsCrossed,
    /// A step would come before what it waits for.
    TooEarly,
    /// What was typed is no heat of an oven.
    NoOven,
    /// What was typed is no whole number up to so many.
    NoWhole(u16),
    /// The dish is full.
    ManySteps,
    /// The step of this title waits for the one to be taken out.
    WaitedFor(String),
    /// The step is not there any more.
    Gone,
}

impl Said for NoEdit {}

impl fmt::Display for NoEdit {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::NoTitle => "Give the step a name.",
            Self::NoWords => "Say what is to be done.",
            Self::NoName => "Give the dish a name.",
            Self::Long(most) => {
                return write!(
                    f,
                    "Shorten it to {most} letters, so that it is read at arm's length."
                );
            }
            Self::NoTime(typed) => {
                return write!(
                    f,
                    "“{typed}” is no time: type seconds, such as 90, or minutes and seconds, such as 1:30."
                );
            }
            Self::TooLong => "A step or a gap is at most four hours: start it before the service.",
            Self::ManyPerCover => "One cover adds at most ten minutes to a step.",
            Self::NoTimer => "A timer needs more than no time.",
            Self::ManyHands => "The hands can't be needed for longer than the step lasts.",
            Self::GapsCrossed => "The least gap is longer than the greatest: swap them.",
            Self::TooEarly => {
                "A step can't come before one that it waits for: change what it waits for first."
            }
            Self::NoOven => "An oven is set to between 30 and 350 °C: type the degrees, or nothing.",
            Self::NoWhole(most) => {
                return write!(f, "Type a whole number from 0 to {most}.");
            }
            Self::ManySteps => "A dish holds 40 steps: put some of them together.",
            Self::WaitedFor(step) => {
                return write!(
                    f,
                    "“{step}” waits for this step: change what it waits for first."
                );
            }
            Self::Gone => "This step is no longer part of the dish.",
        })
    }
}
