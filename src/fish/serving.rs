//! How the service of one fish is to run: the cooks, the pans, the hour of the plate, and the dish laid out for it.

use std::sync::LazyLock;

use serde::{Deserialize, Serialize};

use super::alongside::{Alongside, AlongsideTap};
use super::refusals::NoService;
use super::slip;
use crate::base::folded::{self, Folded};
use crate::base::instant::Instant;
use crate::base::part;
use crate::base::refusal::Refusal;
use crate::base::text::short;
use crate::fish::record::Fish;
use crate::service::dish::laid_out::{FishTimes, Laying, MOST_COOKS, MOST_PANS, panful, panfuls};
use crate::service::dish::refusals::{NoDish, NoLaying};
use crate::service::dish::shipped;
use crate::service::dish::step::Step;
use crate::service::dish::{Dish, Sound};
use crate::service::run::Run;
use crate::service::timetable::of_dish::{Change, Service};
use crate::service::timetable::{Stuck, Timetable};

/// How the service is to run.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(default)]
pub struct Serving {
    /// Cooks at work, at most [`MOST_COOKS`].
    pub cooks: u32,
    /// What the cooks are called, as typed; empty: by their number.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub names: Vec<String>,
    /// Pans, at most [`MOST_PANS`].
    pub pans: u32,
    /// How many fillets lie in the pan at once, as typed; empty: all of them.
    pub at_once: String,
    /// When plating is to begin; nothing: as soon as it can.
    pub plate_at: Option<Instant>,
    /// The times of the fish that come from the estimate.
    pub times: Option<FishTimes>,
    /// The cook chose the dish's own times instead.
    #[serde(skip_serializing_if = "std::ops::Not::not")]
    pub is_fixed: bool,
    /// The cook's own dish it is cooked into, by the identity of its card. [`Fish::own_dish`] is as the card says until
    /// the service begins, and stays as it was when the card is taken away.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub card: Option<String>,
    /// The dishes that are served with it.
    #[serde(skip_serializing_if = "Vec::is_empty", deserialize_with = "part::read")]
    pub alongside: Vec<Alongside>,
    /// How many minutes after the first plates of the service its own comes, as typed; empty: with them.
    #[serde(skip_serializing_if = "String::is_empty")]
    pub later: String,
}

impl Default for Serving {
    fn default() -> Self {
        Self {
            cooks: 1,
            names: Vec::new(),
            pans: 1,
            at_once: String::new(),
            plate_at: None,
            times: None,
            is_fixed: false,
            card: None,
            alongside: Vec::new(),
            later: String::new(),
        }
    }
}

/// A tap on the plan, as a plain value.
#[derive(Clone, Debug, PartialEq)]
pub enum PlanTap {
    /// So many cooks.
    Cooks(u32),
    /// A cook was named, by their number from 1.
    Cook(usize, String),
    /// So many pans.
    Pans(u32),
    /// How many fillets lie in the pan at once was typed.
    AtOnce(String),
    /// Plating at this moment, or as soon as it can be.
    PlateAt(Option<Instant>),
    /// The plan of a service that waits for its hour begins its first step at this moment: the alarm rings then.
    BeginAt(Instant),
    /// A way out of a quarrel was taken.
    WayOut(Change),
    /// The times of the fish: those of an estimate, or the dish's own, which the cook chose.
    Times(Option<FishTimes>),
    /// While it cooks: the times that an estimate gives the rest of a panful, by its number, and those of the panfuls
    /// after it, where they change too.
    Anew(u32, FishTimes, Option<FishTimes>),
    /// A dish that Scaleside comes with was chosen, by its name.
    Shipped(String),
    /// A dish of the cook's own was chosen by the identity of its card, or its card was changed since: until the service
    /// begins the fish follows it.
    Card(String, Box<Sound>),
    /// The steps were changed for this fish.
    Own(Box<Sound>),
    /// What else is served with it.
    Alongside(AlongsideTap),
}

/// As many names as there may be cooks.
const MOST_NAMES: usize = MOST_COOKS as usize;

/// What a new fish begins with.
static NEW: LazyLock<Serving> = LazyLock::new(Serving::default);

impl Fish {
    /// How the service is to run. What can't be read shows as in a new fish, and refuses every change.
    #[must_use]
    pub fn serving(&self) -> &Serving {
        let said = self.serving.as_ref().and_then(|said| said.open().ok());
        said.unwrap_or(&NEW)
    }

    /// The dish this fish is cooked into: as laid out once the service has begun, as chosen before.
    ///
    /// # Errors
    /// The sentence for a dish that this build does not carry or can't read.
    pub fn dish(&self) -> Result<&Dish, Refusal> {
        match (&self.laid, &self.own_dish) {
            (Some(laid), _) if self.run.is_some() => laid.open().map_err(unread),
            (_, Some(own)) => own.open().map_err(unread),
            _ => shipped::by_id(&self.dish),
        }
    }

    /// Whether every step of the service is done, by the dish itself.
    #[must_use]
    pub fn is_over(&self) -> bool {
        match (&self.run, self.dish()) {
            (Some(run), Ok(dish)) => run.is_over(dish),
            _ => false,
        }
    }

