//! What of a result looks like a slip, beside the fish of its kind in the class.
//!
//! Most slips change a figure by a size of their own: a decimal mark by ten, pounds for kilos by 2.2, one fillet for two
//! by half. Those are known by that size, which no honest fish comes near. Anything else is known by its distance alone.

use rust_decimal::prelude::ToPrimitive;

use super::flags::{Flag, Slipped};
use super::group::Measure;
use super::limits::{FEWEST, limit};
use super::result::{ClassResult, Figures};
use super::spread::Spread;
use crate::trade::breakdown::{Breakdown, Weights};
use crate::trade::mass::{Mass, Unit, show};
use crate::trade::money::Currency;
use crate::trade::plausible::{YieldVerdict, plausible};
use crate::trade::rounding::percent;

/// What most fish keep when cooked by dry heat, 76.8 to 84.0 % (protein raw over protein cooked, USDA National
/// Nutrient Database, Standard Reference release 28), widened by about three points each way.
const COOKED_KEEPS: std::ops::RangeInclusive<f64> = 0.73..=0.87;

/// What one fillet of two is of both: half, as far as a knife divides them.
const ONE_OF_TWO: std::ops::RangeInclusive<f64> = 0.44..=0.56;

/// Fillets that weigh more after trimming by at most so much may have taken up water: common practice, no source.
const MOST_WATER: f64 = 0.1;

/// Robust deviations from the median past which a value is an outlier: Iglewicz and Hoaglin, *How to Detect
/// and Handle Outliers*, 1993, as quoted in software documentation. Only beside what a slip's own size says.
const OUTLYING: f64 = 3.5;

/// The least spread of prices and weights that means anything, as a share: what is rounded when a label is written.
const LEAST_SPREAD: f64 = 0.01;

/// What the results of one species and form have in common, where there are enough to say.
#[derive(Clone, Debug)]
pub struct Standard {
    pub(super) yields: Option<Spread>,
    kept: Option<Spread>,
    sizes: Option<Spread>,
    portions: Option<Spread>,
    prices: Vec<(Currency, Spread)>,
}

/// What a fish weighed, as the logarithm of its kilos: slips multiply.
fn size(result: &ClassResult) -> Option<f64> {
    let kilos = result.sheet.weights.delivered.in_kilos().to_f64()?;
    Some((kilos / f64::from(result.sheet.count)).ln())
}

/// What a portion weighs, as the logarithm of its kilos.
fn portion(result: &ClassResult) -> Option<f64> {
    let kilos = result.sheet.weights.ready.in_kilos().to_f64()?;
    Some((kilos / f64::from(result.sheet.portions?)).ln())
}

fn price(result: &ClassResult, currency: Currency) -> Option<f64> {
    Measure::Price(currency).of(result).map(f64::ln)
}

impl Standard {
    /// What these have in common.
    #[must_use]
    pub fn of(results: &[&ClassResult]) -> Self {
        let enough = |value: &dyn Fn(&ClassResult) -> Option<f64>| {
            let values: Vec<f64> = results.iter().filter_map(|result| value(result)).collect();
            Spread::of(&values).filter(|spread| spread.count >= FEWEST)
        };
        let currencies = Currency::ALL.into_iter();
        Self {
            yields: enough(&|result| Measure::Yield.of(result)),
            kept: enough(&|result| Measure::KeptInTrimming.of(result)),
            sizes: enough(&size),
            portions: enough(&portion),
            prices: currencies
                .filter_map(|currency| Some((currency, enough(&|result| price(result, currency))?)))
                .collect(),
        }
    }

    /// Whether a result would lie among these, by its yield and its size.
    #[must_use]
    pub fn holds(&self, result: &ClassResult) -> bool {
        let within = |value: Option<f64>, spread: Option<Spread>| {
            let distance = value
                .zip(spread)
                .and_then(|(value, spread)| spread.distance(value, LEAST_SPREAD));
            distance.is_some_and(|distance| distance.abs() < OUTLYING)
        };
        within(Measure::Yield.of(result), self.yields) && within(size(result), self.sizes)
    }
}

/// What looks like a slip in one result, the gravest first.
#[must_use]
pub fn slips(result: &ClassResult, standard: Option<&Standard>) -> Vec<Flag> {
    let mut flags = Vec::new();
    match &result.figures {
        Err(why) => {
            let otherwise = swapped(result);
            let gained = gained(result, otherwise.as_deref());
            let swapped = otherwise.map(|yield_then| Flag::Swapped { yield_then });
            flags.push(
                gained
                    .or(swapped)
                    .unwrap_or_else(|| Flag::Impossible(why.to_string())),
            );
        }
        Ok(figures) => {
            let slip = matches!(
                figures.verdict,
                YieldVerdict::FarTooLow | YieldVerdict::FarTooHigh
            );
            let known = standard.and_then(|standard| {
                one_fillet(result, standard).or_else(|| cooked(result, figures, standard))
            });
            // Either explains the other two.
            match known {
                Some(known) => flags.push(known),
                None => {
                    flags.extend(slip.then_some(Flag::Implausible(figures.verdict)));
                    flags.extend(standard.and_then(|standard| outlier(figures, standard)));
                }
            }
        }
    }
    if let Some(standard) = standard {
        flags.extend(size_off(result, standard));
        flags.extend(price_off(result, standard));
        flags.extend(portions_off(result, standard));
    }
    flags.extend(finer_than_scale(result));
    flags
}

