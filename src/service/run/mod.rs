//! A service being cooked: what began, what is held, what is done. Every timer is kept as instants,
//! so that a locked phone, a reload or another time zone loses nothing.

mod refusals;
pub mod state;
pub mod step_run;

use std::collections::{BTreeMap, BTreeSet};

use serde::{Deserialize, Serialize};

use crate::base::instant::Instant;
use crate::base::kit::Kit;
use crate::base::refusal::Refusal;
use crate::service::dish::Dish;
use crate::service::dish::step::{Begins, Edge, Link, Step};
use crate::service::run::refusals::NoTap;
use crate::service::run::step_run::StepRun;

const MORE_MS: i64 = 30_000;
const MOST_EXTRA_MS: i64 = 3_600_000;

/// What a cook taps during the service; each names a step by its id.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Tap {
    /// It begins now.
    Begin(String),
    /// Its timer stands still.
    Hold(String),
    /// Its timer goes on.
    Resume(String),
    /// Thirty seconds more, counted from now when it has rung already.
    More(String),
    /// It is done, early or late.
    Done(String),
    /// It is begun and done in one.
    AtAStroke(String),
    /// It isn't done after all; or, when it was only begun, it hasn't begun.
    NotDone(String),
}

/// A service being cooked.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Run {
    /// The id of the dish.
    pub dish: String,
    /// When the service started.
    pub started: Instant,
    /// When the first step is to begin, for a service that waits for its hour: the alarm rings then.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub begin_at: Option<Instant>,
    /// The last moment the clock was looked at for a tap: it tells that the clock was set back since.
    pub touched: Instant,
    /// Every step that has begun, by its id.
    pub steps: BTreeMap<String, StepRun>,
    /// Whether every step was done after the last tap: so that a list of fish need not know their dishes. Not said by
    /// the first builds.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub over: Option<bool>,
}

impl Run {
    /// A service of `dish` that starts now; what begins at once and waits for nothing has begun.
    #[must_use]
    pub fn start(dish: &Dish, now: Instant) -> Self {
        let mut run = Self {
            dish: dish.id.clone(),
            started: now,
            begin_at: None,
            touched: now,
            steps: BTreeMap::new(),
            over: Some(false),
        };
        run.begin_at_once(dish, |step| step.links.is_empty(), now);
        run
    }

    /// The run after a tap on a bench without `missing`. Nothing changes when it is refused.
    ///
    /// # Errors
    /// A sentence that says what is in the way.
    pub fn tap(
        &self,
        dish: &Dish,
        missing: &BTreeSet<Kit>,
        tap: &Tap,
        now: Instant,
    ) -> Result<Self, Refusal> {
        let mut run = self.as_of(now);
        match tap {
            Tap::Begin(id) => run.begin(dish, known(dish, id)?, now)?,
            Tap::Hold(id) => run.hold(known(dish, id)?, missing, now)?,
            Tap::Resume(id) => {
                let step = known(dish, id)?;
                let open = run.open(step)?;
                if open.held_since.is_none() {
                    return Err(NoTap::NotHeld(step.title.clone()).into());
                }
                open.release(now);
            }
            Tap::More(id) => run.more(known(dish, id)?, missing, now)?,
            Tap::Done(id) => {
                let open = run.open(known(dish, id)?)?;
                open.release(now);
                open.done = Some(now);
                run.begin_followers(dish, id, now);
            }
            Tap::AtAStroke(id) => {
                let begun = run.tap(dish, missing, &Tap::Begin(id.clone()), now)?;
                return begun.tap(dish, missing, &Tap::Done(id.clone()), now);
            }
            Tap::NotDone(id) => run.undo(dish, known(dish, id)?)?,
        }
        run.over = Some(run.is_over(dish));
        Ok(run)
    }

    /// The run on a clock that shows `now`. When the clock was set back behind the last tap, all that
    /// has happened moves back with it, so that no timer counts the difference. Kept when the screen
    /// goes dark, it lets a change of the clock be seen that comes after the last tap.
    #[must_use]
    pub fn as_of(&self, now: Instant) -> Self {
        let mut run = self.clone();
        let last = run.moments().map(|moment| *moment).max().unwrap_or(now);
        if last > now {
            let back = now.ms_since(last);
            for moment in run.moments() {
                *moment = moment.plus_ms(back).min(now);
            }
        }
        run.touched = now;
        run
    }

