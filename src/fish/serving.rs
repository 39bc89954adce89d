//! How the service of one fish is to run: the cooks, the pans, the hour of the plate, and the dish laid out for it.

use std::sync::LazyLock;

use serde::{Deserialize, Serialize};

use super::alongside::{Alongside, AlongsideTap};
use super::refusals::NoService;
use super::slip;
use crate::base::folded::Folded;
use crate::base::instant::Instant;
use crate::base::part;
use crate::base::refusal::Refusal;
use crate::fish::record::Fish;
use crate::service::dish::kitchen_room::KitchenRoom;
use crate::service::dish::laid_out::{FishTimes, Laying, panfuls};
use crate::service::dish::refusals::NoDish;
use crate::service::dish::shipped;
use crate::service::dish::step::COVERS_MEANT;
use crate::service::dish::{Dish, Sound};
use crate::service::run::Run;
use crate::service::timetable::of_dish::{Change, Service};
use crate::service::timetable::{Stuck, Timetable};

/// How the service is to run.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(default)]
pub struct Serving {
    /// Cooks at work, at most six.
    pub cooks: u32,
    /// What the cooks are called, as typed; empty: by their number.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub names: Vec<String>,
    /// Pans, at most six.
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
    /// What the kitchen has room for, once it was said for this service.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub room: Option<KitchenRoom>,
    /// What its own dish is called among them, as typed; empty: by its own name.
    #[serde(skip_serializing_if = "String::is_empty")]
    pub called: String,
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
            room: None,
            called: String::new(),
            later: String::new(),
        }
    }
}

/// A tap on the plan, as a plain value.
#[derive(Clone, Debug, PartialEq)]
pub enum PlanTap {
    /// So many cooks.
    Cooks(u32),
    /// So much was said to be in the kitchen.
    Room(KitchenRoom),
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
        read_panfuls(&self.serving().at_once, &self.slip.portions)
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
        let plates = slip::read_portions(&self.slip.portions);
        let laid = dish.laid_out(&Laying {
            covers: plates.unwrap_or(COVERS_MEANT),
            panfuls: self.panfuls()?,
            pans: self.serving().pans,
            fish: self.serving().times,
        })?;
        let mut laid = self.with_those_alongside(laid)?;
        laid.room = self.serving().room.unwrap_or_default();
        Ok(laid)
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
}

/// How many panfuls so many portions make, both as typed.
pub(super) fn read_panfuls(at_once: &str, portions: &str) -> Result<u32, Refusal> {
    match at_once.trim() {
        "" => Ok(1),
        text => {
            let at_once = text.parse().map_err(|_| NoService::AtOnceNotWhole)?;
            panfuls(slip::read_portions(portions)?, at_once)
        }
    }
}

/// A dish goes into a record as its text: a phone that only weighs fish reads and writes it and knows nothing of cooking.
pub(super) fn folded(dish: Dish) -> Result<Folded<Dish>, Refusal> {
    Folded::of(dish).map_err(unread)
}

pub(super) fn unread(_: serde_json::Error) -> Refusal {
    NoDish::NotKept.into()
}
