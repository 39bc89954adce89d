//! One step of a dish: what to do, for how long, where, and after what.

use std::collections::BTreeSet;

use serde::{Deserialize, Serialize};

use crate::base::kit::Kit;
use crate::base::text::first_sentence;

/// What stands before the number of a panful in the title of a step.
pub(super) const PANFUL: &str = ", batch ";

/// Where a step happens.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Station {
    /// A pan of the bench, full with one thing in it.
    Pan,
    /// The board, or a tray beside it.
    Board,
    /// The oven.
    Oven,
    /// The stove, in another vessel than the pan.
    Stove,
    /// The plate.
    Plate,
}

impl Station {
    /// Every station, in the order a plan shows them.
    pub const ALL: [Self; 5] = [Self::Pan, Self::Oven, Self::Board, Self::Stove, Self::Plate];

    /// The name a cook knows it by.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::Pan => "pan",
            Self::Board => "board",
            Self::Oven => "oven",
            Self::Stove => "stove",
            Self::Plate => "plate",
        }
    }

    /// Whether what is there goes on cooking whatever a timer does.
    #[must_use]
    pub fn is_hot(self) -> bool {
        matches!(self, Self::Pan | Self::Oven | Self::Stove)
    }

    /// Whether one step takes all of it. Only the pan is full with one thing in it.
    #[must_use]
    pub fn takes_one(self) -> bool {
        self == Self::Pan
    }

    /// Whether what is there stands on a ring or a burner.
    #[must_use]
    pub fn is_on_a_burner(self) -> bool {
        matches!(self, Self::Pan | Self::Stove)
    }
}

/// How a step begins.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Begins {
    /// When the cook taps.
    Tap,
    /// By itself, the moment what it waits for has happened.
    AtOnce,
}

/// What a step does to the fish in the pan. Such a step is done over for each panful, and how long it lasts is
/// what an estimate of the heat changes.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum OfFish {
    /// The pan gets hot for it.
    HeatPan,
    /// It lies skin side down on the heat.
    SkinSide,
    /// It is turned, the heat off.
    Finish,
    /// Its core is looked at.
    Check,
    /// It rests out of the pan.
    Rest,
}

impl OfFish {
    /// Every part, in the order of the pan.
    pub const ALL: [Self; 5] = [
        Self::HeatPan,
        Self::SkinSide,
        Self::Finish,
        Self::Check,
        Self::Rest,
    ];

    /// Whether the fish is there: in the pan, or out of it at rest.
    #[must_use]
    pub fn has_fish(self) -> bool {
        self != Self::HeatPan
    }

    /// Its name where there is room for a word or two.
    #[must_use]
    pub fn short_name(self) -> &'static str {
        match self {
            Self::HeatPan => "Pan",
            Self::SkinSide => "Skin side",
            Self::Finish => "Turned",
            Self::Check => "Core",
            Self::Rest => "Rest",
        }
    }

    /// What to do while its timer runs, once the hands are free.
    #[must_use]
    pub fn while_it_runs(self) -> &'static str {
        match self {
            Self::HeatPan => "Stay with the pan until it rings.",
            Self::SkinSide => "Leave it until it rings, then turn it.",
            Self::Finish => "Leave it until it rings, then look at the thickest part.",
            Self::Check => "Leave it in the pan until it rings.",
            Self::Rest => "Let it rest until it rings, then plate it.",
        }
    }

    /// What to do the moment its timer has rung.
    #[must_use]
    pub fn at_its_end(self) -> &'static str {
        match self {
            Self::HeatPan => "The fish goes in now.",
            Self::SkinSide => "Turn the fish now, and take the heat off.",
            Self::Finish => "Look at the thickest part now.",
            Self::Check => "Out of the pan with it now.",
            Self::Rest => "It has rested: plate it now.",
        }
    }

    /// The name a cook knows it by.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::HeatPan => "heats the pan for the fish",
            Self::SkinSide => "fish, skin side down",
            Self::Finish => "fish, turned",
            Self::Check => "looks at the core of the fish",
            Self::Rest => "fish, resting",
        }
    }
}

/// Which end of an earlier step a link is measured from.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Edge {
    /// The moment it began.
    Start,
    /// The moment it was done.
    End,
}

/// What a step waits for: it starts no sooner than `least` and no later than `most` seconds after an
/// edge of the step `to`.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Link {
    /// The id of the earlier step.
    pub to: String,
    /// The edge of it that counts.
    pub edge: Edge,
    /// The least gap, in seconds.
    #[serde(default)]
    pub least: u32,
    /// The greatest gap, in seconds; past it the cook is warned, not stopped.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub most: Option<u32>,
}

/// What changes on a bench without one kind of kit.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Detour {
    /// The kit that is missing.
    pub without: Kit,
    /// What to do instead, or as well.
    pub say: String,
    /// What can hurt somebody, shown with it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub caution: Option<String>,
    /// Seconds that it adds to the step (takes off when negative).
    #[serde(default)]
    pub adds_secs: i32,
}

