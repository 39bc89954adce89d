//! One fish, from the delivery to the plate: everything that is kept of it, and nothing that can be worked out.

use std::collections::{BTreeMap, BTreeSet};

use serde::{Deserialize, Serialize};

use super::action::Action;
use super::heat_card::HeatCard;
use super::serving::Serving;
use super::settings::Settings;
use super::slip::{Slip, Species};
use super::weighing::{ScaleReading, Which};
use crate::base::filleted::FilletAnswers;
use crate::base::folded::Folded;
use crate::base::instant::Instant;
use crate::base::part::{self, Part};
use crate::base::refusal::Refusal;
use crate::journal::Journal;
use crate::prep::chill::Chill;
use crate::service::dish::Dish;
use crate::service::run::Run;
use crate::store::entry::Entry;
use crate::trade::breakdown::{Breakdown, Weights};
use crate::trade::mass::{Mass, Unit};
use crate::trade::money::{self, MassPrice};
use crate::trade::yields::{Trimming, YieldTest};

/// The dish of a cook's own fish.
pub const OWN_DISH: &str = "fillet";

/// A part kept for another dish, as typed.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Kept {
    /// Its identity among the parts kept of its fish.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub id: String,
    /// What it is: frames, cheeks.
    pub name: String,
    /// Its weight in the unit of the ready weight, as typed.
    pub weight: String,
    /// What it is worth for the mass the fish is priced by, as typed.
    pub price: String,
}

/// A field of a kept part.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum KeptField {
    /// What it is.
    Name,
    /// Its weight.
    Weight,
    /// What it is worth.
    Price,
}

impl Kept {
    /// What a field holds.
    pub fn field_mut(&mut self, field: KeptField) -> &mut String {
        match field {
            KeptField::Name => &mut self.name,
            KeptField::Weight => &mut self.weight,
            KeptField::Price => &mut self.price,
        }
    }
}

impl Part for Kept {
    fn id(&self) -> &str {
        &self.id
    }

    fn id_mut(&mut self) -> &mut String {
        &mut self.id
    }
}

/// Everything that is kept of one fish.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Fish {
    /// Its identity: letters and figures.
    pub id: String,
    /// When it was begun.
    pub begun: Instant,
    /// Whether it is the demonstration, which never counts among the cook's own.
    pub demo: bool,
    /// What the service of a dish alone is called: see [`Fish::is_alone`]. Nothing of a fish that is weighed.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub alone: Option<String>,
    /// The dish it is cooked into, by its name among the dishes.
    pub dish: String,
    /// What was bought.
    pub slip: Slip,
    /// The fish as delivered.
    pub whole: ScaleReading,
    /// The fillets off the bone, where they were weighed.
    pub off_bone: ScaleReading,
    /// The fillets ready to cook.
    pub ready: ScaleReading,
    /// What came off the fillets, where it was weighed to find out what the fish weighed as delivered.
    #[serde(default = "unweighed", skip_serializing_if = "is_unweighed")]
    pub frame: ScaleReading,
    /// Whether only one fillet of the fish was weighed, off the bone and ready to cook.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub one_fillet: bool,
    /// Whether the cook said that the ready fillets are raw; not said yet when absent.
    pub raw: Option<bool>,
    /// How many steps of the filleting have been passed.
    pub cut: usize,
    /// What the cook said of how the fillets were made: see [`Fish::filleted_told`]. Whole once the ready weight is taken;
    /// empty in builds that did not ask.
    #[serde(default, skip_serializing_if = "FilletAnswers::is_empty")]
    pub filleted: FilletAnswers,
    /// The weight of a portion as typed; empty: the fillets divided by the portions wanted.
    pub portion: String,
    /// Parts kept for another dish.
    #[serde(deserialize_with = "part::read", serialize_with = "part::write")]
    pub kept: Vec<Kept>,
    /// Its time in and out of the fridge, from the first weighing on.
    pub chill: Option<Chill>,
    /// The lines of the mise en place that are done.
    pub ticked: BTreeSet<String>,
    /// Whether the cook chose to start with lines open.
    pub insisted: bool,
    /// The fillet as it goes into the pan, once something was said of it: see [`Fish::heat`].
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub(super) heat: Option<Folded<HeatCard>>,
    /// How the service is to run, once something was said of it: see [`Fish::serving`].
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub(super) serving: Option<Folded<Serving>>,
    /// The cook's own dish for this fish: as changed for it, or as its card says ([`Serving::card`]) until the service
    /// begins.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub own_dish: Option<Folded<Dish>>,
    /// The dish as laid out for the service that runs; nothing when it is as this build carries it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub laid: Option<Folded<Dish>>,
    /// The service, once begun.
    pub run: Option<Run>,
    /// Which of the student's tests of this species it is, as it was said in an earlier build or in a table: what its
    /// [`super::credit::Credit`] begins with.
    #[serde(default)]
    pub test: Option<u8>,
    /// The answers of the plate check. These four are its journal: see [`Fish::journal`].
    #[serde(default)]
    pub plate: BTreeMap<String, bool>,
    /// What the cook will do differently.
    #[serde(default)]
    pub note: String,
    /// What went well.
    #[serde(default)]
    pub went_well: String,
    /// How it tasted.
    #[serde(default)]
    pub taste: String,
    /// When the cook called it finished.
    pub finished: Option<Instant>,
}

fn unweighed() -> ScaleReading {
    ScaleReading::empty(Unit::default())
}

fn is_unweighed(reading: &ScaleReading) -> bool {
    reading.typed.is_empty()
}

