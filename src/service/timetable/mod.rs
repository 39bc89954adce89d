//! When each step of a dish happens, worked out, and what to do where nothing fits.

pub mod calls;
pub mod due;
pub mod face;
pub mod glance;
pub mod late;
pub mod of_dish;
mod refusals;
mod ways_out;

use serde::{Deserialize, Serialize};

use crate::base::instant::Instant;
use crate::base::refusal::Refusal;
use crate::base::stretch::stretch;
use crate::service::dish::Dish;
use crate::service::dish::joined::Wave;
use crate::service::dish::step::{Edge, Step};
use crate::service::plan::{
    ENOUGH, Kitchen, NoPlan, Plan, Proof, Slot, Task, answered, fits, lanes,
};
use crate::service::run::Run;
use crate::service::timetable::of_dish::{Change, Service, Stated, is_on_the_bench, whole_secs};
use crate::service::timetable::ways_out::{Tried, said_of, ways_out};

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
    /// When the first plates go out: the last of them is begun.
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

impl Stuck {
    fn said(sentence: String) -> Self {
        Self {
            sentence,
            ways: Vec::new(),
            at_best: None,
        }
    }
}

impl From<Refusal> for Stuck {
    fn from(refusal: Refusal) -> Self {
        Self::said(refusal.to_string())
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
        // The question counts to the plates of the last guests, the cook to those of the first.
        let later = i64::from(stated.later_secs);
        let last_at = plate_at.map(|at| at.plus_secs(later));
        let progress =
            |stated: &Stated| (run.as_ref()).map(|run| stated.progress(run, now, last_at));
        let at_the_hour = |plan: Plan| match (&run, last_at) {
            (None, at) => {
                let plating = at.map_or(plan.lead, |at| whole_secs(at.ms_since(now)));
                plan.with_plating_at(plating)
            }
            (Some(_), _) => plan,
        };
        let told = |plan| Self::told(service, &stated, run.as_ref(), at_the_hour(plan), now);
        let progressed = progress(&stated);
        let unfit = match answered(&stated.kitchen, progressed.as_ref(), CHOICES) {
            Ok(Ok(plan)) => return Ok(told(plan)),
            Ok(Err(unfit)) => Some(unfit),
            Err(NoPlan::Undecided { .. }) => None,
            Err(why) => return Err(Stuck::said(why.to_string())),
        };
        // The same service with another dish or other cooks.
        let other = |dish: &Dish, cooks: u32| {
            let service = Service {
                dish,
                cooks,
                ..*service
            };
            Stated::of(&service, run.as_ref(), now).ok()
        };
        let fits = |dish: &Dish, cooks: u32| {
            other(dish, cooks)
                .is_some_and(|stated| fits(&stated.kitchen, progress(&stated).as_ref(), CHOICES))
        };
        let plan = |dish: &Dish, cooks: u32| {
            let stated = other(dish, cooks)?;
            let plan = answered(&stated.kitchen, progress(&stated).as_ref(), CHOICES);
            Some(plan.ok()?.ok()?.slots)
        };
        let loose = stated.kitchen.without_greatest_gaps();
        let at_best = answered(&loose, progressed.as_ref(), CHOICES);
        let at_best = at_best.ok().and_then(Result::ok);
        let tried = Tried {
            fits: &fits,
            plan: &plan,
        };
        let slots = at_best.as_ref().map(|plan| plan.slots.as_slice());
        let found = ways_out(service.dish, service.cooks, slots, tried);
        let (sentence, ways) = match (found, unfit) {
            (Some((sentence, ways)), _) => {
                let ways = ways.into_iter().map(|(say, change)| (say, Some(change)));
                (sentence, ways.collect())
            }
            // What is to blame is no greatest gap.
            (None, Some(unfit)) => by_least_gaps(service.dish, &stated, &unfit.why(CHOICES)),
            (None, None) => (NoPlan::Undecided { nodes: CHOICES }.to_string(), Vec::new()),
        };
        Err(Stuck {
            sentence,
            ways,
            at_best: at_best.map(told).map(Box::new),
        })
    }