    /// Whether the last plates have begun, after which nothing is left to plan.
    #[must_use]
    pub fn is_plated(&self) -> bool {
        match (&self.run, self.dish()) {
            (Some(run), Ok(dish)) => {
                let waves = dish.waves();
                waves
                    .last()
                    .is_some_and(|last| run.steps.contains_key(&last.plating.id))
            }
            _ => false,
        }
    }

    /// How many covers are served: those of the dish, or what is asked of its service alone.
    pub(super) fn covers(&self, dish: &Dish) -> u32 {
        let asked = slip::read_portions(&self.slip.portions).ok();
        asked.filter(|_| self.is_alone()).unwrap_or(dish.covers)
    }

    /// How many fillets there are, where nobody has said how many of them lie in a pan at once and two are not all: until
    /// then a plan counts them as one panful.
    #[must_use]
    pub fn fillets_unplaced(&self) -> Option<u32> {
        let open = self.run.is_none() && self.serving().at_once.trim().is_empty();
        let fillets = slip::read_portions(&self.slip.portions).ok()?;
        (open && fillets > 2 && self.dish().is_ok_and(Dish::has_fish)).then_some(fillets)
    }

    /// How many panfuls the fish makes.
    ///
    /// # Errors
    /// The sentence for portions or a panful that can't be read.
    pub fn panfuls(&self) -> Result<u32, Refusal> {
        if self.is_alone() {
            slip::read_portions(&self.slip.portions)?;
        }
        match self.serving().at_once.trim() {
            "" => Ok(1),
            text => {
                let at_once = text.parse().map_err(|_| NoService::AtOnceNotWhole)?;
                panfuls(slip::read_portions(&self.slip.portions)?, at_once)
            }
        }
    }

    /// The dish as it is cooked this time.
    ///
    /// # Errors
    /// The sentence for what can't be laid out.
    pub fn laid_out(&self) -> Result<Dish, Refusal> {
        let dish = self.dish()?;
        if self.run.is_some() {
            return Ok(dish.clone());
        }
        self.with_those_alongside(dish.laid_out(&Laying {
            panfuls: self.panfuls()?,
            pans: self.serving().pans,
            fish: self.serving().times,
        })?)
    }

    /// When each step happens, worked out at `now`.
    ///
    /// # Errors
    /// Why nothing fits, and the nearest ways out.
    pub fn timetable(&self, now: Instant) -> Result<Timetable, Stuck> {
        let dish = self.laid_out()?;
        let service = Service {
            dish: &dish,
            missing: &self.slip.missing,
            cooks: self.serving().cooks,
        };
        let plate_at = self.serving().plate_at.filter(|at| *at > now);
        Timetable::of(&service, self.run.as_ref(), plate_at, now)
    }

    /// What a plan tells a service that waits for its hour: when its first step begins. Nothing when it knows already,
    /// or when that moment has come.
    #[must_use]
    pub fn told_by(&self, plan: &Timetable, now: Instant) -> Option<PlanTap> {
        let run = self.run.as_ref().filter(|run| run.steps.is_empty())?;
        self.serving().plate_at.filter(|at| *at > now)?;
        let begins = plan.begins();
        (begins > now && run.begin_at != Some(begins)).then_some(PlanTap::BeginAt(begins))
    }

    /// The service begins: the dish is laid out, and kept as it is laid out where that differs from what this build
    /// carries.
    pub(super) fn start(&mut self, now: Instant) -> Result<(), Refusal> {
        let laid = self.laid_out()?;
        let run = Run::start(&laid, now);
        let shipped = shipped::by_id(&self.dish).is_ok_and(|shipped| *shipped == laid);
        self.laid = match shipped {
            true => None,
            false => Some(folded(laid)?),
        };
        self.run = Some(run);
        Ok(())
    }

    /// What a tap on the plan does.
    pub(super) fn plan(&mut self, tap: &PlanTap) -> Result<(), Refusal> {
        let mut serving = folded::to_change(self.serving.as_ref()).map_err(unread)?;
        self.plan_with(&mut serving, tap)?;
        self.serving = Some(Folded::of(serving).map_err(unread)?);
        Ok(())
    }

    /// The times that came from an estimate are gone with what they were worked out from.
    pub(super) fn drop_times(&mut self) -> Result<(), Refusal> {
        if self.serving().times.is_none() {
            return Ok(());
        }
        let mut serving = folded::to_change(self.serving.as_ref()).map_err(unread)?;
        serving.times = None;
        self.serving = Some(Folded::of(serving).map_err(unread)?);
        Ok(())
    }

    /// Whether nobody has said yet how long the fish lies in the pan: not by its thickness, and not by choosing the times
    /// of the dish. Those of the cook's own dish are chosen.
    #[must_use]
    pub fn is_untimed(&self) -> bool {
        let serving = self.serving();
        serving.times.is_none()
            && !serving.is_fixed
            && self.own_dish.is_none()
            && self.dish().is_ok_and(Dish::has_fish)
    }

