//! A dot for each student, in the order of the table beside it.

use leptos::prelude::*;
use rust_decimal::prelude::ToPrimitive;

use super::measure;
use crate::class::board::Board;
use crate::class::dots::{self, Axis, DotLine, FROM, HEAD, LEAST_WIDTH, Picture};
use crate::class::group::{FEWEST_SPREAD, Measure};
use crate::device::width;

/// The rows `order` of the rows `lot` of the board, one line each. The table says the same for those who can't see it.
pub fn picture(board: &Board, lot: &[usize], order: &[usize], measure: Measure) -> AnyView {
    let Some(spread) = measure.spread(board.results(lot)) else {
        return view! { <p class="soft">"No result here has this figure."</p> }.into_any();
    };
    let lines: Vec<DotLine> = order
        .iter()
        .filter_map(|nth| {
            let row = board.rows().get(*nth)?;
            Some(DotLine {
                label: row.student(),
                value: measure.of(&row.result),
                band: band(board, *nth, measure),
                marked: !board.flags_of(*nth).is_empty(),
            })
        })
        .collect();
    let axis = Axis::without_strays(&spread);
    let is_enough = spread.count >= FEWEST_SPREAD;
    let picture = dots::draw(
        &lines,
        axis,
        is_enough.then_some(spread.median),
        width::for_column(LEAST_WIDTH),
    );
    let strays =
        (!picture.beyond.is_empty()).then_some(" An arrow points to one too far off to be drawn.");
    let median = measure::written(measure, spread.median);
    view! {
        {drawn(picture, &median, |value| measure::written(measure, value))}
        <p class="soft small">
            "A dot is one result; a triangle is one to look at again. "
            {if is_enough { format!("The line is the median, {median}.") } else { "Fewer than three have no median worth a line.".to_owned() }}
            {(measure == Measure::Yield).then_some(" The bar behind is what is published for that fish and form.")}
            {strays}
        </p>
    }
    .into_any()
}

/// How wide such a picture is drawn.
pub fn wide() -> f64 {
    width::for_picture(LEAST_WIDTH)
}

/// A picture of dots, its median named on the axis where there is room, its ends `written`.
pub fn drawn(picture: Picture, median: &str, written: impl Fn(f64) -> String) -> AnyView {
    let Picture {
        height,
        foot,
        to,
        width,
        ..
    } = picture;
    let at = picture.median;
    let named = at.filter(|at| (FROM + 64.0..to - 64.0).contains(at));
    view! {
        <svg class="picture plot" viewBox=format!("0 0 {width:.0} {height:.0}") aria-hidden="true">
            <path class="band" d=picture.bands/>
            <path class="axis" d=format!("M{FROM} {foot:.1}H{to:.1}")/>
            {at.map(|at| view! { <path class="median" d=format!("M{at:.1} {HEAD}V{foot:.1}")/> })}
            <path class="dot" d=picture.dots/>
            <path class="mark" d=picture.marks/>
            <path class="beyond" d=picture.beyond/>
            {picture.labels.into_iter().map(|(y, label, is_head)| view! {
                <text x="0" y=y class=if is_head { "head" } else { "" }>{label}</text>
            }).collect_view()}
            <text x=FROM y=foot + 16.0>{written(picture.least)}</text>
            {named.map(|at| view! { <text x=at y=foot + 16.0 text-anchor="middle">{median.to_owned()}</text> })}
            <text x=to y=foot + 16.0 text-anchor="end">{written(picture.most)}</text>
        </svg>
    }
    .into_any()
}

fn band(board: &Board, nth: usize, measure: Measure) -> Option<(f64, f64)> {
    if measure != Measure::Yield {
        return None;
    }
    let figures = board.rows().get(nth)?.result.figures.as_ref().ok()?;
    let beside = figures.published?;
    Some((beside.low.to_f64()?, beside.high.to_f64()?))
}
