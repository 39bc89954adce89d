//! The right minute for everything: a plan worked out backwards from the moment of plating.
//!
//! # What is asked
//! Given tasks with a length, the hands they take at their start and at their end, the places they take at
//! stations, and links with a least and a greatest gap between edges of tasks, choose a start for each task, in
//! whole seconds, so that
//!
//! - every link is kept, and every task ends before plating starts;
//! - at no moment do tasks take more places at a station than it has, or more hands than there are cooks (a task
//!   that ends when another starts does not overlap it);
//! - **first**, the total holding is least: the sum over held tasks of weight × seconds from the end of the task to
//!   the start of plating;
//! - **then**, among those, the lead is least: the seconds from the first start to the start of plating. That is
//!   the latest start. While cooking, the lead counts from now: the soonest plating.
//!
//! # How it is answered
//! `kitchen` is what is asked, checked in `check` and counted backwards in `backward`. A `network` of gaps holds
//! what must be. `alike` gives steps that can take each other's place one order, `queue` says what waiting at one pool
//! costs at the least, and `first` puts a first schedule together: where the two meet there is nothing left to search.
//! Otherwise `search` chooses orders where too much would be on at once, with `crowd` to find where, `windows` to see
//! what follows from a whole set of tasks, and `trail` to learn from dead ends. `solve` runs it for the two goals in
//! turn. Where nothing fits, `cycle` and `quarrel` say why. The answer is exact: [`Proof`] says
//! whether the search ran to its end. It reads no clock, so the same kitchen gives the same plan on every device.

mod kitchen;
mod lanes;
mod outcome;
mod quarrel;
mod refusals;
mod replan;
mod words;

mod alike;
mod backward;
mod check;
mod choose;
mod conclude;
mod crowd;
mod cycle;
mod first;
mod network;
#[cfg(test)]
mod proofs;
mod question;
mod queue;
mod search;
mod solve;
#[cfg(test)]
mod tests;
mod trail;
mod windows;

pub use kitchen::{Kitchen, Need, PlanLink, PlanStation, Task};
pub use lanes::{Lane, LaneTurn, lanes};
pub use outcome::{Plan, Proof, Slot};
pub use quarrel::{Quarrel, WayOut};
pub use refusals::NoPlan;
pub use replan::{Progress, Started};

pub use crate::base::stretch::stretch;
pub use crate::service::dish::step::Edge;

use backward::{Backward, Facts, end_of};
use check::Checked;
use solve::{Fit, Solved, fit, solve};

/// Choices enough for a dish of 40 steps, nearly always; and few enough to wait for.
pub const ENOUGH: u64 = 3_000;

/// A quarrel puts many questions to the search; each may take this part of what the plan may.
const QUARREL_SHARE: u64 = 10;

/// The plan for a dish before anything has started, with plating at 0, in at most `limit` choices.
///
/// # Errors
/// [`NoPlan`]: the kitchen makes no sense, nothing fits, or `limit` choices don't tell.
pub fn draw_up(kitchen: &Kitchen, limit: u64) -> Result<Plan, NoPlan> {
    answered(kitchen, None, limit)?.map_err(|unfit| unfit.why(limit))
}

/// The plan for everything that has not started, from now on. What has started stays where it is.
///
/// Links between tasks that have started are past. A link that can't be kept any more, whatever is done from now
/// on, is left aside and listed in [`Plan::overdue`]; every other link is kept.
///
/// # Errors
/// [`NoPlan`]: the kitchen or the progress makes no sense, nothing fits, or `limit` choices don't tell.
pub fn replan(kitchen: &Kitchen, progress: &Progress, limit: u64) -> Result<Plan, NoPlan> {
    answered(kitchen, Some(progress), limit)?.map_err(|unfit| unfit.why(limit))
}

/// A kitchen in which nothing fits. Why is a question of its own, which takes many times as long.
pub struct Unfit<'a> {
    checked: Checked<'a>,
    problem: Backward,
}

impl Unfit<'_> {
    /// What quarrels.
    #[must_use]
    pub fn why(&self, limit: u64) -> NoPlan {
        let limit = limit / QUARREL_SHARE;
        NoPlan::Quarrel(Box::new(quarrel::find(&self.checked, &self.problem, limit)))
    }
}

/// The plan as [`draw_up`] or [`replan`] gives it; where nothing fits, nobody has asked yet why.
///
/// # Errors
/// [`NoPlan`]: the kitchen or the progress makes no sense, or `limit` choices don't tell.
pub fn answered<'a>(
    kitchen: &'a Kitchen,
    progress: Option<&Progress>,
    limit: u64,
) -> Result<Result<Plan, Unfit<'a>>, NoPlan> {
    let checked = Checked::new(kitchen)?;
    check::refuse_circles(&checked)?;
    let facts = progress.map(|progress| replan::facts(&checked, progress));
    let facts = facts.transpose()?;
    let problem = Backward::new(&checked, facts.as_ref())?;
    let now = progress.map_or(0, |progress| progress.now);
    Ok(
        match found(&checked, facts.as_ref(), &problem, now, limit)? {
            Some(plan) => Ok(plan),
            None => Err(Unfit { checked, problem }),
        },
    )
}

/// Whether anything fits, in at most `limit` choices; not where they don't tell, or where nothing makes sense.
#[must_use]
pub fn fits(kitchen: &Kitchen, progress: Option<&Progress>, limit: u64) -> bool {
    let tried = || -> Result<bool, NoPlan> {
        let checked = Checked::new(kitchen)?;
        check::refuse_circles(&checked)?;
        let facts = progress.map(|progress| replan::facts(&checked, progress));
        let problem = Backward::new(&checked, facts.transpose()?.as_ref())?;
        Ok(matches!(fit(&problem, limit), Fit::Yes(_)))
    };
    tried().unwrap_or(false)
}

fn found(
    checked: &Checked,
    facts: Option<&Facts>,
    problem: &Backward,
    now: i64,
    limit: u64,
) -> Result<Option<Plan>, NoPlan> {
    let (schedule, proof, nodes) = match solve(problem, limit) {
        Solved::Schedule {
            schedule,
            proof,
            nodes,
        } => (schedule, proof, nodes),
        Solved::Undecided { nodes } => return Err(NoPlan::Undecided { nodes }),
        Solved::NothingFits => return Ok(None),
    };
    let plating = if facts.is_some() {
        now.saturating_add(schedule.lead)
    } else {
        0
    };
    let mut slots: Vec<Slot> = (checked.kitchen.tasks.iter().enumerate())
        .map(|(k, task)| {
            let before = schedule.moments.get(end_of(k)).copied().unwrap_or(0);
            let end = plating.saturating_sub(i64::from(before));
            let secs = facts
                .and_then(|f| f.of(k))
                .map_or(task.secs, |f| f.end - f.start);
            Slot {
                task: task.id.clone(),
                start: end.saturating_sub(secs),
                end,
            }
        })
        .collect();
    slots.sort_by_key(|s| (s.start, s.end));
    Ok(Some(Plan {
        slots,
        plating,
        holding: schedule.holding,
        lead: schedule.lead,
        proof,
        nodes,
        overdue: facts.map(|f| f.overdue.clone()).unwrap_or_default(),
    }))
}