    /// Whether everything of a service fits that has not begun, and why not: without any way out, which takes many times as
    /// long to find.
    ///
    /// # Errors
    /// What quarrels, or what makes no sense.
    pub fn refuse_quarrels(service: &Service<'_>) -> Result<(), Stuck> {
        let stated = Stated::of(service, None, Instant(0))?;
        match answered(&stated.kitchen, None, CHOICES) {
            Ok(Ok(_)) => Ok(()),
            Ok(Err(unfit)) => Err(Stuck::said(unfit.why(CHOICES).to_string())),
            Err(why) => Err(Stuck::said(why.to_string())),
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
        lanes.retain(|lane| lane.station.as_deref().is_none_or(is_on_the_bench));
        let waves = service.dish.waves();
        let out = |wave: &Wave| plan.slot(&wave.plating.id).map(|slot| slot.start);
        // When the plate of a step goes out, and whether it has.
        let goes_out = |step: &str| {
            service
                .dish
                .wave_of(step, &waves)
                .and_then(|wave| out(&wave))
        };
        let is_out = |step: &str| {
            let wave = service.dish.wave_of(step, &waves);
            wave.zip(run)
                .is_some_and(|(wave, run)| run.steps.contains_key(&wave.plating.id))
        };
        let before_the_last = |task: &Task| {
            let at = goes_out(&task.id).unwrap_or(plan.plating);
            plan.plating.saturating_sub(at)
        };
        let apart = kitchen.tasks.iter();
        let apart = apart.map(|task| i64::from(task.held).saturating_mul(before_the_last(task)));
        let mut timetable = Self {
            base,
            lanes,
            waits: waits(kitchen, &plan, |step| {
                goes_out(step).filter(|_| !is_out(step))
            }),
            plating: waves.first().and_then(out).unwrap_or(plan.plating),
            // What waits for an earlier plate doesn't wait for the last one.
            holding: plan.holding.saturating_sub(apart.sum()).max(0),
            proof: plan.proof,
            slots: plan.slots,
        };
        timetable.go_on(service, stated, run);
        timetable
    }

    /// Adds what follows plating: one step after the other, as soon as its gaps allow, never two of them in the hands or
    /// at a place of which there are only so many, and none in an oven before it has come to its temperature.
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
            let free = busy.iter().filter_map(|(other, end)| {
                let in_turn = (other.hands && step.hands) || dish.share_a_place(other, step);
                let change = dish
                    .ovens_apart(other, step)
                    .then_some(dish.oven_change_secs);
                (in_turn || change.is_some())
                    .then(|| end.saturating_add(i64::from(change.unwrap_or(0))))
            });
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
        let done_in = |lane: &Lane| {
            let tasks = lane.turns.iter().map(|turn| turn.task.clone());
            (lane.station.clone(), lane.number, tasks.collect::<Vec<_>>())
        };
        let same_lanes = || {
            self.lanes
                .iter()
                .map(done_in)
                .eq(later.lanes.iter().map(done_in))
        };
        by < LONGEST_SHOWN
            && same_slots
            && same_lanes()
            && self.plating == shift(later.plating)
            && (&self.waits, self.holding, self.proof) == (&later.waits, later.holding, later.proof)
    }

    /// When a step happens.
    #[must_use]
    pub fn slot(&self, step: &str) -> Option<&Slot> {
        self.slots.iter().find(|slot| slot.task == step)
    }

    /// When the plates of each wave go out, the first ones first.
    #[must_use]
    pub fn plates(&self, dish: &Dish) -> Vec<i64> {
        let waves = dish.waves();
        let out = waves.iter().filter_map(|wave| self.slot(&wave.plating.id));
        out.map(|slot| slot.start).collect()
    }

    /// Whose hands begin a step, by their number, where there are several cooks.
    #[must_use]
    pub fn whose(&self, step: &str) -> Option<usize> {
        let hands = || self.lanes.iter().filter(|lane| lane.station.is_none());
        let cook = hands().find(|lane| lane.turns.iter().any(|turn| turn.task == step))?;
        (hands().count() > 1).then_some(cook.number)
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

/// What waits, and for how long: up to when it goes out, while it has not.
fn waits(
    kitchen: &Kitchen,
    plan: &Plan,
    goes_out: impl Fn(&str) -> Option<i64>,
) -> Vec<(String, i64)> {
    let mut waits: Vec<(String, i64)> = (kitchen.tasks.iter())
        .filter(|task| task.held > 0)
        .filter_map(|task| {
            let secs = goes_out(&task.id)?.saturating_sub(plan.slot(&task.id)?.end);
            (secs > 0).then(|| (task.id.clone(), secs))
        })
        .collect();
    waits.sort_by_key(|(_, secs)| std::cmp::Reverse(*secs));
    waits
}

/// What quarrels where the greatest gaps are not to blame, and the nearest ways out.
fn by_least_gaps(
    dish: &Dish,
    stated: &Stated,
    why: &NoPlan,
) -> (String, Vec<(String, Option<Change>)>) {
    let ways = match why {
        NoPlan::Quarrel(quarrel) => (quarrel.ways_out.iter())
            .map(|way| match stated.change(dish, way) {
                Some(change) => (said_of(dish, &change), Some(change)),
                None => (way.say(&stated.kitchen), None),
            })
            .collect(),
        NoPlan::Refused(_) | NoPlan::Undecided { .. } => Vec::new(),
    };
    (why.to_string(), ways)
}
