//! What makes a tutor look twice at a result, each with its reason in a sentence.

use std::collections::HashMap;

use rust_decimal::prelude::ToPrimitive;

use super::group::{ClassSplit, Measure, groups};
use super::result::{ClassResult, Figures};
use super::roll::RollRow;
use super::spread::Spread;
use crate::trade::breakdown::{Breakdown, Weights};
use crate::trade::mass::{Mass, Unit, show};
use crate::trade::money::Currency;
use crate::trade::plausible::{YieldVerdict, plausible};
use crate::trade::rounding::percent;

/// Results of one species and form below which a class says nothing about one of them.
pub const FEWEST: usize = 5;

/// Robust deviations from the median past which a value is an outlier: Iglewicz and Hoaglin, *How to Detect
/// and Handle Outliers*, 1993, as quoted in software documentation.
pub const OUTLYING: f64 = 3.5;

/// What most fish keep when cooked by dry heat, 76.8 to 84.0 % (protein raw over protein cooked, USDA National
/// Nutrient Database, Standard Reference release 28), widened by about three points each way.
const COOKED_KEEPS: std::ops::RangeInclusive<f64> = 0.73..=0.87;

/// A reason to look twice.
#[derive(Clone, Debug, PartialEq)]
pub enum Flag {
    /// Two weights look changed over: the other way round they make the yield given, a share.
    Swapped {
        /// The yield the other way round, as shown.
        yield_then: String,
    },
    /// The weights can't belong to one fish; why, in a sentence.
    Impossible(String),
    /// The fillets look weighed after cooking.
    CookedLikely {
        /// What was kept beside what the class keeps, as shown.
        kept: String,
    },
    /// The price is off the class's by tens, as when a decimal mark slips.
    PriceOff(PriceSlip),
    /// A weight stands between two steps of the scale.
    FinerThanScale {
        /// The weight, as shown.
        weight: String,
        /// The scale's division, as shown.
        division: String,
    },
    /// A yield so far from anything published that a slip is likely.
    Implausible(YieldVerdict),
    /// The yield lies far from the rest of the class.
    Outlier {
        /// Robust deviations from the median, below it negative.
        distance: f64,
    },
}

/// How far a price is off.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PriceSlip {
    /// About a hundredth of the class's.
    Hundredth,
    /// About a tenth.
    Tenth,
    /// About ten times.
    Ten,
    /// About a hundred times.
    Hundred,
}

impl PriceSlip {
    fn words(self) -> &'static str {
        match self {
            Self::Hundredth => "a hundredth of",
            Self::Tenth => "a tenth of",
            Self::Ten => "ten times",
            Self::Hundred => "a hundred times",
        }
    }
}

impl Flag {
    /// The reason, as a sentence for the student.
    #[must_use]
    pub fn sentence(&self) -> String {
        match self {
            Self::Swapped { yield_then } => format!(
                "Two weights look changed over: the other way round they make a yield of {yield_then}."
            ),
            Self::Impossible(why) => why.clone(),
            Self::CookedLikely { kept } => format!(
                "The fillets look weighed after cooking: they kept {kept} of what the class keeps, and a pan takes about a fifth. Weigh them raw."
            ),
            Self::PriceOff(slip) => format!(
                "The price is about {} what the class paid: check the decimal mark.",
                slip.words()
            ),
            Self::FinerThanScale { weight, division } => format!(
                "A scale with a division of {division} can't show {weight}: check the weight, or the scale chosen."
            ),
            Self::Implausible(verdict) => verdict.sentence().to_owned(),
            Self::Outlier { distance } => {
                let side = if *distance < 0.0 { "below" } else { "above" };
                format!(
                    "The yield lies far {side} the rest of the class: weigh and work it through again."
                )
            }
        }
    }
}

/// The flags of every row, in the rows' order, the gravest first.
#[must_use]
pub fn flags(rows: &[RollRow]) -> Vec<Vec<Flag>> {
    let standards: HashMap<String, Standard> = groups(rows, ClassSplit::SpeciesAndForm)
        .into_iter()
        .map(|group| {
            let standard = Standard::of(&group.results);
            (group.label, standard)
        })
        .collect();
    rows.iter()
        .map(|row| {
            let label = ClassSplit::SpeciesAndForm.label(&row.result);
            flags_of(&row.result, standards.get(&label))
        })
        .collect()
}

/// What a group of one species and form has in common, where it is large enough to say.
#[derive(Clone, Debug)]
struct Standard {
    yields: Option<Spread>,
    kept: Option<Spread>,
    prices: Vec<(Currency, Spread)>,
}

impl Standard {
    fn of(results: &[&ClassResult]) -> Self {
        let enough = |measure: Measure| {
            measure
                .spread(results.iter().copied())
                .filter(|spread| spread.count >= FEWEST)
        };
        Self {
            yields: enough(Measure::Yield),
            kept: enough(Measure::KeptInTrimming),
            prices: Currency::ALL
                .into_iter()
                .filter_map(|currency| Some((currency, enough(Measure::Price(currency))?)))
                .collect(),
        }
    }
}