/// Fillets that gained a little between the bone and the pan: wet, or the two weights changed over.
fn gained(result: &ClassResult, yield_then: Option<&str>) -> Option<Flag> {
    let weights = result.sheet.weights;
    let off_bone = weights.off_bone?.in_kilos().to_f64()?;
    let gain = weights.ready.in_kilos().to_f64()? / off_bone - 1.0;
    (gain > 0.0 && gain <= MOST_WATER).then(|| Flag::Gained {
        by: format!("{:.1} %", gain * 100.0),
        yield_then: yield_then.map(str::to_owned),
    })
}

/// Weights that can't be, but could with two of them changed over: the yield then.
fn swapped(result: &ClassResult) -> Option<String> {
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
            let key = result.sheet.fish.key().unwrap_or_default();
            let verdict = plausible(key, result.sheet.form, *ratio);
            !matches!(verdict, YieldVerdict::FarTooLow | YieldVerdict::FarTooHigh)
        })
        .map(|ratio| percent(ratio, 1))
}

fn one_fillet(result: &ClassResult, standard: &Standard) -> Option<Flag> {
    let share = Measure::Yield.of(result)? / standard.yields?.median;
    ONE_OF_TWO.contains(&share).then(|| Flag::OneFillet {
        share: format!("{:.0} %", share * 100.0),
    })
}

/// A loss of the size that cooking takes: in the fillets' own weights where they were weighed off the bone, which say more
/// than the yield, for a poor cut lowers that just as well.
fn cooked(result: &ClassResult, figures: &Figures, standard: &Standard) -> Option<Flag> {
    let doubt = figures.reading.standard;
    let by_fillets = (Measure::KeptInTrimming.of(result))
        .zip(standard.kept)
        .map(|(value, spread)| (value, spread, OUTLYING));
    let by_yield = (Measure::Yield.of(result))
        .zip(standard.yields)
        .map(|(value, spread)| (value, spread, limit(spread.count)));
    let (value, spread, far) = by_fillets.or(by_yield)?;
    let kept = value / spread.median;
    let low = spread.distance(value, doubt)? < -far;
    (low && COOKED_KEEPS.contains(&kept)).then(|| Flag::CookedLikely {
        kept: format!("{:.0} %", kept * 100.0),
    })
}

fn outlier(figures: &Figures, standard: &Standard) -> Option<Flag> {
    let spread = standard.yields?;
    let distance = spread.distance(figures.yield_ratio.to_f64()?, figures.reading.standard)?;
    (distance.abs() > limit(spread.count)).then_some(Flag::Outlier { distance })
}

/// Which slip a logarithm beside the class looks like. Those less than tenfold count only where the class is close together,
/// and within a factor of `near`.
fn slipped(value: f64, spread: &Spread, near: f64) -> Option<Slipped> {
    let off = value - spread.median;
    let is_far = is_far(value, spread);
    Slipped::ALL
        .into_iter()
        .filter(|slip| is_far || slip.is_tenfold())
        .find(|slip| {
            let room = if slip.is_tenfold() { 1.5 } else { near };
            (off - slip.times().ln()).abs() < room.ln()
        })
}

fn is_far(value: f64, spread: &Spread) -> bool {
    let distance = spread.distance(value, LEAST_SPREAD);
    distance.is_some_and(|distance| distance.abs() > limit(spread.count))
}

fn size_off(result: &ClassResult, standard: &Standard) -> Option<Flag> {
    // Weights that can't be are asked about already.
    result.figures.as_ref().ok()?;
    let spread = standard.sizes?;
    let value = size(result)?;
    let slip = slipped(value, &spread, 1.2);
    // Twice as large as the others is a fish; the class may just have bought them from one box.
    let far = (value - spread.median).abs() > 2.0_f64.ln() && is_far(value, &spread);
    (slip.is_some() || far).then(|| Flag::SizeOff {
        times: times((value - spread.median).exp()),
        slip,
    })
}

fn price_off(result: &ClassResult, standard: &Standard) -> Option<Flag> {
    let currency = result.sheet.price?.currency();
    let prices = &standard.prices;
    let (_, spread) = prices.iter().find(|(known, _)| *known == currency)?;
    let slip = slipped(price(result, currency)?, spread, 1.1)?;
    // A label has no ounces for a kilo's price.
    (slip != Slipped::Ounces).then_some(Flag::PriceOff(slip))
}

/// Portions so large or small beside the class's that their number must be wrong, and the cost of each with it.
fn portions_off(result: &ClassResult, standard: &Standard) -> Option<Flag> {
    result.figures.as_ref().ok()?;
    let off = portion(result)? - standard.portions?.median;
    (off.abs() > 4.0_f64.ln()).then(|| Flag::PortionsOff {
        times: times(off.exp()),
    })
}

/// How many times as much, or which part.
fn times(ratio: f64) -> String {
    if ratio >= 1.0 {
        format!("{ratio:.1} times")
    } else {
        format!("1/{:.0} of", 1.0 / ratio)
    }
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
