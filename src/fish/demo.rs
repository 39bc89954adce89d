//! The demonstration: one invented fish, weighed and ready to be prepared.

use std::collections::BTreeSet;

use super::settings::Settings;
use super::slip::Species;
use super::weighing::ScaleReading;
use crate::base::instant::Instant;
use crate::base::kit::Kit;
use crate::fish::record::{Fish, OWN_DISH};
use crate::trade::breakdown::DeliveryForm;
use crate::trade::mass::{Mass, Scale, Unit};
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
    (fish.slip.scale, fish.slip.zero) = (Scale::TWO_GRAMS, Mass::ZERO);
    fish.slip.portions = "2".to_owned();
    fish.slip.missing = BTreeSet::from([Kit::NonStickPan, Kit::FlexibleKnife, Kit::Probe]);
    fish.whole = keyed("648");
    fish.off_bone = keyed("336");
    fish.ready = keyed("302");
    fish
}

/// The bream, a rainbow trout and an Atlantic mackerel by the same apprentice, weighed through, so that they
/// can be compared. Every figure is invented.
pub const TESTED: [fn(String, Instant, &Settings) -> Fish; 3] = [bream_tested, trout, mackerel];

fn bream_tested(id: String, now: Instant, settings: &Settings) -> Fish {
    let mut fish = bream(id, now, settings);
    fish.off_bone.taken = true;
    weighed_through(fish, ["648", "302"])
}

fn trout(id: String, now: Instant, settings: &Settings) -> Fish {
    let fish = other(bream(id, now, settings), "rainbow_trout", "11.90");
    weighed_through(fish, ["354", "214"])
}

fn mackerel(id: String, now: Instant, settings: &Settings) -> Fish {
    let mut fish = other(bream(id, now, settings), "mackerel", "8.60");
    fish.slip.form = Some(DeliveryForm::Whole);
    weighed_through(fish, ["412", "196"])
}

/// Another fish of that kitchen, gutted, not weighed off the bone.
fn other(mut fish: Fish, species: &str, price: &str) -> Fish {
    OWN_DISH.clone_into(&mut fish.dish);
    fish.slip.species = Some(Species::Listed(species.to_owned()));
    fish.slip.form = Some(DeliveryForm::Gutted);
    price.clone_into(&mut fish.slip.price);
    fish.off_bone = ScaleReading::empty(Unit::Gram);
    fish
}

/// Delivered and ready, in grams.
fn weighed_through(mut fish: Fish, [whole, ready]: [&str; 2]) -> Fish {
    for (reading, grams) in [(&mut fish.whole, whole), (&mut fish.ready, ready)] {
        *reading = keyed(grams);
        reading.taken = true;
    }
    fish.raw = Some(true);
    fish.cut = fish.cuts();
    fish.finished = Some(fish.begun);
    fish
}

/// The figures stand on the scale already; the cook takes each as in a fish of one's own.
fn keyed(grams: &str) -> ScaleReading {
    ScaleReading {
        typed: grams.to_owned(),
        unit: Unit::Gram,
        taken: false,
    }
}
