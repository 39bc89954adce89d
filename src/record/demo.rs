//! The demonstration: one invented fish, weighed and ready to be prepared.

use std::collections::BTreeSet;

use super::fish::Fish;
use super::settings::Settings;
use super::slip::Species;
use super::weighing::Reading;
use crate::instant::Instant;
use crate::service::kit::Kit;
use crate::trade::breakdown::DeliveryForm;
use crate::trade::mass::{Scale, Unit};
use crate::trade::money::{Currency, PriceUnit};

/// A gilthead bream of a training kitchen that does not exist, cooked for two. Every figure is invented.
#[must_use]
pub fn bream(id: String, now: Instant, settings: &Settings) -> Fish {
    let mut fish = Fish::new(id, now, settings);
    fish.demo = true;
    fish.dish = "bream".to_owned();
    fish.slip.species = Some(Species::Listed("gilthead_bream".to_owned()));
    fish.slip.form = Some(DeliveryForm::GuttedScaled);
    fish.slip.price = "15.40".to_owned();
    fish.slip.per = PriceUnit::Kilo;
    fish.slip.currency = Currency::Eur;
    fish.slip.scale = Scale::TWO_GRAMS;
    fish.slip.portions = "2".to_owned();
    fish.slip.missing = BTreeSet::from([Kit::NonStickPan, Kit::FlexibleKnife, Kit::Probe]);
    fish.whole = keyed("648");
    fish.off_bone = keyed("336");
    fish.ready = keyed("302");
    fish
}

/// The figures stand on the scale already; the cook takes each as in a fish of one's own.
fn keyed(grams: &str) -> Reading {
    Reading {
        typed: grams.to_owned(),
        unit: Unit::Gram,
        taken: false,
    }
}
