//! What a board can show of each result: the names of the measures and how their values are written.

use rust_decimal::Decimal;
use rust_decimal::prelude::FromPrimitive;

use crate::class::group::Measure;
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