impl Entry for Fish {
    type Action = Action;
    const KIND: &'static str = "fish";
    const NOUN: &'static str = "fish";
    const COOKS: bool = true;

    fn begun(&self) -> Instant {
        self.begun
    }

    fn is_demo(&self) -> bool {
        self.demo
    }

    fn is_cooking(&self) -> bool {
        Fish::is_cooking(self)
    }

    fn apply(&self, action: &Action, now: Instant) -> Result<Self, Refusal> {
        Fish::apply(self, action, now)
    }
}

impl Fish {
    /// A new fish that starts from what the cook used last.
    #[must_use]
    pub fn new(id: String, now: Instant, settings: &Settings) -> Self {
        let reading = ScaleReading::empty(settings.scale.keyed_in(settings.unit));
        Self {
            id,
            begun: now,
            demo: false,
            alone: None,
            dish: OWN_DISH.to_owned(),
            slip: Slip {
                flat: false,
                species: None,
                form: None,
                price: String::new(),
                per: settings.per,
                currency: settings.currency,
                scale: settings.scale,
                zero: settings.zero,
                portions: "2".to_owned(),
                missing: settings.missing.clone(),
                count: super::slip::one(),
            },
            whole: reading.clone(),
            off_bone: reading.clone(),
            ready: reading,
            frame: unweighed(),
            one_fillet: false,
            raw: None,
            cut: 0,
            filleted: FilletAnswers::default(),
            portion: String::new(),
            kept: Vec::new(),
            chill: None,
            ticked: BTreeSet::new(),
            insisted: false,
            heat: None,
            serving: None,
            own_dish: None,
            laid: None,
            run: None,
            test: None,
            plate: BTreeMap::new(),
            note: String::new(),
            went_well: String::new(),
            taste: String::new(),
            finished: None,
        }
    }

    /// Whether it is the service of a dish alone: nothing was bought and weighed for it. It is kept as a fish is, so
    /// that its timers ring, it is backed up, removed and put back by the same rules.
    #[must_use]
    pub fn is_alone(&self) -> bool {
        self.alone.is_some()
    }

    /// The name it goes by in a list.
    #[must_use]
    pub fn name(&self) -> String {
        if let Some(name) = &self.alone {
            return name.clone();
        }
        self.slip
            .species
            .as_ref()
            .map(Species::name)
            .filter(|name| !name.is_empty())
            .unwrap_or_else(|| "A fish".to_owned())
    }

    /// What the cook says of it. Its parts stand among the fields of the fish, where the first builds put them.
    #[must_use]
    pub fn journal(&self) -> Journal {
        Journal {
            plate: self.plate.clone(),
            note: self.note.clone(),
            went_well: self.went_well.clone(),
            taste: self.taste.clone(),
        }
    }

    pub(super) fn set_journal(&mut self, journal: Journal) {
        let Journal {
            plate,
            note,
            went_well,
            taste,
        } = journal;
        (self.plate, self.note) = (plate, note);
        (self.went_well, self.taste) = (went_well, taste);
    }

    /// One of the weighings.
    #[must_use]
    pub fn reading(&self, which: Which) -> &ScaleReading {
        match which {
            Which::Whole => &self.whole,
            Which::OffBone => &self.off_bone,
            Which::Ready => &self.ready,
            Which::Frame => &self.frame,
        }
    }

    pub(super) fn reading_mut(&mut self, which: Which) -> &mut ScaleReading {
        match which {
            Which::Whole => &mut self.whole,
            Which::OffBone => &mut self.off_bone,
            Which::Ready => &mut self.ready,
            Which::Frame => &mut self.frame,
        }
    }

    /// The three weights, once the first and the last are taken.
    ///
    /// # Errors
    /// The sentence for weights that no longer fit one another.
    #[must_use]
    pub fn breakdown(&self) -> Option<Result<Breakdown, Refusal>> {
        let weights = Weights {
            delivered: self.taken_mass(Which::Whole)?,
            off_bone: self.taken_mass(Which::OffBone),
            ready: self.taken_mass(Which::Ready)?,
        };
        Some(Breakdown::of(weights))
    }

    /// Yield and cost, once the weights and the price are there.
    ///
    /// # Errors
    /// The sentence for weights, a price or a kept part that can't be read.
    #[must_use]
    pub fn yield_test(&self) -> Option<Result<YieldTest, Refusal>> {
        let breakdown = self.breakdown()?;
        Some(breakdown.and_then(|breakdown| {
            let price = self.slip.read_price()?;
            let trimmings = self
                .kept
                .iter()
                .map(|kept| self.read_kept(kept, &price))
                .collect::<Result<Vec<_>, _>>()?;
            YieldTest::of(breakdown, price, &trimmings)
        }))
    }

    /// A kept part as it reads: as typed, for it may come off any scale.
    ///
    /// # Errors
    /// The sentence for a weight or a price that can't be read.
    pub fn read_kept(&self, kept: &Kept, price: &MassPrice) -> Result<Trimming, Refusal> {
        Ok(Trimming {
            name: kept.name.trim().to_owned(),
            mass: crate::trade::mass::parse(&kept.weight, self.ready.unit)?,
            price: MassPrice::new(
                money::parse_amount(&kept.price)?,
                price.currency(),
                price.per(),
            )?,
        })
    }

    /// The weight of one portion: as typed, or the fillets divided by the portions wanted.
    ///
    /// # Errors
    /// The sentence for a portion weight that can't be read.
    pub fn portion_mass(&self) -> Result<Option<Mass>, Refusal> {
        if self.portion.trim().is_empty() {
            return Ok(None);
        }
        crate::trade::mass::parse(&self.portion, self.ready.unit).map(Some)
    }
}
