//! A plan as lanes: what each cook and each place at a station is busy with, and when.

use serde::{Deserialize, Serialize};

use super::check::MOST_PLACES;
use super::kitchen::Kitchen;
use super::outcome::Plan;
use crate::service::dish::joined::of_which;

/// One cook, or one place at a station.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Lane {
    /// The station's id; none for a cook's hands.
    pub station: Option<String>,
    /// Which of its kind, from 1.
    pub number: usize,
    /// What is done there, by its start; no two overlap, unless the cook has in fact put more there than it holds.
    pub turns: Vec<LaneTurn>,
}

/// One stretch in a lane, in whole seconds of the plan's clock.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct LaneTurn {
    /// The task's id.
    pub task: String,
    /// When it begins.
    pub from: i64,
    /// When it is over.
    pub to: i64,
}

/// The lanes of the cooks, then of each station in the kitchen's order.
#[must_use]
pub fn lanes(kitchen: &Kitchen, plan: &Plan) -> Vec<Lane> {
    let mut hands = Vec::new();
    let mut at_stations: Vec<Vec<LaneTurn>> = vec![Vec::new(); kitchen.stations.len()];
    for task in &kitchen.tasks {
        let Some(slot) = plan.slot(&task.id) else {
            continue;
        };
        let turn = |from: i64, to: i64| LaneTurn {
            task: task.id.clone(),
            from,
            to,
        };
        let first_done = slot.start.saturating_add(task.hands_first).min(slot.end);
        let last_begun = slot.end.saturating_sub(task.hands_last).max(first_done);
        if first_done == last_begun {
            hands.push(turn(slot.start, slot.end));
        } else {
            hands.push(turn(slot.start, first_done));
            hands.push(turn(last_begun, slot.end));
        }
        for need in &task.needs {
            let at = kitchen.stations.iter().position(|s| s.id == need.station);
            if let Some(turns) = at.and_then(|k| at_stations.get_mut(k)) {
                turns.extend((0..need.places.min(MOST_PLACES)).map(|_| turn(slot.start, slot.end)));
            }
        }
    }
    let mut found = share(None, kitchen.cooks, hands);
    for (station, turns) in kitchen.stations.iter().zip(at_stations) {
        found.extend(share(Some(&station.id), station.places, turns));
    }
    found
}

/// Each turn, by its start, to a lane that is free. A place takes whatever comes: no more are used than turns overlap.
/// Hands stay with their dish as long as they can, and another dish goes to those that have done least.
fn share(station: Option<&str>, places: u32, mut turns: Vec<LaneTurn>) -> Vec<Lane> {
    turns.retain(|t| t.from < t.to);
    turns.sort_by_key(|t| (t.from, t.to));
    let mut lanes: Vec<Lane> = (0..usize::try_from(places).unwrap_or(0))
        .take(turns.len().max(1))
        .map(|k| Lane {
            station: station.map(str::to_owned),
            number: k + 1,
            turns: Vec::new(),
        })
        .collect();
    for turn in turns {
        let is_free = |lane: &Lane| lane.turns.last().is_none_or(|last| last.to <= turn.from);
        let dish = of_which(&turn.task).0;
        let has_dish =
            |lane: &Lane| (lane.turns.last()).is_some_and(|last| of_which(&last.task).0 == dish);
        let done = |lane: &Lane| {
            lane.turns
                .iter()
                .map(|turn| turn.to - turn.from)
                .sum::<i64>()
        };
        let mut free = (0..).zip(&lanes).filter(|(_, lane)| is_free(lane));
        let free = match station {
            Some(_) => free.next(),
            None => free.min_by_key(|(_, lane)| (!has_dish(lane), done(lane))),
        };
        let free = free.map(|(at, _)| at);
        if let Some(lane) = lanes.get_mut(free.unwrap_or(0)) {
            lane.turns.push(turn);
        }
    }
    lanes
}
