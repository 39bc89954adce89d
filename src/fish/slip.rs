//! The delivery slip of one fish: what was bought, as typed, and what it reads as.

use std::collections::BTreeSet;

use serde::{Deserialize, Serialize};

use super::refusals::NoSlip;
use crate::base::kit::Kit;
use crate::base::refusal::Refusal;
use crate::trade::breakdown::DeliveryForm;
use crate::trade::mass::{Mass, Scale};
use crate::trade::money::{self, Currency, MassPrice, PriceUnit};
use crate::trade::species;

/// The most fish weighed together: a box of small ones.
const MOST_TOGETHER: u32 = 200;

/// The most covers one fish is asked to give.
const MOST_PORTIONS: u32 = 200;

/// Which fish it is.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Species {
    /// One of the list with published yields, by its key there.
    Listed(String),
    /// Any other, by the name the cook typed.
    Other(String),
}

impl Species {
    /// The key into the published yields, where there is one.
    #[must_use]
    pub fn key(&self) -> Option<&str> {
        match self {
            Self::Listed(key) => Some(key),
            Self::Other(_) => None,
        }
    }

    /// The name on a screen.
    #[must_use]
    pub fn name(&self) -> String {
        match self {
            Self::Listed(key) => {
                species::species(key).map_or_else(|| key.clone(), |species| species.name.to_owned())
            }
            Self::Other(name) => name.trim().to_owned(),
        }
    }
}

/// The slip as the cook fills it in: texts stay as typed, so that a refused one can be mended.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Slip {
    /// Which fish, once chosen.
    pub species: Option<Species>,
    /// Whether a fish that the cook named lies flat; of a listed one the list says so.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub flat: bool,
    /// How it was delivered, once chosen.
    pub form: Option<DeliveryForm>,
    /// The price as typed.
    pub price: String,
    /// What the price is for.
    pub per: PriceUnit,
    /// What it was paid in.
    pub currency: Currency,
    /// The scale on the bench.
    pub scale: Scale,
    /// What it shows with nothing on it, below zero where it shows less; taken off every weight of this fish. A fish of an
    /// earlier build has none, so its sums stay.
    #[serde(default, skip_serializing_if = "is_nothing")]
    pub zero: Mass,
    /// The number of portions wanted, as typed.
    pub portions: String,
    /// The kit this bench lacks.
    pub missing: BTreeSet<Kit>,
    /// How many fish are weighed together, as typed: every weight is then that of the whole batch.
    #[serde(default = "one")]
    pub count: String,
}

// Serde hands out references.
#[allow(clippy::trivially_copy_pass_by_ref)]
fn is_nothing(zero: &Mass) -> bool {
    *zero == Mass::ZERO
}

/// A slip from before batches is of one fish.
pub(super) fn one() -> String {
    "1".to_owned()
}

/// A line of the slip that a refusal can stand beside.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SlipLine {
    /// Which fish.
    Species,
    /// How it was delivered.
    Form,
    /// How many fish are weighed together.
    Count,
    /// What it cost.
    Price,
    /// How many portions are wanted.
    Portions,
}

/// A slip that can be worked with.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ReadSlip {
    /// Which fish.
    pub species: Species,
    /// How it was delivered.
    pub form: DeliveryForm,
    /// How many fish are weighed together, 1 to 200.
    pub count: u32,
    /// What it cost.
    pub price: MassPrice,
    /// How many portions are wanted, 1 to 200.
    pub portions: u32,
}

impl Slip {
    /// Reads every line.
    ///
    /// # Errors
    /// Each line that can't be taken, with its sentence, in the order of the slip.
    pub fn read(&self) -> Result<ReadSlip, Vec<(SlipLine, Refusal)>> {
        let species = self.read_species();
        let form = self.form.ok_or(NoSlip::NoForm);
        let count = self.read_count();
        let price = self.read_price();
        let portions = read_portions(&self.portions);
        match (species, form, count, price, portions) {
            (Ok(species), Ok(form), Ok(count), Ok(price), Ok(portions)) => Ok(ReadSlip {
                species,
                form,
                count,
                price,
                portions,
            }),
            (species, form, count, price, portions) => Err([
                species.err().map(|fault| (SlipLine::Species, fault)),
                form.err().map(|fault| (SlipLine::Form, fault.into())),
                count.err().map(|fault| (SlipLine::Count, fault)),
                price.err().map(|fault| (SlipLine::Price, fault)),
                portions.err().map(|fault| (SlipLine::Portions, fault)),
            ]
            .into_iter()
            .flatten()
            .collect()),
        }
    }

    /// The price alone, for the figures that need no more.
    ///
    /// # Errors
    /// The sentence for a price that can't be read.
    pub fn read_price(&self) -> Result<MassPrice, Refusal> {
        MassPrice::new(money::parse_amount(&self.price)?, self.currency, self.per)
    }

    /// How many fish are weighed together, 1 to 200.
    ///
    /// # Errors
    /// The sentence for a number that can't be taken.
    pub fn read_count(&self) -> Result<u32, Refusal> {
        match self.count.trim().parse() {
            Ok(count @ 1..=MOST_TOGETHER) => Ok(count),
            Ok(0) => Err(NoSlip::NoneTogether.into()),
            Ok(_) => Err(NoSlip::ManyTogether.into()),
            Err(_) => Err(NoSlip::CountNotWhole.into()),
        }
    }

    fn read_species(&self) -> Result<Species, Refusal> {
        match &self.species {
            None => Err(NoSlip::NoSpecies.into()),
            Some(Species::Other(name)) if name.trim().is_empty() => Err(NoSlip::Unnamed.into()),
            Some(Species::Other(name)) if name.chars().count() > 60 => Err(NoSlip::LongName.into()),
            Some(species) => Ok(species.clone()),
        }
    }
}

pub(super) fn read_portions(text: &str) -> Result<u32, Refusal> {
    let text = text.trim();
    if text.is_empty() {
        return Err(NoSlip::NoPortions.into());
    }
    let portions: u32 = text.parse().map_err(|_| NoSlip::PortionsNotWhole)?;
    match portions {
        0 => Err(NoSlip::ZeroPortions.into()),
        1..=MOST_PORTIONS => Ok(portions),
        _ => Err(NoSlip::ManyPortions.into()),
    }
}

#[cfg(test)]
mod tests {
    use super::read_portions;

    #[test]
    fn portions_are_whole_and_sensible() {
        for (text, expect) in [
            ("2", Some(2)),
            (" 12 ", Some(12)),
            ("200", Some(200)),
            ("201", None),
            ("0", None),
            ("", None),
            ("-1", None),
            ("1.5", None),
            ("two", None),
            ("99999999999999999999", None),
        ] {
            assert_eq!(read_portions(text).ok(), expect, "{text:?}");
        }
    }
}
