//! The plan of a service, or what quarrels and the ways out.

use std::collections::BTreeSet;

use serde::{Deserialize, Serialize};

use super::{Ask, QuestionKind, WorkerLane};
use crate::base::instant::Instant;
use crate::base::kit::Kit;
use crate::base::refusal::Refusal;
use crate::fish::record::Fish;
use crate::service::dish::Dish;
use crate::service::run::Run;
use crate::service::timetable::of_dish::{Service, whole_secs};
use crate::service::timetable::{Stuck, Timetable};

/// A service to be planned.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct PlanQuestion {
    dish: Dish,
    missing: BTreeSet<Kit>,
    cooks: u32,
    run: Option<Run>,
    plate_at: Option<Instant>,
    now: Instant,
}

impl Ask for PlanQuestion {
    type Answer = Result<Timetable, Stuck>;
    const KIND: QuestionKind = QuestionKind {
        name: "plan",
        lane: WorkerLane::Screen,
        newest: true,
    };

    fn answer(self) -> Self::Answer {
        let service = Service {
            dish: &self.dish,
            missing: &self.missing,
            cooks: self.cooks,
        };
        Timetable::of(&service, self.run.as_ref(), self.plate_at, self.now)
    }
}

impl PlanQuestion {
    /// What is asked about a fish at a moment. Before the service begins the clock changes nothing of the answer but
    /// where it stands, so it is left out: see [`placed`].
    ///
    /// # Errors
    /// The sentence for what can't be laid out.
    pub fn of(fish: &Fish, now: Instant) -> Result<Self, Refusal> {
        let running = fish.run.is_some();
        Ok(Self {
            dish: fish.laid_out()?,
            missing: fish.slip.missing.clone(),
            cooks: fish.serving().cooks,
            run: fish.run.clone(),
            plate_at: (fish.serving().plate_at).filter(|at| running && *at > now),
            now: if running { now } else { Instant(0) },
        })
    }

    /// Whether the answer depends on the clock: whether the service has begun.
    #[must_use]
    pub fn is_running(&self) -> bool {
        self.run.is_some()
    }

    /// Whether another asks the same, whenever it does.
    #[must_use]
    pub fn is_like(&self, other: &Self) -> bool {
        *self
            == Self {
                now: self.now,
                ..other.clone()
            }
    }
}

/// What was answered about a service that has not begun, on the clock: for a plate at its hour, or begun now.
///
/// # Errors
/// As the answer itself.
pub fn placed(
    found: &Result<Timetable, Stuck>,
    plate_at: Option<Instant>,
    now: Instant,
) -> Result<Timetable, Stuck> {
    let mut placed = found.clone();
    let timetable = match &mut placed {
        Ok(plan) => Some(plan),
        Err(stuck) => stuck.at_best.as_deref_mut(),
    };
    if let Some(timetable) = timetable {
        place(timetable, plate_at.filter(|at| *at > now), now);
    }
    placed
}

fn place(plan: &mut Timetable, plate_at: Option<Instant>, now: Instant) {
    plan.base = Instant(now.0.saturating_sub(now.0.rem_euclid(1000)));
    let plating = plate_at.map_or(plan.plating, |at| whole_secs(at.ms_since(plan.base)));
    let by = plating.saturating_sub(plan.plating);
    plan.plating = plating;
    for slot in &mut plan.slots {
        slot.start = slot.start.saturating_add(by);
        slot.end = slot.end.saturating_add(by);
    }
    for turn in plan.lanes.iter_mut().flat_map(|lane| &mut lane.turns) {
        turn.from = turn.from.saturating_add(by);
        turn.to = turn.to.saturating_add(by);
    }
}
