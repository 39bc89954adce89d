//! A cook's own tests as a table, and the tests that a table brings.

use std::collections::HashMap;

use serde::{Deserialize, Serialize};

use super::{Ask, QuestionKind, WorkerLane};
use crate::base::instant::Instant;
use crate::base::refusal::Refusal;
use crate::compare::table;
use crate::compare::taken::{Brought, read, sort};
use crate::fish::record::Fish;
use crate::fish::settings::Settings;
use crate::keep::kind::Raw;

/// Fish to be written as a table.
#[derive(Clone, Debug, Serialize, Deserialize)]
pub struct Out {
    /// The fish as text, in their order.
    pub fish: Vec<Raw>,
}

impl Ask for Out {
    type Answer = Result<String, Refusal>;
    const KIND: QuestionKind = QuestionKind {
        name: "table out",
        lane: WorkerLane::Files,
        newest: true,
    };

    fn answer(self) -> Self::Answer {
        table::write(&read_all(&self.fish))
    }
}

/// A table, and what is here.
#[derive(Clone, Debug, Serialize, Deserialize)]
pub struct In {
    /// The fish that are here, as text.
    pub fish: Vec<Raw>,
    /// The text of the table.
    pub text: String,
    /// What an empty cell means.
    pub settings: Settings,
    /// The moment at which it is brought: a test without a day gets this one.
    pub today: Instant,
}

impl Ask for In {
    type Answer = Result<Brought, Refusal>;
    const KIND: QuestionKind = QuestionKind {
        name: "table in",
        lane: WorkerLane::Files,
        newest: true,
    };

    fn answer(self) -> Self::Answer {
        let found = read(&self.text, &self.settings, self.today)?;
        let fish = read_all(&self.fish).into_iter();
        let here: HashMap<String, Fish> = fish.map(|fish| (fish.id.clone(), fish)).collect();
        Ok(sort(found, |id| here.get(id).cloned()))
    }
}

/// What the page has just written is read again.
fn read_all(fish: &[Raw]) -> Vec<Fish> {
    let read = fish.iter().map(|fish| serde_json::from_str(fish.get()));
    read.filter_map(Result::ok).collect()
}
