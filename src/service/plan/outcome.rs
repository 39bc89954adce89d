//! What a plan says.

use serde::{Deserialize, Serialize};

/// When everything happens, in whole seconds of the caller's clock; for a plan made before cooking, plating starts
/// at 0 and everything else at or before it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Plan {
    /// Every task, by its start.
    pub slots: Vec<Slot>,
    /// When plating starts.
    pub plating: i64,
    /// Total holding: each held task's weight times the seconds from its end to plating.
    pub holding: i64,
    /// Seconds from the start of the first task (or from now, when made while cooking) to plating.
    pub lead: i64,
    /// How good it is.
    pub proof: Proof,
    /// Choices the search made.
    pub nodes: u64,
    /// Positions of the links that time has already broken, and that this plan leaves aside.
    pub overdue: Vec<usize>,
}

/// When one task happens.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Slot {
    /// The task's id.
    pub task: String,
    /// When it starts, or did.
    pub start: i64,
    /// When it ends, or did.
    pub end: i64,
}

/// How good a plan is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Proof {
    /// No plan holds food for less in total, and none that holds as little has a shorter lead.
    Optimal,
    /// The best found before the limit.
    Best {
        /// Total holding is at most so much above the least there can be.
        holding_gap: i64,
        /// The lead is at most so many seconds above the least there can be.
        lead_gap: i64,
    },
}

impl Plan {
    /// The same plan with plating at another moment.
    #[must_use]
    pub fn with_plating_at(mut self, plating: i64) -> Self {
        let by = plating.saturating_sub(self.plating);
        self.plating = plating;
        for slot in &mut self.slots {
            slot.start = slot.start.saturating_add(by);
            slot.end = slot.end.saturating_add(by);
        }
        self
    }

    /// When a task happens.
    #[must_use]
    pub fn slot(&self, task: &str) -> Option<&Slot> {
        self.slots.iter().find(|s| s.task == task)
    }
}
