//! What the cook prefers, and what a new fish starts from.

use serde::{Deserialize, Serialize};

use crate::base::instant::Instant;
use crate::trade::mass::{Scale, Unit};
use crate::trade::money::{Currency, PriceUnit};

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
    /// Whether a timer's end is heard.
    pub sound: bool,
    /// Whether a timer's end is felt.
    pub buzz: bool,
    /// Up to four letters that go into result codes; empty for none.
    pub nickname: String,
    /// The portion by which fish are compared, in grams, as typed.
    pub portion: String,
    /// When the last backup was saved or shared.
    pub backed_up: Option<Instant>,
}

impl Default for Settings {
    fn default() -> Self {
        Self {
            unit: Unit::Gram,
            per: PriceUnit::Kilo,
            currency: Currency::Eur,
            scale: Scale::default(),
            sound: true,
            buzz: true,
            nickname: String::new(),
            portion: "150".to_owned(),
            backed_up: None,
        }
    }
}
