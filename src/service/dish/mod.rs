//! A dish as data: the mise en place that opens it, the steps that cook it, the check of the plate.

pub mod joined;
pub mod kitchen_room;
pub mod laid_out;
pub(crate) mod refusals;
mod remedy;
pub mod shipped;
pub mod step;

use std::collections::BTreeSet;
use std::ops::Deref;

use serde::{Deserialize, Serialize};

use crate::base::kit::Kit;
use crate::base::refusal::Refusal;
use crate::base::refusals::NoDetour;
use crate::base::text::first_sentence;
use crate::service::dish::refusals::{DishPart, NoDish};
use crate::service::dish::step::{Begins, Detour, Station, Step};

/// The lines of a shipped mise en place that stand for food.
pub const FOOD: [&str; 7] = [
    "fillets", "sauce", "firm", "soft", "leaves", "leeks", "snaps",
];

/// One line of the mise en place: open until the cook ticks it.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct MiseLine {
    /// Its name in what is stored.
    pub id: String,
    /// What has to be ready.
    pub say: String,
    /// What can hurt somebody here.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub caution: Option<String>,
    /// What changes without some kit.
    #[serde(default)]
    pub detours: Vec<Detour>,
}

impl MiseLine {
    /// What has to be ready in a few words: the first of the detour that a bench without `missing` takes, or else what
    /// stands before the first stop of the line.
    #[must_use]
    pub fn brief<'a>(&'a self, missing: &BTreeSet<Kit>) -> &'a str {
        let detour = (self.detours.iter()).find(|detour| missing.contains(&detour.without));
        match detour {
            Some(detour) => first_sentence(&detour.say),
            None => before_a_stop(&self.say),
        }
    }

    /// Whether it is food or a plate, which every dish of a service needs for itself: its tools they share.
    #[must_use]
    pub fn is_for_each(&self) -> bool {
        FOOD.contains(&self.id.as_str()) || self.id == "plates" || self.id.starts_with("line-")
    }

    /// The same line where there are several dishes: for which one it is stands in it.
    pub(in crate::service::dish) fn of_dish(&self, name: &str, id: String) -> Self {
        let marked = |say: &str| {
            let before = before_a_stop(say);
            let after = say.get(before.len()..).unwrap_or_default();
            format!("{before} ({name}){after}")
        };
        let mut line = self.clone();
        line.id = id;
        line.say = marked(&self.say);
        for detour in &mut line.detours {
            detour.say = marked(&detour.say);
        }
        line
    }

    /// What can hurt the cook or spoil the fish here, in one sentence: the detour's first. What a guest may react to
    /// stands with the allergens of the dish.
    #[must_use]
    pub fn care<'a>(&'a self, missing: &BTreeSet<Kit>) -> Option<&'a str> {
        let detour = self
            .detours
            .iter()
            .filter(|detour| missing.contains(&detour.without))
            .find_map(|detour| detour.caution.as_deref());
        let care = detour.or(self.caution.as_deref()).map(first_sentence);
        care.filter(|care| !care.starts_with("Allergens"))
    }
}

/// One question about the finished plate.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct PlateCheck {
    /// Its name in what is stored.
    pub id: String,
    /// The question, answered yes or no.
    pub ask: String,
}