    fn plan_with(&mut self, serving: &mut Serving, tap: &PlanTap) -> Result<(), Refusal> {
        let running = self.run.is_some();
        match tap {
            PlanTap::Cooks(cooks @ 1..=MOST_COOKS) => serving.cooks = *cooks,
            PlanTap::Cook(number @ 1..=MOST_NAMES, name) => {
                let name = short(name)?;
                serving
                    .names
                    .resize((*number).max(serving.names.len()), String::new());
                if let Some(named) = serving.names.get_mut(number - 1) {
                    *named = name;
                }
            }
            PlanTap::Cook(..) => return Err(NoLaying::Cooks.into()),
            PlanTap::Pans(pans @ 1..=MOST_PANS) => {
                serving.pans = *pans;
                if running {
                    self.change_laid(|dish| dish.pans = *pans)?;
                }
            }
            PlanTap::Cooks(_) => return Err(NoLaying::Cooks.into()),
            PlanTap::Pans(_) => return Err(NoLaying::Pans.into()),
            PlanTap::PlateAt(at) => {
                serving.plate_at = *at;
                if let Some(run) = &mut self.run {
                    run.begin_at = None;
                }
            }
            PlanTap::BeginAt(at) => {
                if let Some(run) = self.run.as_mut().filter(|run| run.steps.is_empty()) {
                    run.begin_at = Some(*at);
                }
            }
            PlanTap::WayOut(change) => match change {
                Change::Cook => {
                    return self
                        .plan_with(serving, &PlanTap::Cooks(serving.cooks.saturating_add(1)));
                }
                Change::Pans(pans) => return self.plan_with(serving, &PlanTap::Pans(*pans)),
                Change::All(changes) => {
                    for change in changes {
                        self.plan_with(serving, &PlanTap::WayOut(change.clone()))?;
                    }
                }
                Change::Gap { .. } if running => {
                    self.change_laid(|dish| *dish = dish.eased(change))?;
                }
                Change::Gap { .. } if serving.ease_beside(change).is_some() => {}
                Change::Gap { .. } => {
                    self.own_dish = Some(folded(self.dish()?.eased(change))?);
                    serving.card = None;
                }
            },
            PlanTap::Anew(number, times, later) => {
                let number = *number;
                let mut run = self.run.clone().ok_or(NoService::NotBegun)?;
                serving.times = later.or(serving.times);
                self.change_laid(|dish| {
                    // What is done stays as it was planned: by that it is told how late it was.
                    let done = |step: &Step| run.steps.get(&step.id).is_some_and(|s| !s.is_open());
                    dish.take_times(*times, |s| panful(&s.id).1 == number && !done(s));
                    if let Some(later) = later {
                        dish.take_times(*later, |step| panful(&step.id).1 > number);
                    }
                    let fish = dish.steps.iter().filter(|step| step.of_fish.is_some());
                    for step in fish.filter(|step| panful(&step.id).1 == number) {
                        run.set_anew(&step.id);
                    }
                })?;
                self.run = Some(run);
            }
            PlanTap::AtOnce(_)
            | PlanTap::Times(_)
            | PlanTap::Shipped(_)
            | PlanTap::Card(..)
            | PlanTap::Own(_)
            | PlanTap::Alongside(_)
                if running =>
            {
                return Err(NoService::Begun.into());
            }
            PlanTap::AtOnce(text) => serving.at_once = short(text)?,
            PlanTap::Times(times) => {
                serving.times = *times;
                serving.is_fixed = times.is_none();
            }
            PlanTap::Shipped(id) => {
                self.dish = shipped::by_id(id)?.id.clone();
                self.own_dish = None;
                serving.times = None;
                serving.is_fixed = false;
                serving.card = None;
            }
            PlanTap::Card(card, dish) => {
                if let Some(alone) = &mut self.alone {
                    alone.clone_from(&dish.name);
                }
                self.cook_into(dish)?;
                serving.card = Some(card.clone());
            }
            PlanTap::Own(dish) => {
                self.cook_into(dish)?;
                serving.card = None;
            }
            PlanTap::Alongside(tap) => self.alongside(serving, tap)?,
        }
        Ok(())
    }

    fn cook_into(&mut self, dish: &Sound) -> Result<(), Refusal> {
        let dish = dish.clone().into_dish();
        self.dish.clone_from(&dish.id);
        self.own_dish = Some(folded(dish)?);
        Ok(())
    }

    fn change_laid(&mut self, change: impl FnOnce(&mut Dish)) -> Result<(), Refusal> {
        let mut dish = self.dish()?.clone();
        change(&mut dish);
        self.laid = Some(folded(dish)?);
        Ok(())
    }
}

/// A dish goes into a record as its text: a phone that only weighs fish reads and writes it and knows nothing of cooking.
fn folded(dish: Dish) -> Result<Folded<Dish>, Refusal> {
    Folded::of(dish).map_err(unread)
}

pub(super) fn unread(_: serde_json::Error) -> Refusal {
    NoDish::NotKept.into()
}