    /// The timer of a step under way counts from its beginning again: what it was held and given lies within the time
    /// that an estimate gives it, not on top.
    pub fn set_anew(&mut self, id: &str) {
        if let Some(open) = self.steps.get_mut(id).filter(|step| step.is_open()) {
            open.held_since = None;
            open.held_ms = 0;
            open.extra_ms = 0;
        }
    }

    /// The moment of the edge that `link` is measured from, once it has happened.
    #[must_use]
    pub fn edge(&self, link: &Link) -> Option<Instant> {
        let step = self.steps.get(&link.to)?;
        match link.edge {
            Edge::Start => Some(step.began),
            Edge::End => step.done,
        }
    }

    /// The open step that takes the last place at the station `step` needs, when there is one.
    #[must_use]
    pub fn taken_by<'a>(&self, dish: &'a Dish, step: &Step) -> Option<&'a Step> {
        let places = dish.places(step.station?);
        let open = dish.steps.iter().filter(|other| {
            other.id != step.id
                && share_station(other, step)
                && self.steps.get(&other.id).is_some_and(StepRun::is_open)
        });
        open.skip(places.saturating_sub(1)).last()
    }

    /// The steps that `step` still waits for, and the moment its gaps allow it (the latest of those known).
    #[must_use]
    pub fn waits<'a>(&self, dish: &'a Dish, step: &Step) -> (Vec<&'a Step>, Instant) {
        let mut on = Vec::new();
        let mut from = self.started;
        for link in &step.links {
            match self.edge(link) {
                Some(edge) => from = from.max(edge.plus_secs(i64::from(link.least))),
                None => on.extend(dish.step(&link.to)),
            }
        }
        (on, from)
    }

    /// Whether every step of the dish is done.
    #[must_use]
    pub fn is_over(&self, dish: &Dish) -> bool {
        dish.steps.iter().all(|step| {
            self.steps
                .get(&step.id)
                .is_some_and(|run| run.done.is_some())
        })
    }

    /// The one step of the dish that is not done; nothing where none or several are open.
    #[must_use]
    pub fn last_open<'a>(&self, dish: &'a Dish) -> Option<&'a Step> {
        let is_done = |step: &&Step| {
            self.steps
                .get(&step.id)
                .is_some_and(|run| run.done.is_some())
        };
        let mut open = dish.steps.iter().filter(|step| !is_done(step));
        let last = open.next()?;
        open.next().is_none().then_some(last)
    }

    fn moments(&mut self) -> impl Iterator<Item = &mut Instant> {
        [&mut self.started, &mut self.touched]
            .into_iter()
            .chain(self.steps.values_mut().flat_map(StepRun::moments))
    }

    fn open(&mut self, step: &Step) -> Result<&mut StepRun, NoTap> {
        match self.steps.get_mut(&step.id) {
            Some(open) if open.is_open() => Ok(open),
            Some(_) => Err(NoTap::Done(step.title.clone())),
            None => Err(NoTap::NotBegun(step.title.clone())),
        }
    }

    fn begin(&mut self, dish: &Dish, step: &Step, now: Instant) -> Result<(), NoTap> {
        let title = || step.title.clone();
        match self.steps.get(&step.id) {
            Some(open) if open.is_open() => return Err(NoTap::Begun(title())),
            Some(_) => return Err(NoTap::Done(title())),
            None => {}
        }
        let (on, from) = self.waits(dish, step);
        if !on.is_empty() {
            return Err(NoTap::Waits {
                step: title(),
                on: on.iter().map(|step| step.title.clone()).collect(),
            });
        }
        if from > now {
            return Err(NoTap::TooSoon {
                step: title(),
                ms: from.ms_since(now),
            });
        }
        self.refuse_taken(dish, step)?;
        self.steps.insert(step.id.clone(), StepRun::begun(now));
        self.begin_followers(dish, &step.id, now);
        Ok(())
    }

    fn refuse_taken(&self, dish: &Dish, step: &Step) -> Result<(), NoTap> {
        match (step.station, self.taken_by(dish, step)) {
            (Some(station), Some(other)) => Err(NoTap::Taken(station, other.title.clone())),
            _ => Ok(()),
        }
    }

    fn hold(&mut self, step: &Step, missing: &BTreeSet<Kit>, now: Instant) -> Result<(), NoTap> {
        let lasts = timed(step, missing)?;
        let open = self.open(step)?;
        if open.held_since.is_some() {
            return Err(NoTap::Held(step.title.clone()));
        }
        if open.left_ms(lasts, now) == 0 {
            return Err(NoTap::Rung(step.title.clone()));
        }
        open.held_since = Some(now);
        Ok(())
    }

    fn more(&mut self, step: &Step, missing: &BTreeSet<Kit>, now: Instant) -> Result<(), NoTap> {
        let lasts = timed(step, missing)?;
        let open = self.open(step)?;
        // Thirty seconds on a timer that rang a while ago would have run out before the tap.
        let over = match open.held_since {
            Some(_) => 0,
            None => now.ms_since(open.ends(lasts)).max(0),
        };
        let extra = open
            .extra_ms
            .max(0)
            .saturating_add(over)
            .saturating_add(MORE_MS);
        if extra > MOST_EXTRA_MS {
            return Err(NoTap::TooLong(step.title.clone()));
        }
        open.extra_ms = extra;
        Ok(())
    }

    /// Takes back the last thing that happened to a step, and what began by itself because of it.
    fn undo(&mut self, dish: &Dish, step: &Step) -> Result<(), NoTap> {
        let Some(this) = self.steps.get_mut(&step.id) else {
            return Err(NoTap::NotBegun(step.title.clone()));
        };
        if this.done.take().is_some() {
            self.withdraw(dish, &step.id, Edge::End)?;
            self.refuse_taken(dish, step)
        } else {
            self.steps.remove(&step.id);
            self.withdraw(dish, &step.id, Edge::Start)
        }
    }

    fn withdraw(&mut self, dish: &Dish, of: &str, edge: Edge) -> Result<(), NoTap> {
        for follower in &dish.steps {
            let follows = follower.links.iter().any(|l| l.to == of && l.edge == edge);
            let Some(begun) = self.steps.get(&follower.id).filter(|_| follows) else {
                continue;
            };
            if follower.begins == Begins::Tap || !begun.is_open() {
                return Err(NoTap::FollowerBegun(follower.title.clone()));
            }
            self.steps.remove(&follower.id);
            self.withdraw(dish, &follower.id, Edge::Start)?;
        }
        Ok(())
    }

    /// Begins what waited for `id`, or for the station that `id` took, and begins at once.
    fn begin_followers(&mut self, dish: &Dish, id: &str, now: Instant) {
        let Some(cause) = dish.step(id) else { return };
        self.begin_at_once(
            dish,
            |step| share_station(step, cause) || step.links.iter().any(|l| l.to == id),
            now,
        );
    }

    fn begin_at_once(&mut self, dish: &Dish, because: impl Fn(&Step) -> bool, now: Instant) {
        for step in dish
            .steps
            .iter()
            .filter(|s| s.begins == Begins::AtOnce && because(s))
        {
            let (on, from) = self.waits(dish, step);
            let free = on.is_empty() && from <= now && self.taken_by(dish, step).is_none();
            if free && !self.steps.contains_key(&step.id) {
                self.steps.insert(step.id.clone(), StepRun::begun(now));
                self.begin_followers(dish, &step.id, now);
            }
        }
    }
}

/// Whether two steps can't be open together because both take the same station.
pub(crate) fn share_station(one: &Step, other: &Step) -> bool {
    one.station == other.station && one.station.is_some_and(|s| s.takes_one())
}

fn known<'a>(dish: &'a Dish, id: &str) -> Result<&'a Step, NoTap> {
    dish.step(id).ok_or_else(|| NoTap::NoStep(id.to_owned()))
}

fn timed(step: &Step, missing: &BTreeSet<Kit>) -> Result<i64, NoTap> {
    step.lasts_ms(missing)
        .ok_or_else(|| NoTap::NoTimer(step.title.clone()))
}