/// A dish: checked, its steps in an order that their links allow.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Dish {
    /// Its name in what is stored.
    pub id: String,
    /// Its name on the screen.
    pub name: String,
    /// How many it serves.
    pub covers: u32,
    /// Fish for one cover, ready to cook, in grams.
    pub portion_g: u32,
    /// How many pans there are for it: one, unless more were found.
    #[serde(default = "one_pan", skip_serializing_if = "is_one_pan")]
    pub pans: u32,
    /// How far apart the temperatures of two steps in the oven may be, °C, that are in it together.
    #[serde(default = "alike_c", skip_serializing_if = "is_alike_c")]
    pub oven_within_c: u16,
    /// The seconds that the oven takes from one temperature to another.
    #[serde(default = "oven_changes", skip_serializing_if = "is_oven_change")]
    pub oven_change_secs: u32,
    /// What has to be ready before the fish goes in.
    pub mise: Vec<MiseLine>,
    /// The steps of the service.
    pub steps: Vec<Step>,
    /// What is asked of the plate.
    pub plate_check: Vec<PlateCheck>,
    /// What a guest may react to; the label and the local list decide.
    pub allergens: Vec<String>,
    /// What can make a guest ill; the local code and the supervising professional decide.
    pub cautions: Vec<String>,
    /// The dishes of a service of several, in the order of their plates: see [`joined`]. Nothing of one dish.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub members: Vec<joined::Member>,
    /// What the kitchen has room for at once.
    #[serde(default, skip_serializing_if = "kitchen_room::KitchenRoom::is_open")]
    pub room: kitchen_room::KitchenRoom,
}

fn one_pan() -> u32 {
    1
}

// The shape that serde asks for.
#[allow(clippy::trivially_copy_pass_by_ref)]
fn is_one_pan(pans: &u32) -> bool {
    *pans == 1
}

/// Ten degrees and ten minutes, until the cook says otherwise: common practice, no source.
const ALIKE_C: u16 = 10;
const OVEN_CHANGE_SECS: u32 = 600;

fn alike_c() -> u16 {
    ALIKE_C
}

// The shape that serde asks for.
#[allow(clippy::trivially_copy_pass_by_ref)]
fn is_alike_c(degrees: &u16) -> bool {
    *degrees == ALIKE_C
}

fn oven_changes() -> u32 {
    OVEN_CHANGE_SECS
}

// The shape that serde asks for.
#[allow(clippy::trivially_copy_pass_by_ref)]
fn is_oven_change(secs: &u32) -> bool {
    *secs == OVEN_CHANGE_SECS
}

/// A dish that one cook can serve with all its gaps kept: the menu has held it against the clock.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Sound(Dish);

impl Sound {
    /// Only the menu says so.
    pub(in crate::service) fn vouched(dish: Dish) -> Self {
        Self(dish)
    }

    /// The dish itself.
    #[must_use]
    pub fn into_dish(self) -> Dish {
        self.0
    }
}

impl Deref for Sound {
    type Target = Dish;

    fn deref(&self) -> &Dish {
        &self.0
    }
}

impl Dish {
    /// Its name up to what comes with it.
    #[must_use]
    pub fn brief(&self) -> &str {
        self.name.split(',').next().unwrap_or(&self.name)
    }

    /// A dish from its JSON text, with every field sound and its steps in an order that their links allow.
    ///
    /// # Errors
    /// A sentence that names the step or the line at fault.
    pub fn parse(json: &str) -> Result<Self, Refusal> {
        let dish: Self =
            serde_json::from_str(json).map_err(|why| NoDish::Unreadable(why.to_string()))?;
        dish.in_order()
    }

    /// The dish with every field sound and its steps in an order that their links allow. Whether its gaps can be kept is
    /// for the menu to say.
    ///
    /// # Errors
    /// A sentence that names the step or the line at fault.
    pub fn in_order(mut self) -> Result<Self, Refusal> {
        self.check()?;
        self.steps = in_order(std::mem::take(&mut self.steps))?;
        Ok(self)
    }

    /// The step called `id`.
    #[must_use]
    pub fn step(&self, id: &str) -> Option<&Step> {
        self.steps.iter().find(|step| step.id == id)
    }

    /// Whether fish is cooked in it.
    #[must_use]
    pub fn has_fish(&self) -> bool {
        self.steps.iter().any(|step| step.of_fish.is_some())
    }

