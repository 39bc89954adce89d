//! What takes longer than a frame of a slow phone: each question a plain value, and the one function that answers it.
//! Pure, so that it runs the same in a worker beside the page, on the page itself, and in a test.
//!
//! Every question is bounded: a plan by its choices, a text by its letters, a table by its lines.

pub mod codes;
pub mod heat;
pub mod picture;
pub mod plan;
pub mod queue;
pub mod tables;

use serde::Serialize;
use serde::de::DeserializeOwned;

/// A kind of question.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct QuestionKind {
    /// Its name on the way there and back.
    pub name: &'static str,
    /// Who answers it.
    pub lane: WorkerLane,
    /// Whether a newer question of this kind makes the answer to an older one useless.
    pub newest: bool,
}

/// Each may be at work at once, so that a large file keeps no plan waiting.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum WorkerLane {
    /// What a screen waits for.
    Screen,
    /// What a file or a long text takes.
    Files,
    /// Pictures that others made, looked through by what others wrote: a worker that is lost over one is lost, and the page
    /// is not put to the same.
    Pictures,
}

/// A question that is answered by working it out and by nothing else.
pub trait Ask: Serialize + DeserializeOwned {
    /// What is said in answer.
    type Answer: Serialize + DeserializeOwned;
    /// Which kind of question it is.
    const KIND: QuestionKind;

    /// Works it out.
    fn answer(self) -> Self::Answer;
}

/// Answers a question of the kind `name`, text for text; nothing for what is no such question.
#[must_use]
pub fn answer(name: &str, question: &str) -> Option<String> {
    const PLAN: &str = plan::PlanQuestion::KIND.name;
    const ESTIMATE: &str = heat::Wanted::KIND.name;
    const PAN: &str = heat::Readings::KIND.name;
    const PASTE: &str = codes::Pasted::KIND.name;
    const TABLE_OUT: &str = tables::Out::KIND.name;
    const TABLE_IN: &str = tables::In::KIND.name;
    const PICTURE: &str = picture::LinkToDraw::KIND.name;
    match name {
        PLAN => said::<plan::PlanQuestion>(question),
        ESTIMATE => said::<heat::Wanted>(question),
        PAN => said::<heat::Readings>(question),
        PASTE => said::<codes::Pasted>(question),
        TABLE_OUT => said::<tables::Out>(question),
        TABLE_IN => said::<tables::In>(question),
        PICTURE => said::<picture::LinkToDraw>(question),
        _ => None,
    }
}

fn said<Q: Ask>(question: &str) -> Option<String> {
    let question: Q = serde_json::from_str(question).ok()?;
    serde_json::to_string(&question.answer()).ok()
}
