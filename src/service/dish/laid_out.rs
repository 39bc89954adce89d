//! A dish laid out for one service: the time that so many plates take, the fish steps once for each panful, the pans there
//! are, and the times that an estimate of the heat gave for this fillet.

use serde::{Deserialize, Serialize};

use crate::base::refusal::Refusal;
use crate::service::dish::refusals::NoLaying;
use crate::service::dish::step::{Edge, Link, OfFish, PANFUL, Station, Step};
use crate::service::dish::{Dish, in_order};

/// The most panfuls of one service: past that, another pan is the answer.
pub const MOST_PANFULS: u32 = 20;
/// The most pans of one service: what a cook's range has room for.
pub const MOST_PANS: u32 = 6;
/// The most cooks of one service.
pub const MOST_COOKS: u32 = 6;
/// What stands under a step whose time was worked out.
const BY_ESTIMATE: &str = "Worked out for this fillet: an estimate. The probe decides.";

/// What an estimate gave for one panful, in seconds.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct FishTimes {
    /// Skin side down, heat on.
    pub skin: u32,
    /// Turned, heat off.
    pub finish: u32,
    /// The rest, until the core is at its hottest.
    pub rest: u32,
}

/// How a dish is laid out.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Laying {
    /// How many plates there are.
    pub covers: u32,
    /// How many times the fish goes into a pan.
    pub panfuls: u32,
    /// How many pans there are, at most [`MOST_PANS`].
    pub pans: u32,
    /// The times of the fish; none: those of the dish.
    pub fish: Option<FishTimes>,
}

/// How many panfuls `covers` fillets make, `at_once` in the pan.
///
/// # Errors
/// A sentence for no covers, an empty pan, or more than [`MOST_PANFULS`].
pub fn panfuls(covers: u32, at_once: u32) -> Result<u32, Refusal> {
    if covers == 0 {
        return Err(NoLaying::NoCovers.into());
    }
    if at_once == 0 {
        return Err(NoLaying::EmptyPan.into());
    }
    match covers.div_ceil(at_once) {
        panfuls @ ..=MOST_PANFULS => Ok(panfuls),
        _ => Err(NoLaying::ManyPanfuls.into()),
    }
}

/// The step that a step of a later panful is a copy of, and which panful it is, from 1.
#[must_use]
pub fn panful(id: &str) -> (&str, u32) {
    id.rsplit_once('/')
        .and_then(|(step, number)| Some((step, number.parse().ok()?)))
        .unwrap_or((id, 1))
}

impl Dish {
    /// The dish as it is cooked this time. Its own steps keep their names; those of further panfuls are called
    /// `step/2`, `step/3`.
    ///
    /// # Errors
    /// A sentence for panfuls or pans that make no sense, and for a dish with no fish in it to repeat.
    pub fn laid_out(&self, laying: &Laying) -> Result<Self, Refusal> {
        if !(1..=MOST_PANS).contains(&laying.pans) {
            return Err(NoLaying::Pans.into());
        }
        if !(1..=MOST_PANFULS).contains(&laying.panfuls) {
            return Err(NoLaying::Panfuls.into());
        }
        let mut dish = self.clone();
        dish.pans = laying.pans;
        for step in &mut dish.steps {
            step.grow(laying.covers);
        }
        if let Some(times) = laying.fish {
            dish.take_times(times, |_| true);
        }
        if laying.panfuls > 1 {
            if !dish.has_fish() {
                return Err(NoLaying::NoFish(dish.name).into());
            }
            dish.steps = in_order(in_panfuls(&dish.steps, laying.panfuls))?;
        }
        Ok(dish)
    }

    /// Gives the fish these times, in the steps that `changes` says yes to.
    ///
    /// How long the fish may wait after its rest is counted from the pan: what a shorter rest leaves over is added
    /// to the greatest gaps after it.
    pub fn take_times(&mut self, times: FishTimes, changes: impl Fn(&Step) -> bool) {
        let mut shorter: Vec<(String, u32)> = Vec::new();
        for step in &mut self.steps {
            let secs = match step.of_fish {
                Some(OfFish::SkinSide) => times.skin,
                Some(OfFish::Finish) => times.finish,
                Some(OfFish::Rest) => times.rest,
                Some(OfFish::HeatPan | OfFish::Check) | None => continue,
            }
            .max(1);
            if !changes(step) {
                continue;
            }
            if step.of_fish == Some(OfFish::Rest) {
                let before = step.lasts.unwrap_or(step.takes);
                shorter.push((step.id.clone(), before.saturating_sub(secs)));
            }
            step.lasts = Some(secs);
            step.hands_first = step.hands_first.min(secs);
            step.note = Some(BY_ESTIMATE.to_owned());
            for detour in &mut step.detours {
                // The estimate knows of the paper.
                detour.adds_secs = 0;
            }
        }
        for link in self.steps.iter_mut().flat_map(|step| &mut step.links) {
            let by = shorter.iter().find(|(rest, _)| *rest == link.to);
            if let (Edge::End, Some(most), Some((_, by))) = (link.edge, &mut link.most, by) {
                *most = most.saturating_add(*by);
            }
        }
    }
}

fn copy_of(id: &str, panful: u32) -> String {
    match panful {
        1 => id.to_owned(),
        _ => format!("{id}/{panful}"),
    }
}

fn in_panfuls(steps: &[Step], panfuls: u32) -> Vec<Step> {
    let of_fish = |id: &str| steps.iter().any(|s| s.id == id && s.of_fish.is_some());
    let first = steps.iter().find(|s| s.of_fish.is_some());
    let last = steps.iter().rposition(|s| s.of_fish.is_some());
    let mut laid: Vec<Step> = Vec::new();
    for (at, step) in steps.iter().enumerate() {
        laid.push(if step.of_fish.is_some() {
            nth(step, 1, &of_fish)
        } else {
            after_all(step, panfuls, &of_fish)
        });
        if Some(at) != last {
            continue;
        }
        for number in 2..=panfuls {
            for step in steps.iter().filter(|s| s.of_fish.is_some()) {
                let mut next = nth(step, number, &of_fish);
                if first.is_some_and(|first| first.id == step.id) {
                    // Panfuls are alike, so their order is given: it loses nothing.
                    next.links.push(Link {
                        to: copy_of(&step.id, number - 1),
                        edge: Edge::Start,
                        least: 0,
                        most: None,
                    });
                }
                laid.push(next);
            }
        }
    }
    laid
}

/// A fish step of one panful, which waits for the steps of its own panful.
fn nth(step: &Step, number: u32, of_fish: &impl Fn(&str) -> bool) -> Step {
    let mut step = step.clone();
    for link in &mut step.links {
        if of_fish(&link.to) {
            link.to = copy_of(&link.to, number);
        }
    }
    step.title = format!("{}{PANFUL}{number}", step.title);
    step.id = copy_of(&step.id, number);
    step
}

/// A step of the rest of the dish waits for every panful. What comes into the pan next follows the last one closely.
fn after_all(step: &Step, panfuls: u32, of_fish: &impl Fn(&str) -> bool) -> Step {
    let mut after = step.clone();
    let next_in_pan = step.station.is_some_and(Station::takes_one);
    after.links = (step.links.iter())
        .flat_map(|link| {
            let times = if of_fish(&link.to) { panfuls } else { 1 };
            (1..=times).map(move |number| Link {
                to: copy_of(&link.to, number),
                most: link.most.filter(|_| number == times || !next_in_pan),
                ..link.clone()
            })
        })
        .collect();
    after
}
