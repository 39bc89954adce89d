//! Whether a kitchen makes sense at all, and its names resolved to positions.

use super::backward::Backward;
use super::cycle::contradiction;
use super::kitchen::{Kitchen, Task};
use super::words::demand;
use crate::base::refusal::Refusal;

/// Most steps, links and stations a kitchen may have, together with the longest time: two days.
const MOST_TASKS: usize = 120;
const MOST_LINKS: usize = 600;
const MOST_STATIONS: usize = 20;
/// Most places a station may have.
pub(super) const MOST_PLACES: u32 = 1000;
const MOST_SECS: i64 = 172_800;
const MOST_WEIGHT: u32 = 1000;

/// A kitchen whose every name is known and every number sensible.
#[derive(Clone, Debug)]
pub(super) struct Checked<'a> {
    pub(super) kitchen: &'a Kitchen,
    /// Position of the plating step.
    pub(super) plating: usize,
    /// Positions of the two tasks of each link.
    pub(super) ends: Vec<(usize, usize)>,
    /// For each task, the positions of its stations and the places it takes there.
    pub(super) needs: Vec<Vec<(usize, i32)>>,
}

impl<'a> Checked<'a> {
    /// Refuses names that are unknown or used twice, negative or absurd times, more hands than length, gaps
    /// whose least is above their greatest, and steps that need more places than there are.
    pub(super) fn new(kitchen: &'a Kitchen) -> Result<Self, Refusal> {
        refuse_if(
            kitchen.tasks.len() > MOST_TASKS
                || kitchen.links.len() > MOST_LINKS
                || kitchen.stations.len() > MOST_STATIONS,
            || {
                format!(
                    "A plan holds at most {MOST_TASKS} steps, {MOST_LINKS} links and {MOST_STATIONS} stations."
                )
            },
        )?;
        refuse_if(!(1..=2).contains(&kitchen.cooks), || {
            "A plan is for one cook or for two.".to_owned()
        })?;
        for station in &kitchen.stations {
            refuse_if(station.places > MOST_PLACES, || {
                format!("The {} has more than {MOST_PLACES} places.", station.name)
            })?;
        }
        unique(kitchen.tasks.iter().map(|t| t.id.as_str()), "steps")?;
        unique(kitchen.stations.iter().map(|s| s.id.as_str()), "stations")?;
        let needs = kitchen
            .tasks
            .iter()
            .map(|task| check_task(kitchen, task))
            .collect::<Result<_, _>>()?;
        let ends = (kitchen.links.iter())
            .map(|link| {
                let sane = -MOST_SECS..=MOST_SECS;
                refuse_if(
                    !sane.contains(&link.least)
                        || link.greatest.is_some_and(|g| !sane.contains(&g)),
                    || {
                        format!(
                            "The gap between “{}” and “{}” is longer than two days.",
                            link.from, link.to
                        )
                    },
                )?;
                let ends = (task_at(kitchen, &link.from)?, task_at(kitchen, &link.to)?);
                refuse_if(link.greatest.is_some_and(|g| g < link.least), || {
                    format!(
                        "Between “{}” and “{}” the least gap is longer than the greatest.",
                        name(kitchen, ends.0),
                        name(kitchen, ends.1)
                    )
                })?;
                Ok(ends)
            })
            .collect::<Result<_, Refusal>>()?;
        Ok(Self {
            kitchen,
            plating: task_at(kitchen, &kitchen.plating)?,
            ends,
            needs,
        })
    }

    /// The task at a position.
    pub(super) fn task(&self, position: usize) -> Option<&'a Task> {
        self.kitchen.tasks.get(position)
    }

    /// The name of the task at a position.
    pub(super) fn name(&self, position: usize) -> &'a str {
        name(self.kitchen, position)
    }
}

/// Refuses links that wait for each other in a circle, whatever their greatest gaps.
pub(super) fn refuse_circles(checked: &Checked) -> Result<(), Refusal> {
    let least_only = Backward::new(checked, None)?.with_only_greatest(&[]);
    let Some(circle) = contradiction(&least_only.arcs) else {
        return Ok(());
    };
    let demands: Vec<String> = circle
        .iter()
        .map(|b| demand(checked, b.link, false))
        .collect();
    Err(Refusal::new(format!(
        "These wait for each other: {}.",
        demands.join("; ")
    )))
}

/// The position of the task called `id`.
pub(super) fn task_at(kitchen: &Kitchen, id: &str) -> Result<usize, Refusal> {
    (kitchen.tasks.iter().position(|t| t.id == id))
        .ok_or_else(|| Refusal::new(format!("There is no step called “{id}” in this dish.")))
}

fn name(kitchen: &Kitchen, position: usize) -> &str {
    kitchen.tasks.get(position).map_or("", |t| t.name.as_str())
}

fn check_task(kitchen: &Kitchen, task: &Task) -> Result<Vec<(usize, i32)>, Refusal> {
    let name = &task.name;
    refuse_if(!(0..=MOST_SECS).contains(&task.secs), || {
        format!("“{name}” must last between nothing and two days.")
    })?;
    refuse_if(
        task.hands_first < 0
            || task.hands_last < 0
            || task.hands_first > task.secs - task.hands_last.min(task.secs)
            || task.hands_last > task.secs,
        || format!("“{name}” takes hands for longer than it lasts."),
    )?;
    refuse_if(task.held > MOST_WEIGHT, || {
        format!("Waiting for “{name}” may count at most {MOST_WEIGHT} times.")
    })?;
    let mut needs: Vec<(usize, i32)> = Vec::new();
    for need in &task.needs {
        let Some(at) = kitchen.stations.iter().position(|s| s.id == need.station) else {
            return Err(Refusal::new(format!(
                "“{name}” needs “{}”, which is not in this kitchen.",
                need.station
            )));
        };
        let there = kitchen.stations.get(at).map_or(0, |s| s.places);
        let called = kitchen.stations.get(at).map_or("", |s| s.name.as_str());
        let taken = needs.iter().filter(|n| n.0 == at).map(|n| n.1).sum::<i32>();
        let wanted = i32::try_from(need.places)
            .unwrap_or(i32::MAX)
            .saturating_add(taken);
        refuse_if(i64::from(wanted) > i64::from(there), || {
            format!("“{name}” needs {wanted} places at the {called}, and there are {there}.")
        })?;
        needs.retain(|n| n.0 != at);
        if wanted > 0 {
            needs.push((at, wanted));
        }
    }
    Ok(needs)
}

fn unique<'a>(ids: impl Iterator<Item = &'a str>, what: &str) -> Result<(), Refusal> {
    let mut sorted: Vec<&str> = ids.collect();
    sorted.sort_unstable();
    match sorted.windows(2).find_map(|w| match w {
        [a, b] if a == b => Some(*a),
        _ => None,
    }) {
        Some(twice) => Err(Refusal::new(format!(
            "Two {what} are both called “{twice}”."
        ))),
        None => Ok(()),
    }
}

pub(super) fn refuse_if(wrong: bool, sentence: impl FnOnce() -> String) -> Result<(), Refusal> {
    if wrong {
        Err(Refusal::new(sentence()))
    } else {
        Ok(())
    }
}
