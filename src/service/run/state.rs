//! How each step of a service stands at a moment: what has happened, and what is in the way of what has not. When a step
//! that has not begun will begin is for the timetable to say.

use std::collections::BTreeSet;

use crate::base::instant::Instant;
use crate::base::kit::Kit;
use crate::service::dish::Dish;
use crate::service::dish::step::Step;
use crate::service::run::Run;
use crate::service::run::step_run::StepRun;

/// How a step stands. Lengths are in milliseconds.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum StepState {
    /// It can't begin yet.
    Waiting {
        /// The titles of the steps in the way.
        on: Vec<String>,
        /// When it can begin, once only a least gap is in the way.
        ready_at: Option<Instant>,
    },
    /// It can begin.
    Ready {
        /// Since when.
        since: Instant,
    },
    /// It has begun. Without a timer `ends` is `None` and both lengths are zero.
    Running {
        /// When it began.
        began: Instant,
        /// When it rings.
        ends: Option<Instant>,
        /// What is left of it.
        left_ms: i64,
        /// The whole of it.
        of_ms: i64,
    },
    /// Its timer stands still.
    Held {
        /// Since when.
        since: Instant,
        /// What is left of it.
        left_ms: i64,
        /// The whole of it.
        of_ms: i64,
    },
    /// It has rung and isn't done.
    Over {
        /// When it rang.
        ends: Instant,
        /// How long ago.
        over_ms: i64,
        /// The whole of it.
        of_ms: i64,
    },
    /// It is done.
    Done {
        /// When it was called done.
        at: Instant,
    },
}

/// The steps that have begun, by their titles, and how they stand: quicker than all faces, for what is only said.
#[must_use]
pub fn begun(
    dish: &Dish,
    missing: &BTreeSet<Kit>,
    run: &Run,
    now: Instant,
) -> Vec<(String, StepState)> {
    let run = run.as_of(now);
    let begun = dish.steps.iter().filter_map(|step| {
        let begun = run.steps.get(&step.id)?;
        let state = begun_state(begun, step.lasts_ms(missing), now);
        Some((step.title.clone(), state))
    });
    begun.collect()
}

/// The steps that have rung and are not done, by their ids, and when each rang.
#[must_use]
pub fn rung(
    dish: &Dish,
    missing: &BTreeSet<Kit>,
    run: &Run,
    now: Instant,
) -> Vec<(String, Instant)> {
    let run = run.as_of(now);
    let bells = dish.steps.iter().filter_map(|step| {
        let begun = run.steps.get(&step.id)?;
        let ticking = begun.is_open() && begun.held_since.is_none();
        let ends = begun.ends(step.lasts_ms(missing)?);
        (ticking && ends <= now).then(|| (step.id.clone(), ends))
    });
    bells.collect()
}

/// How one step of a run stands, on the clock that the run was brought to by [`Run::as_of`].
#[must_use]
pub fn state(
    dish: &Dish,
    missing: &BTreeSet<Kit>,
    run: &Run,
    step: &Step,
    now: Instant,
) -> StepState {
    match run.steps.get(&step.id) {
        Some(begun) => begun_state(begun, step.lasts_ms(missing), now),
        None => ahead_state(dish, run, step, now),
    }
}

fn begun_state(begun: &StepRun, lasts: Option<i64>, now: Instant) -> StepState {
    let began = begun.began;
    if let Some(at) = begun.done {
        return StepState::Done { at: at.max(began) };
    }
    let Some(lasts) = lasts else {
        return StepState::Running {
            began,
            ends: None,
            left_ms: 0,
            of_ms: 0,
        };
    };
    let (ends, left_ms, of_ms) = (
        begun.ends(lasts),
        begun.left_ms(lasts, now),
        begun.of_ms(lasts),
    );
    if let Some(since) = begun.held_since {
        StepState::Held {
            since,
            left_ms,
            of_ms,
        }
    } else if ends <= now {
        StepState::Over {
            ends,
            over_ms: now.ms_since(ends),
            of_ms,
        }
    } else {
        StepState::Running {
            began,
            ends: Some(ends),
            left_ms,
            of_ms,
        }
    }
}

fn ahead_state(dish: &Dish, run: &Run, step: &Step, now: Instant) -> StepState {
    let (mut on, from) = run.waits(dish, step);
    if let Some(other) = run.taken_by(dish, step)
        && !on.iter().any(|s| s.id == other.id)
    {
        on.push(other);
    }
    let ready_at = on.is_empty().then_some(from);
    match ready_at {
        Some(since) if since <= now => StepState::Ready { since },
        _ => StepState::Waiting {
            on: on.into_iter().map(|s| s.title.clone()).collect(),
            ready_at,
        },
    }
}
