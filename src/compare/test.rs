//! One finished yield test of the cook's own, read from the record of its fish.

use std::collections::BTreeSet;

use rust_decimal::Decimal;
use rust_decimal::prelude::ToPrimitive;

use crate::base::filleted::FilletAnswers;
use crate::base::instant::Instant;
use crate::base::kit::Kit;
use crate::code::day::Day;
use crate::fish::bought::SpeciesForm;
use crate::fish::record::Fish;
use crate::fish::slip::Species;
use crate::trade::breakdown::{Breakdown, DeliveryForm};
use crate::trade::mass::{Scale, Unit};
use crate::trade::money::{MassPrice, Money};

/// A yield test whose weights fit one another, of a fish that is named and whose form is known.
#[derive(Clone, Debug, PartialEq)]
pub struct Test {
    /// The identity of the fish.
    pub id: String,
    /// When it was begun.
    pub begun: Instant,
    /// The day at the bench; `None` where the phone's clock was far off.
    pub day: Option<Day>,
    /// Whether it is of the demonstration.
    pub demo: bool,
    /// Which fish.
    pub species: Species,
    /// How it was delivered.
    pub form: DeliveryForm,
    /// How many fish were weighed together, 1 to 200.
    pub count: u32,
    /// The weights, of all of them together.
    pub breakdown: Breakdown,
    /// The unit the ready weight was keyed in.
    pub unit: Unit,
    /// The scale they were read from.
    pub scale: Scale,
    /// The kit the bench lacked.
    pub missing: BTreeSet<Kit>,
    /// What was told of how the fillets were made.
    pub filleted: FilletAnswers,
    /// What was paid, where that can be read.
    pub price: Option<MassPrice>,
    /// What a usable kilo cost, kept parts taken off.
    pub cost_per_kilo: Option<Money>,
}

impl Test {
    /// The test a fish makes, where the bench's clock is `offset_minutes` ahead of UTC; `None` until it is
    /// weighed through, or while its weights do not fit one another.
    #[must_use]
    pub fn of(fish: &Fish, offset_minutes: i32) -> Option<Self> {
        let species = fish.slip.species.clone()?;
        if species.name().is_empty() {
            return None;
        }
        // One fillet of two says nothing of what such fish give.
        if fish.one_fillet {
            return None;
        }
        let cost = fish.yield_test().and_then(Result::ok);
        Some(Self {
            id: fish.id.clone(),
            begun: fish.begun,
            day: Day::at(fish.begun, offset_minutes),
            demo: fish.demo,
            species,
            form: fish.slip.form?,
            count: fish.slip.read_count().ok()?,
            breakdown: fish.breakdown()?.ok()?,
            unit: fish.ready.unit,
            scale: fish.slip.scale,
            missing: fish.slip.missing.clone(),
            filleted: fish.filleted_told(),
            price: fish.slip.read_price().ok(),
            cost_per_kilo: cost.map(|test| test.cost_per_kilo()),
        })
    }

    /// Its species and form.
    #[must_use]
    pub fn bought(&self) -> SpeciesForm {
        SpeciesForm {
            species: self.species.clone(),
            form: self.form,
        }
    }

    /// The yield as a share.
    #[must_use]
    pub fn yield_ratio(&self) -> Decimal {
        self.breakdown.yield_ratio()
    }

    /// The yield for drawing.
    #[must_use]
    pub fn yield_drawn(&self) -> f64 {
        self.yield_ratio().to_f64().unwrap_or_default()
    }
}
