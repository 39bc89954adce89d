//! A plan made while cooking: what has started stays where it is, everything else is planned from now.

use super::Edge;
use super::backward::{Fact, Facts};
use super::check::{Checked, refuse_if, task_at};
use super::refusals::{NoPlan, NoProgress};

/// What has happened so far, in whole seconds of one clock.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Progress {
    /// This moment.
    pub now: i64,
    /// Plating is not to start before this moment.
    pub plate_at: Option<i64>,
    /// The tasks that have started, in any order.
    pub started: Vec<Started>,
}

/// A task that has started.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Started {
    /// The task's id.
    pub task: String,
    /// When it started.
    pub at: i64,
    /// When it ended, once it has; until then it is taken to end in its time, or now when that has passed.
    pub ended: Option<i64>,
}

/// Furthest from now that anything may lie: two days.
const FURTHEST: i64 = 172_800;

/// What the progress means for a plan. Refuses what can't have happened: a task unknown or started twice, a
/// moment after now or days ago, an end before its start, plating begun.
pub(super) fn facts(checked: &Checked, progress: &Progress) -> Result<Facts, NoPlan> {
    let mut facts = Facts {
        not_before: progress
            .plate_at
            .map_or(0, |at| at.saturating_sub(progress.now)),
        ..Facts::default()
    };
    refuse_if(facts.not_before > FURTHEST, || NoProgress::FarPlating)?;
    for started in &progress.started {
        let task = task_at(checked.kitchen, &started.task)?;
        let name = || checked.name(task).to_owned();
        refuse_if(facts.of(task).is_some(), || NoProgress::Twice(name()))?;
        refuse_if(task == checked.plating, || NoProgress::Plated)?;
        let start = started.at.saturating_sub(progress.now);
        let ended = started.ended.map(|at| at.saturating_sub(progress.now));
        refuse_if(start > 0 || ended.is_some_and(|e| e > 0), || {
            NoProgress::AfterNow(name())
        })?;
        refuse_if(start < -FURTHEST, || NoProgress::LongAgo(name()))?;
        refuse_if(ended.is_some_and(|e| e < start), || {
            NoProgress::EndsFirst(name())
        })?;
        let secs = checked.task(task).map_or(0, |t| t.secs);
        // What runs late is taken to end now.
        let end = ended.unwrap_or_else(|| (start + secs).max(0));
        facts.started.push(Fact { task, start, end });
    }
    let spent = (checked.ends.iter().enumerate()).filter_map(|(link, &ends)| {
        spent(checked, &facts, link, ends).map(|overdue| (link, overdue))
    });
    for (link, overdue) in spent.collect::<Vec<_>>() {
        facts.spent.push(link);
        if overdue {
            facts.overdue.push(link);
        }
    }
    Ok(facts)
}

/// Whether a link no longer says anything about what is still to start: both its tasks have started, or it can't
/// be kept any more (`Some(true)`). Nothing else is ever left aside.
fn spent(checked: &Checked, facts: &Facts, link: usize, ends: (usize, usize)) -> Option<bool> {
    let link = checked.kitchen.links.get(link)?;
    let real = |task: usize, edge: Edge| {
        let fact = facts.of(task)?;
        Some(if edge == Edge::Start {
            fact.start
        } else {
            fact.end
        })
    };
    let soonest = |task: usize, edge: Edge| match edge {
        Edge::Start => 0,
        Edge::End => checked.task(task).map_or(0, |t| t.secs),
    };
    match (real(ends.0, link.from_edge), real(ends.1, link.to_edge)) {
        (None, None) => None,
        (Some(_), Some(_)) => Some(false),
        (Some(from), None) => {
            let gap = soonest(ends.1, link.to_edge) - from;
            link.greatest
                .is_some_and(|greatest| gap > greatest)
                .then_some(true)
        }
        (None, Some(to)) => (to - soonest(ends.0, link.from_edge) < link.least).then_some(true),
    }
}
