//! A paste: the codes in it, and what they bring to a class.

use std::collections::HashSet;

use serde::{Deserialize, Serialize};

use super::{Ask, QuestionKind, WorkerLane};
use crate::class::intake::Intake;
use crate::code::find::find;

/// A text, and the letters of the codes that are in the class already.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Pasted {
    /// The text.
    pub text: String,
    /// The codes that are there.
    pub known: HashSet<String>,
}

impl Ask for Pasted {
    type Answer = Intake;
    const KIND: QuestionKind = QuestionKind {
        name: "paste",
        lane: WorkerLane::Files,
        newest: false,
    };

    fn answer(self) -> Intake {
        Intake::of(find(&self.text), self.known)
    }
}
