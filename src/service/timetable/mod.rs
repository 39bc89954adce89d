//! When each step of a dish happens, worked out, and what to do where nothing fits.

pub mod calls;
pub mod due;
pub mod face;
pub mod glance;
pub mod of_dish;
mod refusals;

use serde::{Deserialize, Serialize};

use crate::base::instant::Instant;
use crate::base::refusal::Refusal;
use crate::base::stretch::stretch;
use crate::service::dish::Dish;
use crate::service::dish::laid_out::MOST_PANS;
use crate::service::dish::step::{Edge, OfFish, Step};
use crate::service::plan::{
    ENOUGH, Kitchen, NoPlan, Plan, Proof, Slot, draw_up, fits, lanes, replan,
};
use crate::service::run::{Run, share_station};
use crate::service::timetable::of_dish::{Change, Service, Stated, whole_secs};

pub use crate::service::plan::Lane;

/// Choices of one plan on a screen: enough to prove the dishes here many times over, and a fraction of a second of a
/// slow phone where forty steps can't be proven.
const CHOICES: u64 = ENOUGH / 6;

/// How long one timetable may be shown, in seconds, while those that follow say the same.
pub const LONGEST_SHOWN: i64 = 120;

/// A service worked out. Slots and lanes count whole seconds from [`Timetable::base`].
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Timetable {
    /// The moment that everything is counted from.
    pub base: Instant,
    /// Every step, by its start; what follows plating stands last.
    pub slots: Vec<Slot>,
    /// Who and what is busy, and when.
    pub lanes: Vec<Lane>,
    /// What waits for the plate, and for how many seconds; the longest first.
    pub waits: Vec<(String, i64)>,
    /// When plating begins.
    pub plating: i64,
    /// The total of all waits, in seconds.
    pub holding: i64,
    /// How good it is.
    pub proof: Proof,
}

/// Why there is no timetable.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Stuck {
    /// The quarrel, or what makes no sense, in a sentence.
    pub sentence: String,
    /// Up to two nearest ways out, each in a sentence, with the change that takes it where a tap can.
    pub ways: Vec<(String, Option<Change>)>,
    /// What comes when all the same, with every greatest gap let go; nothing where the question makes no sense.
    pub at_best: Option<Box<Timetable>>,
}

impl From<Refusal> for Stuck {
    fn from(refusal: Refusal) -> Self {
        Self {
            sentence: refusal.to_string(),
            ways: Vec::new(),
            at_best: None,
        }
    }
}

impl Timetable {
    /// The plan of a service: what has begun in `run` stays, everything else is worked out from `now`. Plating is
    /// at `plate_at`, or as soon as it can be; a service already running plates no sooner than that.
    ///
    /// # Errors
    /// Why nothing fits, and the nearest ways out.
    pub fn of(
        service: &Service<'_>,
        run: Option<&Run>,
        plate_at: Option<Instant>,
        now: Instant,
    ) -> Result<Self, Stuck> {
        let run = run.map(|run| run.as_of(now));
        // From a whole second on, so that a plate at half past is shown at half past.
        let now = Instant(now.0.saturating_sub(now.0.rem_euclid(1000)));
        let stated = Stated::of(service, run.as_ref(), now)?;
        let answer = |kitchen: &Kitchen| match &run {
            Some(run) => replan(kitchen, &stated.progress(run, now, plate_at), CHOICES),
            None => draw_up(kitchen, CHOICES).map(|plan| {
                let plating = plate_at.map_or(plan.lead, |at| whole_secs(at.ms_since(now)));
                plan.with_plating_at(plating)
            }),
        };
        match answer(&stated.kitchen) {
            Ok(plan) => Ok(Self::told(service, &stated, run.as_ref(), plan, now)),
            Err(why) => {
                let fits = |dish: &Dish| {
                    let service = Service { dish, ..*service };
                    Stated::of(&service, run.as_ref(), now).is_ok_and(|stated| {
                        let progress = run.as_ref().map(|run| stated.progress(run, now, plate_at));
                        fits(&stated.kitchen, progress.as_ref(), CHOICES)
                    })
                };
                let at_best = answer(&stated.kitchen.without_greatest_gaps());
                let told = |plan| Self::told(service, &stated, run.as_ref(), plan, now);
                Err(Stuck {
                    at_best: at_best.ok().map(told).map(Box::new),
                    ..stuck(service.dish, &stated, &why, &fits)
                })
            }
        }
    }

