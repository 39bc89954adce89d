//! One sentence or two that a tutor can send back to one student.

use rust_decimal::prelude::ToPrimitive;

use super::flags::Flag;
use super::group::Measure;
use super::limits::FEWEST;
use super::result::{ClassResult, ClassStanding};
use super::spread::Spread;
use super::why::StageLosses;
use crate::trade::plausible::YieldVerdict;
use crate::trade::rounding::percent;

/// What to send back: the yield, where it stands in the class and beside what is published, and the gravest
/// flag, or else what usually explains a low or high one. `class` holds the results of the same species and
/// form.
#[must_use]
pub fn feedback<'a>(
    result: &ClassResult,
    flags: &[Flag],
    class: impl IntoIterator<Item = &'a ClassResult>,
) -> String {
    let whose = match result.sheet.student {
        Some(_) => format!("{}, {}", result.student(), result.species().to_lowercase()),
        None => result.species().to_owned(),
    };
    let Ok(figures) = &result.figures else {
        let why = flags.first().map_or_else(String::new, Flag::sentence);
        return format!("{whose}: {why}");
    };
    let decimals = figures.reading.percent_decimals();
    let mut said = format!("{whose}: yield {}", percent(figures.yield_ratio, decimals));
    let class: Vec<&ClassResult> = class.into_iter().collect();
    let spread = Measure::Yield.spread(class.iter().copied());
    if let Some(place) = spread.and_then(|spread| place(figures.yield_ratio.to_f64()?, &spread)) {
        said.push_str(&format!(", {place}"));
    }
    if let Some(beside) = figures.published {
        let standing = match beside.standing {
            ClassStanding::Below => "below",
            ClassStanding::Within => "within",
            ClassStanding::Above => "above",
        };
        let (low, high) = (percent(beside.low, 1), percent(beside.high, 1));
        said.push_str(&format!(", {standing} the published {low} to {high}"));
    }
    said.push('.');
    if let Some(beside) = StageLosses::of(result, class).filter(|beside| beside.is_worth_a_word()) {
        said.push_str(&format!(" Beside the class, {}", beside.told(result)));
    }
    let more = match (flags.first(), figures.verdict) {
        (Some(flag), _) => Some(flag.sentence()),
        (None, YieldVerdict::Usual) => None,
        (None, verdict) => Some(verdict.sentence().to_owned()),
    };
    if let Some(more) = more {
        said.push_str(&format!(" {more}"));
    }
    said
}

/// Where a yield stands in a class large enough to say.
fn place(value: f64, spread: &Spread) -> Option<&'static str> {
    if spread.count < FEWEST {
        None
    } else if value < spread.lower_quartile {
        Some("in the lowest quarter of the class")
    } else if value > spread.upper_quartile {
        Some("in the highest quarter of the class")
    } else {
        Some("in the middle half of the class")
    }
}
