//! Whether a kitchen makes sense at all, and its names resolved to positions.

use super::backward::Backward;
use super::cycle::contradiction;
use super::kitchen::{Kitchen, Task};
use super::refusals::{KitchenPart, NoKitchen};
use super::words::demand;
use crate::service::dish::laid_out::MOST_COOKS;

/// Most steps, links and stations a kitchen may have, together with the longest time: two days.
pub(super) const MOST_TASKS: usize = 120;
pub(super) const MOST_LINKS: usize = 600;
pub(super) const MOST_STATIONS: usize = 120;
/// Most places a station may have.
pub(super) const MOST_PLACES: u32 = 1000;
const MOST_SECS: i64 = 172_800;
pub(super) const MOST_WEIGHT: u32 = 1000;

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
    pub(super) fn new(kitchen: &'a Kitchen) -> Result<Self, NoKitchen> {
        refuse_if(
            kitchen.tasks.len() > MOST_TASKS
                || kitchen.links.len() > MOST_LINKS
                || kitchen.stations.len() > MOST_STATIONS,
            || NoKitchen::TooLarge,
        )?;
        refuse_if(!(1..=MOST_COOKS).contains(&kitchen.cooks), || {
            NoKitchen::Cooks
        })?;
        for station in &kitchen.stations {
            refuse_if(station.places > MOST_PLACES, || {
                NoKitchen::ManyPlaces(station.name.clone())
            })?;
            refuse_if(!(0..=MOST_SECS).contains(&station.ready), || {
                NoKitchen::Ready(station.name.clone())
            })?;
        }
        unique(
            KitchenPart::Task,
            kitchen.tasks.iter().map(|t| t.id.as_str()),
        )?;
        unique(
            KitchenPart::Station,
            kitchen.stations.iter().map(|s| s.id.as_str()),
        )?;
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
                    || NoKitchen::LongGap(link.from.clone(), link.to.clone()),
                )?;
                let ends = (task_at(kitchen, &link.from)?, task_at(kitchen, &link.to)?);
                refuse_if(link.greatest.is_some_and(|g| g < link.least), || {
                    let name = |position| name(kitchen, position).to_owned();
                    NoKitchen::GapsCrossed(name(ends.0), name(ends.1))
                })?;
                Ok(ends)
            })
            .collect::<Result<_, NoKitchen>>()?;
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
pub(super) fn refuse_circles(checked: &Checked) -> Result<(), NoKitchen> {
    let least_only = Backward::new(checked, None)?.with_only_greatest(&[]);
    let Some(circle) = contradiction(&least_only.arcs) else {
        return Ok(());
    };
    let demands = circle.iter().map(|b| demand(checked, b.link, false));
    Err(NoKitchen::Circle(demands.collect()))
}

/// The position of the task called `id`.
pub(super) fn task_at(kitchen: &Kitchen, id: &str) -> Result<usize, NoKitchen> {
    (kitchen.tasks.iter().position(|t| t.id == id)).ok_or_else(|| NoKitchen::NoTask(id.to_owned()))
}

fn name(kitchen: &Kitchen, position: usize) -> &str {
    kitchen.tasks.get(position).map_or("", |t| t.name.as_str())
}

fn check_task(kitchen: &Kitchen, task: &Task) -> Result<Vec<(usize, i32)>, NoKitchen> {
    let name = || task.name.clone();
    refuse_if(!(0..=MOST_SECS).contains(&task.secs), || {
        NoKitchen::Lasts(name())
    })?;
    refuse_if(
        task.hands_first < 0
            || task.hands_last < 0
            || task.hands_first > task.secs - task.hands_last.min(task.secs)
            || task.hands_last > task.secs,
        || NoKitchen::ManyHands(name()),
    )?;
    refuse_if(task.held > MOST_WEIGHT, || NoKitchen::ManyTimes(name()))?;
    let mut needs: Vec<(usize, i32)> = Vec::new();
    for need in &task.needs {
        let Some(at) = kitchen.stations.iter().position(|s| s.id == need.station) else {
            return Err(NoKitchen::NoStation(name(), need.station.clone()));
        };
        let there = kitchen.stations.get(at).map_or(0, |s| s.places);
        let called = kitchen.stations.get(at).map_or("", |s| s.name.as_str());
        let taken = needs.iter().filter(|n| n.0 == at).map(|n| n.1).sum::<i32>();
        let wanted = i32::try_from(need.places)
            .unwrap_or(i32::MAX)
            .saturating_add(taken);
        refuse_if(i64::from(wanted) > i64::from(there), || {
            NoKitchen::FewPlaces {
                task: name(),
                station: called.to_owned(),
                wanted,
                there,
            }
        })?;
        needs.retain(|n| n.0 != at);
        if wanted > 0 {
            needs.push((at, wanted));
        }
    }
    Ok(needs)
}

fn unique<'a>(named: KitchenPart, ids: impl Iterator<Item = &'a str>) -> Result<(), NoKitchen> {
    let mut sorted: Vec<&str> = ids.collect();
    sorted.sort_unstable();
    match sorted.windows(2).find_map(|w| match w {
        [a, b] if a == b => Some(*a),
        _ => None,
    }) {
        Some(twice) => Err(NoKitchen::Twice(named, twice.to_owned())),
        None => Ok(()),
    }
}

pub(super) fn refuse_if<T>(wrong: bool, why: impl FnOnce() -> T) -> Result<(), T> {
    if wrong { Err(why()) } else { Ok(()) }
}
