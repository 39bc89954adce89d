//! A dot for each student, in the order of the table beside it.

use std::fmt::Write;

use leptos::prelude::*;
use rust_decimal::prelude::ToPrimitive;

use super::measure;
use crate::class::board::Board;
use crate::class::group::Measure;
use crate::class::spread::Spread;

/// The picture's units: the whole, where the dots begin and end, and one line.
const WIDTH: f64 = 360.0;
const FROM: f64 = 76.0;
const TO: f64 = 348.0;
const LINE: f64 = 18.0;
/// Room above the first line and below the last.
const HEAD: f64 = 6.0;
const FOOT: f64 = 22.0;

/// The values from one end of the picture to the other.
#[derive(Clone, Copy)]
struct Axis {
    least: f64,
    most: f64,
}

impl Axis {
    /// As wide as the class, but not as its strays: they stand at the edge.
    fn of(spread: &Spread) -> Self {
        let reach = 3.0 * (spread.upper_quartile - spread.lower_quartile);
        let least = spread.least.max(spread.lower_quartile - reach);
        let most = spread.most.min(spread.upper_quartile + reach);
        let margin = ((most - least) * 0.06).max(spread.median.abs() * 0.01);
        Self {
            least: least - margin,
            most: most + margin,
        }
    }

    /// Which way the picture lies from a value past its edge, as the width of an arrow; 0 within.
    fn inwards(self, value: f64) -> i8 {
        if value < self.least {
            5
        } else if value > self.most {
            -5
        } else {
            0
        }
    }

    fn at(self, value: f64) -> f64 {
        let share = (value - self.least) / (self.most - self.least).max(f64::MIN_POSITIVE);
        FROM + (TO - FROM) * share.clamp(0.0, 1.0)
    }
}

/// The rows `order` of the board, one line each. The table says the same for those who can't see it.
pub fn picture(board: &Board, order: &[usize], measure: Measure) -> AnyView {
    let Some(spread) = measure.spread(board.rows().iter().map(|row| &row.entry)) else {
        return view! { <p class="soft">"No result here has this figure."</p> }.into_any();
    };
    let axis = Axis::of(&spread);
    let mut names = Vec::new();
    let [mut bands, mut dots, mut marks, mut beyond] = [const { String::new() }; 4];
    let mut y = HEAD + LINE / 2.0;
    for nth in order {
        let Some(row) = board.rows().get(*nth) else {
            continue;
        };
        names.push((y + 4.0, row.entry.student()));
        if let Some((low, high)) = band(board, *nth, measure) {
            let (low, high) = (axis.at(low), axis.at(high));
            let _ = write!(bands, "M{low:.1} {:.1}H{high:.1}v10H{low:.1}z", y - 5.0);
        }
        if let Some(value) = measure.of(&row.entry) {
            let (x, inwards) = (axis.at(value), axis.inwards(value));
            // A text can always be written to.
            let _ = if inwards != 0 {
                write!(
                    beyond,
                    "M{:.1} {:.1}l{} 5l{inwards} 5",
                    x + f64::from(inwards),
                    y - 5.0,
                    -inwards
                )
            } else if board.flags_of(*nth).is_empty() {
                write!(
                    dots,
                    "M{:.1} {y:.1}a4.5 4.5 0 1 0 9 0a4.5 4.5 0 1 0 -9 0z",
                    x - 4.5
                )
            } else {
                write!(marks, "M{x:.1} {:.1}l6.5 11h-13z", y - 6.5)
            };
        }
        y += LINE;
    }
    let foot = y - LINE / 2.0;
    let height = foot + FOOT;
    let median = axis.at(spread.median);
    let strays = (!beyond.is_empty()).then_some(" An arrow points to one too far off to be drawn.");
    view! {
        <svg class="picture plot" viewBox=format!("0 0 {WIDTH} {height:.0}") aria-hidden="true">
            <path class="band" d=bands/>
            <path class="axis" d=format!("M{FROM} {foot:.1}H{TO}")/>
            <path class="median" d=format!("M{median:.1} {HEAD}V{foot:.1}")/>
            <path class="dot" d=dots/>
            <path class="mark" d=marks/>
            <path class="beyond" d=beyond/>
            {names.into_iter().map(|(y, name)| view! { <text x="0" y=y>{name}</text> }).collect_view()}
            <text x=FROM y=foot + 16.0>{measure::written(measure, axis.least)}</text>
            <text x=median y=foot + 16.0 text-anchor="middle">{(FROM + 60.0..TO - 60.0).contains(&median).then(|| measure::written(measure, spread.median))}</text>
            <text x=TO y=foot + 16.0 text-anchor="end">{measure::written(measure, axis.most)}</text>
        </svg>
        <p class="soft small">
            {format!("A dot is one result; a triangle is one to look at again. The line is the median, {}.", measure::written(measure, spread.median))}
            {(measure == Measure::Yield).then_some(" The bar behind is what is published for that fish and form.")}
            {strays}
        </p>
    }
    .into_any()
}

fn band(board: &Board, nth: usize, measure: Measure) -> Option<(f64, f64)> {
    if measure != Measure::Yield {
        return None;
    }
    let figures = board.rows().get(nth)?.entry.figures.as_ref().ok()?;
    let beside = figures.published?;
    Some((beside.low.to_f64()?, beside.high.to_f64()?))
}
