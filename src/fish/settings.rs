//! What the cook prefers, and what a new fish starts from.

use std::collections::BTreeSet;

use serde::{Deserialize, Serialize};

use crate::base::folded::Folded;
use crate::base::instant::Instant;
use crate::base::kit::Kit;
use crate::base::refusal::Refusal;
use crate::base::text::short;
use crate::service::dish::kitchen_room::KitchenRoom;
use crate::store::entry::Entry;
use crate::trade::mass::{Mass, Scale, Unit};
use crate::trade::money::{Currency, PriceUnit};
use crate::trade::plate::allergens::AllergenList;

/// The preferences are one record, under this name.
pub const MINE: &str = "mine";

/// The preferences of this phone.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(default)]
pub struct Settings {
    /// The unit a weight is keyed in.
    pub unit: Unit,
    /// What a price is for.
    pub per: PriceUnit,
    /// What is paid in.
    pub currency: Currency,
    /// The scale on the bench.
    pub scale: Scale,
    /// What it shows with nothing on it: see [`super::slip::Slip::zero`].
    pub zero: Mass,
    /// Whether a timer's end is heard.
    pub sound: bool,
    /// Whether a timer's end is felt.
    pub buzz: bool,
    /// Whether the steps are read aloud.
    pub aloud: bool,
    /// Up to four letters that go into result codes; empty for none.
    pub nickname: String,
    /// The portion by which fish are compared, in grams, as typed.
    pub portion: String,
    /// The kit that the bench lacked last.
    pub missing: BTreeSet<Kit>,
    /// When the last backup was saved or shared.
    pub backed_up: Option<Instant>,
    /// Whose list of allergens is gone by.
    pub allergens: AllergenList,
    /// What the kitchen has room for, once something was counted: only a plan asks.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub room: Option<Folded<KitchenRoom>>,
}

/// What a cook says they prefer, as a plain value.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Preference {
    /// The unit of a weight.
    Unit(Unit),
    /// What a price is for.
    Per(PriceUnit),
    /// What is paid in.
    Currency(Currency),
    /// The scale on the bench; of another one nobody has said yet what it shows empty.
    Scale(Scale),
    /// What it shows with nothing on it.
    Zero(Mass),
    /// Whether a timer's end is heard.
    Sound(bool),
    /// Whether a timer's end is felt.
    Buzz(bool),
    /// Whether the steps are read aloud.
    Aloud(bool),
    /// The letters that go into result codes.
    Nickname(String),
    /// The portion by which fish are compared.
    Portion(String),
    /// A piece of kit is missing, or is there after all.
    Missing(Kit, bool),
    /// A backup was saved or shared.
    BackedUp,
    /// Whose list of allergens is gone by.
    Allergens(AllergenList),
    /// What the kitchen has room for.
    Room(Folded<KitchenRoom>),
}

impl Entry for Settings {
    type Action = Preference;
    const KIND: &'static str = "settings";
    const NOUN: &'static str = "setting";

    fn begun(&self) -> Instant {
        Instant::default()
    }

    fn apply(&self, preference: &Preference, now: Instant) -> Result<Self, Refusal> {
        let mut next = self.clone();
        match preference {
            Preference::Unit(unit) => next.unit = *unit,
            Preference::Per(per) => next.per = *per,
            Preference::Currency(currency) => next.currency = *currency,
            Preference::Scale(scale) => (next.scale, next.zero) = (*scale, Mass::ZERO),
            Preference::Zero(zero) => next.zero = *zero,
            Preference::Sound(on) => next.sound = *on,
            Preference::Buzz(on) => next.buzz = *on,
            Preference::Aloud(on) => next.aloud = *on,
            Preference::Nickname(letters) => next.nickname = short(letters)?,
            Preference::Portion(text) => next.portion = short(text)?,
            Preference::Missing(kit, true) => {
                next.missing.insert(*kit);
            }
            Preference::Missing(kit, false) => {
                next.missing.remove(kit);
            }
            Preference::BackedUp => next.backed_up = Some(now),
            Preference::Allergens(list) => next.allergens = *list,
            Preference::Room(room) => next.room = Some(room.clone()),
        }
        Ok(next)
    }
}

impl Default for Settings {
    fn default() -> Self {
        Self {
            unit: Unit::Gram,
            per: PriceUnit::Kilo,
            currency: Currency::Eur,
            scale: Scale::default(),
            zero: Mass::ZERO,
            sound: true,
            buzz: true,
            aloud: false,
            nickname: String::new(),
            portion: "150".to_owned(),
            missing: BTreeSet::new(),
            backed_up: None,
            allergens: AllergenList::default(),
            room: None,
        }
    }
}
