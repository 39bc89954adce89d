//! What a board can show of each result: the names of the measures and how their values are written.

use rust_decimal::Decimal;
use rust_decimal::prelude::FromPrimitive;

use crate::base::kit::Kit;
use crate::class::group::{ClassSplit, Measure};
use crate::trade::money::{Currency, Money};

/// The measures of a class that was paid for in these currencies.
#[must_use]
pub fn measures(currencies: &[Currency]) -> Vec<Measure> {
    let costs = currencies.iter().flat_map(|currency| {
        [
            Measure::CostPerPortion(*currency),
            Measure::CostPerKilo(*currency),
        ]
    });
    [Measure::Yield, Measure::OffTheBone, Measure::KeptInTrimming]
        .into_iter()
        .chain(costs)
        .collect()
}

/// The name of a measure.
#[must_use]
pub fn name(measure: Measure) -> String {
    match measure {
        Measure::Yield => "Yield".to_owned(),
        Measure::OffTheBone => "Lost up to the bone".to_owned(),
        Measure::KeptInTrimming => "Kept in trimming".to_owned(),
        Measure::CostPerPortion(currency) => format!("Cost a portion, {}", currency.code()),
        Measure::CostPerKilo(currency) => format!("Cost a usable kilo, {}", currency.code()),
        Measure::Price(currency) => format!("Price a kilo, {}", currency.code()),
    }
}

/// A value of a measure as it is read.
#[must_use]
pub fn written(measure: Measure, value: f64) -> String {
    match measure {
        Measure::Yield | Measure::OffTheBone | Measure::KeptInTrimming => {
            format!("{:.1} %", value * 100.0)
        }
        Measure::CostPerPortion(currency)
        | Measure::CostPerKilo(currency)
        | Measure::Price(currency) => Money {
            amount: Decimal::from_f64(value).unwrap_or_default(),
            currency,
        }
        .show(),
    }
}

/// What a class can be parted by, with its name.
#[must_use]
pub fn partings() -> Vec<(ClassSplit, String)> {
    [
        (
            ClassSplit::SpeciesAndForm,
            "fish and delivery form".to_owned(),
        ),
        (ClassSplit::Species, "fish".to_owned()),
        (ClassSplit::Form, "delivery form".to_owned()),
    ]
    .into_iter()
    .chain(Kit::ALL.map(|kit| {
        (
            ClassSplit::Kit(kit),
            format!("with and without {}", kit.name()),
        )
    }))
    .chain([
        (
            ClassSplit::PinBones,
            "pin bones pulled or cut out".to_owned(),
        ),
        (ClassSplit::Skin, "skin on or off".to_owned()),
    ])
    .collect()
}