    fn check(&self) -> Result<(), Refusal> {
        let name = || self.name.clone();
        if self.covers == 0 || self.portion_g == 0 {
            return Err(NoDish::NothingServed(name()).into());
        }
        if !self.steps.iter().any(|s| s.station == Some(Station::Plate)) {
            return Err(NoDish::NoPlate(name()).into());
        }
        no_twice(DishPart::Step, self.steps.iter().map(|s| &s.id))?;
        no_twice(DishPart::MiseLine, self.mise.iter().map(|l| &l.id))?;
        no_twice(DishPart::PlateCheck, self.plate_check.iter().map(|c| &c.id))?;
        for line in &self.mise {
            one_detour_each(&line.id, &line.detours)?;
        }
        for step in &self.steps {
            self.check_step(step)?;
        }
        Ok(())
    }

    /// How many steps a station holds at once; as many as there are when one step doesn't take all of it.
    #[must_use]
    pub fn places(&self, station: Station) -> usize {
        if station.takes_one() {
            usize::try_from(self.pans).unwrap_or(1)
        } else {
            self.steps.len()
        }
    }

    /// Whether two steps can't be in the oven together: they want it at temperatures too far apart.
    #[must_use]
    pub fn ovens_apart(&self, one: &Step, other: &Step) -> bool {
        let heat = |step: &Step| step.oven_c.filter(|_| step.station == Some(Station::Oven));
        match (heat(one), heat(other)) {
            (Some(one), Some(other)) => one.abs_diff(other) > self.oven_within_c,
            _ => false,
        }
    }

    fn check_step(&self, step: &Step) -> Result<(), Refusal> {
        let title = || step.title.clone();
        one_detour_each(&step.id, &step.detours)?;
        if step.lasts == Some(0) {
            return Err(NoDish::TimerAtZero(title()).into());
        }
        if i64::from(step.hands_first) * 1000 > step.counts_ms(&BTreeSet::new()) {
            return Err(NoDish::ManyHands(title()).into());
        }
        for link in &step.links {
            if link.to == step.id {
                return Err(NoDish::WaitsForItself(title()).into());
            }
            if self.step(&link.to).is_none() {
                return Err(NoDish::WaitsForNone(title(), link.to.clone()).into());
            }
            if link.most.is_some_and(|most| link.least > most) {
                return Err(NoDish::GapsCrossed(title()).into());
            }
            if step.begins == Begins::AtOnce && link.least > 0 {
                return Err(NoDish::GapAtOnce(title()).into());
            }
        }
        Ok(())
    }
}

/// What stands before the first comma, colon or full stop of a text: not the one inside a figure.
fn before_a_stop(text: &str) -> &str {
    let stops = text.match_indices([',', ':', '.']);
    let stop = stops.map(|(at, _)| text.split_at(at)).find(|(_, rest)| {
        let mut after = rest.chars().skip(1);
        after.next().is_none_or(char::is_whitespace)
    });
    stop.map_or(text, |(before, _)| before)
}

fn no_twice<'a>(named: DishPart, mut ids: impl Iterator<Item = &'a String>) -> Result<(), NoDish> {
    let mut seen = BTreeSet::new();
    match ids.find(|id| !seen.insert(*id)) {
        Some(twice) => Err(NoDish::Twice(named, twice.clone())),
        None => Ok(()),
    }
}

fn one_detour_each(id: &str, detours: &[Detour]) -> Result<(), NoDetour> {
    let mut seen = BTreeSet::new();
    match detours.iter().find(|d| !seen.insert(d.without)) {
        Some(twice) => Err(NoDetour::Two {
            of: id.to_owned(),
            without: twice.without,
        }),
        None => Ok(()),
    }
}

/// The steps with every step after those it waits for, otherwise as written.
pub(super) fn in_order(mut left: Vec<Step>) -> Result<Vec<Step>, NoDish> {
    let mut placed: Vec<Step> = Vec::with_capacity(left.len());
    while !left.is_empty() {
        let next = left
            .iter()
            .position(|s| s.links.iter().all(|l| placed.iter().any(|p| p.id == l.to)));
        match next {
            Some(at) => placed.push(left.remove(at)),
            None => {
                let round = left.into_iter().map(|step| step.title);
                return Err(NoDish::Circle(round.collect()));
            }
        }
    }
    Ok(placed)
}