    fn told(
        service: &Service<'_>,
        stated: &Stated,
        run: Option<&Run>,
        plan: Plan,
        base: Instant,
    ) -> Self {
        let kitchen = &stated.kitchen;
        let mut lanes = lanes(kitchen, &plan);
        // A station with room for everything shows as many lanes as it fills.
        lanes.retain(|lane| lane.number == 1 || !lane.turns.is_empty());
        lanes.retain(|lane| lane.station.is_none() || !lane.turns.is_empty());
        let waits = waits(kitchen, &plan, run);
        let mut timetable = Self {
            base,
            lanes,
            waits,
            plating: plan.plating,
            holding: plan.holding,
            proof: plan.proof,
            slots: plan.slots,
        };
        timetable.go_on(service, stated, run);
        timetable
    }

    /// Adds what follows plating: one step after the other, as soon as its gaps allow, never two of them in the hands
    /// or in a pan.
    fn go_on(&mut self, service: &Service<'_>, stated: &Stated, run: Option<&Run>) {
        let dish = service.dish;
        let plating = dish.step(&stated.kitchen.plating);
        let mut busy: Vec<(&Step, i64)> = (plating.iter())
            .filter_map(|step| Some((*step, self.slot(&step.id)?.end)))
            .collect();
        for step in stated.after.iter().filter_map(|id| dish.step(id)) {
            let begun = run.and_then(|run| run.steps.get(&step.id));
            let linked = step.links.iter().filter_map(|link| {
                let slot = self.slot(&link.to)?;
                let edge = match link.edge {
                    Edge::Start => slot.start,
                    Edge::End => slot.end,
                };
                Some(edge.saturating_add(i64::from(link.least)))
            });
            let free = (busy.iter())
                .filter(|(other, _)| (other.hands && step.hands) || share_station(other, step))
                .map(|(_, end)| *end);
            let soonest = linked.chain(free).max().unwrap_or(self.plating);
            let start = begun.map_or(soonest, |begun| whole_secs(begun.began.ms_since(self.base)));
            let end = start.saturating_add(step.counts_ms(service.missing) / 1000);
            busy.push((step, end));
            self.slots.push(Slot {
                task: step.id.clone(),
                start,
                end,
            });
        }
    }

    /// Whether one worked out later says the same: every step at the same moment, and the same of them begun and over.
    #[must_use]
    pub fn still_shows(&self, later: &Self) -> bool {
        let by = later.base.ms_since(self.base) / 1000;
        let shift = |secs: i64| secs.saturating_add(by);
        let over = |secs: i64| secs <= 0;
        let same_slots = self.slots.len() == later.slots.len()
            && (self.slots.iter().zip(&later.slots)).all(|(shown, later)| {
                shown.task == later.task
                    && (shown.start, shown.end) == (shift(later.start), shift(later.end))
                    && (over(shown.start), over(shown.end)) == (over(later.start), over(later.end))
            });
        by < LONGEST_SHOWN
            && same_slots
            && self.plating == shift(later.plating)
            && (&self.waits, self.holding, self.proof) == (&later.waits, later.holding, later.proof)
    }

    /// When a step happens.
    #[must_use]
    pub fn slot(&self, step: &str) -> Option<&Slot> {
        self.slots.iter().find(|slot| slot.task == step)
    }

    /// The moment a number of seconds stands for.
    #[must_use]
    pub fn at(&self, secs: i64) -> Instant {
        self.base.plus_secs(secs)
    }

    /// When the first step begins, or did.
    #[must_use]
    pub fn begins(&self) -> Instant {
        self.at(self.slots.iter().map(|slot| slot.start).min().unwrap_or(0))
    }