/// One step of a dish.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Step {
    /// Its name in links and in what is stored.
    pub id: String,
    /// Its name on the screen.
    pub title: String,
    /// What to do, in a few short sentences. The first stands alone at the stove: see [`Step::brief`].
    pub say: String,
    /// What can hurt somebody at this step.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub caution: Option<String>,
    /// What it does to the fish in the pan; nothing for a step of the rest of the dish.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub of_fish: Option<OfFish>,
    /// Where it happens.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub station: Option<Station>,
    /// How hot the oven is for it, °C; nothing where that is all the same, or where it is elsewhere.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub oven_c: Option<u16>,
    /// The seconds on its timer; without it the step ends by eye, and nothing rings.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub lasts: Option<u32>,
    /// The seconds a step without a timer is counted as when the rest of the service is projected.
    #[serde(default)]
    pub takes: u32,
    /// The seconds that each cover past [`COVERS_MEANT`] adds to a step without a timer: plating takes longer for twenty,
    /// and heating a pan does not. Fewer covers take off as much.
    #[serde(default, skip_serializing_if = "is_nought")]
    pub per_cover: u32,
    /// Whether it needs the cook's hands all the while.
    pub hands: bool,
    /// The seconds at its start that need the cook's hands, where they are free after that.
    #[serde(default)]
    pub hands_first: u32,
    /// How it begins.
    pub begins: Begins,
    /// What it waits for.
    #[serde(default)]
    pub links: Vec<Link>,
    /// The word on its done button.
    pub done_word: String,
    /// What changes without some kit.
    #[serde(default)]
    pub detours: Vec<Detour>,
    /// Where its figures come from.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub note: Option<String>,
}

/// The covers that the times of a step are meant for: two fillets of one fish.
pub const COVERS_MEANT: u32 = 2;

// The shape that serde asks for.
#[allow(clippy::trivially_copy_pass_by_ref)]
fn is_nought(secs: &u32) -> bool {
    *secs == 0
}

impl Step {
    /// Takes the time that so many covers need.
    pub(super) fn grow(&mut self, covers: u32) {
        if covers == COVERS_MEANT || self.lasts.is_some() {
            return;
        }
        let more = self.per_cover.saturating_mul(covers);
        let meant = self.per_cover.saturating_mul(COVERS_MEANT);
        self.takes = self.takes.saturating_add(more).saturating_sub(meant);
        self.hands_first = self.hands_first.min(self.takes);
        self.per_cover = 0;
    }

    /// The detours of this step on a bench without `missing`.
    pub fn detours_for<'a>(
        &'a self,
        missing: &'a BTreeSet<Kit>,
    ) -> impl Iterator<Item = &'a Detour> {
        self.detours.iter().filter(|d| missing.contains(&d.without))
    }

    /// Its name where there is room for a few words: which panful it is of stays.
    #[must_use]
    pub fn short_title(&self) -> String {
        let Some(part) = self.of_fish else {
            return self.title.clone();
        };
        let panful = self.title.find(PANFUL).and_then(|at| self.title.get(at..));
        format!("{}{}", part.short_name(), panful.unwrap_or_default())
    }

    /// Its name without the number of its panful.
    #[must_use]
    pub fn plain_title(&self) -> String {
        let end = self.title.find(PANFUL).filter(|_| self.of_fish.is_some());
        let plain = end.and_then(|end| self.title.get(..end));
        plain.unwrap_or(&self.title).to_owned()
    }

    /// What to do in one sentence, for a glance at the stove: the first of the detour that a bench without `missing`
    /// takes, or else of the step.
    #[must_use]
    pub fn brief<'a>(&'a self, missing: &'a BTreeSet<Kit>) -> &'a str {
        let detour = self.detours_for(missing).next();
        first_sentence(detour.map_or(&self.say, |detour| &detour.say))
    }

    /// What can hurt somebody at this step on a bench without `missing`, the detour's first.
    #[must_use]
    pub fn care<'a>(&'a self, missing: &'a BTreeSet<Kit>) -> Option<&'a str> {
        let detour = self
            .detours_for(missing)
            .find_map(|detour| detour.caution.as_deref());
        detour.or(self.caution.as_deref())
    }

    /// Milliseconds on the timer, detours counted in, never negative; `None` when nothing is timed.
    #[must_use]
    pub fn lasts_ms(&self, missing: &BTreeSet<Kit>) -> Option<i64> {
        self.lasts.map(|secs| self.with_detours(secs, missing))
    }

    /// Milliseconds that the step is counted as in a projection: its timer, or else `takes`.
    #[must_use]
    pub fn counts_ms(&self, missing: &BTreeSet<Kit>) -> i64 {
        self.with_detours(self.lasts.unwrap_or(self.takes), missing)
    }

    fn with_detours(&self, secs: u32, missing: &BTreeSet<Kit>) -> i64 {
        let adds: i64 = self
            .detours_for(missing)
            .map(|d| i64::from(d.adds_secs))
            .sum();
        (i64::from(secs) + adds).max(0) * 1000
    }
}