fn flags_of(result: &ClassResult, standard: Option<&Standard>) -> Vec<Flag> {
    let mut flags = Vec::new();
    match &result.figures {
        Err(why) => {
            flags.push(swapped(result).unwrap_or_else(|| Flag::Impossible(why.to_string())))
        }
        Ok(figures) => {
            let cooked = standard.and_then(|standard| cooked_likely(result, figures, standard));
            let outlier = standard.and_then(|standard| outlier(figures, standard));
            let slip = matches!(
                figures.verdict,
                YieldVerdict::FarTooLow | YieldVerdict::FarTooHigh
            );
            // A cooked weight explains the other two.
            match cooked {
                Some(cooked) => flags.push(cooked),
                None => {
                    flags.extend(slip.then_some(Flag::Implausible(figures.verdict)));
                    flags.extend(outlier);
                }
            }
        }
    }
    flags.extend(standard.and_then(|standard| price_off(result, standard)));
    flags.extend(finer_than_scale(result));
    flags
}

/// Weights that can't be, but could with two of them changed over.
fn swapped(result: &ClassResult) -> Option<Flag> {
    let Weights {
        delivered,
        off_bone,
        ready,
    } = result.sheet.weights;
    let ends = Weights {
        delivered: ready,
        off_bone,
        ready: delivered,
    };
    let fillets = off_bone.map(|off_bone| Weights {
        delivered,
        off_bone: Some(ready),
        ready: off_bone,
    });
    let first = off_bone.map(|off_bone| Weights {
        delivered: off_bone,
        off_bone: Some(delivered),
        ready,
    });
    [Some(ends), fillets, first]
        .into_iter()
        .flatten()
        .filter_map(|weights| Breakdown::of(weights).ok())
        .map(|breakdown| breakdown.yield_ratio())
        .find(|ratio| {
            let verdict = plausible(
                result.sheet.fish.key().unwrap_or_default(),
                result.sheet.form,
                *ratio,
            );
            !matches!(verdict, YieldVerdict::FarTooLow | YieldVerdict::FarTooHigh)
        })
        .map(|ratio| Flag::Swapped {
            yield_then: percent(ratio, 1),
        })
}

/// An outlier below, in the fillets' own loss or else in the yield, of the size that cooking takes.
fn cooked_likely(result: &ClassResult, figures: &Figures, standard: &Standard) -> Option<Flag> {
    let doubt = figures.reading.standard;
    let measured = [
        (Measure::KeptInTrimming, standard.kept),
        (Measure::Yield, standard.yields),
    ];
    // The fillets' own loss says more than the yield, which a poor cut lowers just as well.
    let (value, spread) = measured
        .into_iter()
        .find_map(|(measure, spread)| Some((measure.of(result)?, spread?)))?;
    let kept = value / spread.median;
    let low = spread.distance(value, doubt)? < -OUTLYING;
    (low && COOKED_KEEPS.contains(&kept)).then(|| Flag::CookedLikely {
        kept: format!("{:.0} %", kept * 100.0),
    })
}

fn outlier(figures: &Figures, standard: &Standard) -> Option<Flag> {
    let distance = standard
        .yields?
        .distance(figures.yield_ratio.to_f64()?, figures.reading.standard)?;
    (distance.abs() > OUTLYING).then_some(Flag::Outlier { distance })
}

/// A price within half as much again of ten or a hundred times the class median, or of a tenth or hundredth.
fn price_off(result: &ClassResult, standard: &Standard) -> Option<Flag> {
    let currency = result.sheet.price?.currency();
    let (_, spread) = standard
        .prices
        .iter()
        .find(|(known, _)| *known == currency)?;
    let ratio = Measure::Price(currency).of(result)? / spread.median;
    [
        (PriceSlip::Hundredth, 0.01),
        (PriceSlip::Tenth, 0.1),
        (PriceSlip::Ten, 10.0),
        (PriceSlip::Hundred, 100.0),
    ]
    .into_iter()
    .find(|(_, size)| (1.0 / 1.5..=1.5).contains(&(ratio / size)))
    .map(|(slip, _)| Flag::PriceOff(slip))
}

fn finer_than_scale(result: &ClassResult) -> Option<Flag> {
    let Weights {
        delivered,
        off_bone,
        ready,
    } = result.sheet.weights;
    let scale = result.sheet.scale;
    let between: Mass = [Some(delivered), off_bone, Some(ready)]
        .into_iter()
        .flatten()
        .find(|mass| !scale.on_a_step(*mass))?;
    Some(Flag::FinerThanScale {
        weight: show(between, Unit::Gram),
        division: scale.name(),
    })
}

#[cfg(test)]
mod tests;