    /// How good it is, said plainly.
    #[must_use]
    pub fn proof_said(&self) -> String {
        let waits = match self.holding {
            0 => "Nothing waits for the plate".to_owned(),
            secs => format!("In all, food waits {} for the plate", stretch(secs)),
        };
        match self.proof {
            Proof::Optimal if self.holding == 0 => format!("{waits}."),
            Proof::Optimal => format!("{waits}: proven to be the least there can be."),
            Proof::Best {
                holding_gap: 0,
                lead_gap,
            } => format!(
                "{waits}: proven to be the least. The start may be up to {} later.",
                stretch(lead_gap)
            ),
            Proof::Best { holding_gap, .. } => format!(
                "{waits}: the best found, at most {} above the least there can be.",
                stretch(holding_gap)
            ),
        }
    }
}

fn waits(kitchen: &Kitchen, plan: &Plan, run: Option<&Run>) -> Vec<(String, i64)> {
    let begun = |id: &str| run.is_some_and(|run| run.steps.contains_key(id));
    let mut waits: Vec<(String, i64)> = (kitchen.tasks.iter())
        .filter(|task| task.held > 0 && !begun(&kitchen.plating))
        .filter_map(|task| {
            let secs = plan.plating - plan.slot(&task.id)?.end;
            (secs > 0).then(|| (task.id.clone(), secs))
        })
        .collect();
    waits.sort_by_key(|(_, secs)| std::cmp::Reverse(*secs));
    waits
}

/// What stands in the way. Where no one change that a tap can make is enough, it is looked for how many pans are.
fn stuck(dish: &Dish, stated: &Stated, why: &NoPlan, fits: &dyn Fn(&Dish) -> bool) -> Stuck {
    let mut ways: Vec<(String, Option<Change>)> = match why {
        NoPlan::Quarrel(quarrel) => (quarrel.ways_out.iter())
            .map(|way| {
                let change = stated.change(dish, way);
                let own = change.as_ref().and_then(|change| said(dish, change));
                (own.unwrap_or_else(|| way.say(&stated.kitchen)), change)
            })
            .collect(),
        NoPlan::Refused(_) | NoPlan::Undecided { .. } => Vec::new(),
    };
    // What a tap can do is worth more than what would hold back a step that begins by itself.
    if ways.iter().any(|way| way.1.is_some()) {
        ways.retain(|way| way.1.is_some());
    }
    let enough = matches!(why, NoPlan::Quarrel(quarrel) if !quarrel.more);
    if !(enough && ways.iter().any(|way| way.1.is_some()))
        && let Some(change) = enough_pans(dish, fits)
    {
        let words = said(dish, &change).unwrap_or_default();
        ways.retain(|way| !matches!(way.1, Some(Change::Pans(_))));
        ways.truncate(1);
        ways.insert(0, (words, Some(change)));
    }
    Stuck {
        sentence: why.to_string(),
        ways,
        at_best: None,
    }
}

/// The fewest pans with which everything fits.
fn enough_pans(dish: &Dish, fits: &dyn Fn(&Dish) -> bool) -> Option<Change> {
    let more = dish.pans.saturating_add(1)..=MOST_PANS;
    more.map(Change::Pans)
        .find(|change| fits(&dish.eased(change)))
}

/// A way out in the words of this bench, where it has words of its own.
fn said(dish: &Dish, change: &Change) -> Option<String> {
    match change {
        Change::Pans(pans) if *pans > dish.pans.saturating_add(1) => {
            Some(format!("Use {pans} pans."))
        }
        Change::Pans(_) => {
            let which = ["second", "third", "fourth", "fifth"];
            let which = which.get(usize::try_from(dish.pans).ok()?.checked_sub(1)?);
            Some(format!("Use a {} pan.", which.unwrap_or(&"sixth")))
        }
        Change::Cook => Some("Work with a second cook.".to_owned()),
        Change::Gap {
            to,
            greatest: true,
            by,
            ..
        } if dish.step(to)?.of_fish == Some(OfFish::Rest) => Some(format!(
            "Let the fish wait {} longer after its rest, hot in a low oven.",
            stretch(i64::from(*by))
        )),
        Change::Gap { .. } => None,
    }
}
