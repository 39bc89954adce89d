//! How a fillet cooks, with its bands; and what a pan's own readings say of it.

use serde::{Deserialize, Serialize};

use super::{Ask, QuestionKind, WorkerLane};
use crate::base::refusal::Refusal;
use crate::fish::estimate::{Estimate, EstimateQuestion};
use crate::heat::probe::{Fitted, ProbeReading, fit};
use crate::heat::stove::{Fillet, Stove};

/// An estimate that is wanted.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Wanted(pub EstimateQuestion);

impl Ask for Wanted {
    type Answer = Result<Estimate, Refusal>;
    const KIND: QuestionKind = QuestionKind {
        name: "estimate",
        lane: WorkerLane::Screen,
        newest: true,
    };

    fn answer(self) -> Self::Answer {
        self.0.answer()
    }
}

/// The readings of one pan on one surface.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Readings(pub Vec<(Fillet, Stove, ProbeReading)>);

impl Ask for Readings {
    type Answer = Result<Fitted, Refusal>;
    /// What a pan has learnt is kept, whatever is asked next.
    const KIND: QuestionKind = QuestionKind {
        name: "pan",
        lane: WorkerLane::Screen,
        newest: false,
    };

    fn answer(self) -> Self::Answer {
        fit(&self.0)
    }
}
