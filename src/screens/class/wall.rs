//! A class on the wall of the room, by laptop and projector: no names, large dots, one question beside them.

use leptos::prelude::*;

use super::desk::ClassDesk;
use super::lots;
use crate::class::board::Board;
use crate::class::group::Measure;
use crate::class::result::ClassResult;
use crate::class::wall::{self, WallDot, WallPicture};
use crate::device::width;
use crate::parts::board_table::BoardView;
use crate::parts::measure;
use crate::parts::page::{Page, back_to};
use crate::place::ClassSide;

/// The wall view of a class.
pub fn screen(desk: ClassDesk) -> AnyView {
    let view = BoardView::new(desk.classes, desk.id, desk.board, desk.lesson);
    let asked = RwSignal::new(0_usize);
    let rows = move || view.lot.get().map_or_else(Vec::new, |lot| lot.rows);
    let questions = Memo::new(move |_| {
        let (rows, measure) = (rows(), view.measure.get());
        desk.board.with(|board| {
            let sure: Vec<&ClassResult> = sure(board, &rows);
            wall::questions(&sure, measure, |value| measure::written(measure, value))
        })
    });
    let question = move || {
        questions.with(|all| {
            let nth = asked.get().checked_rem(all.len())?;
            all.get(nth).cloned()
        })
    };
    let label = move || {
        let (label, measure) = (view.lot.get().map(|lot| lot.label), view.measure.get());
        label.map(|label| format!("{}: {}", measure::name(measure), label.to_lowercase()))
    };
    view! {
        <Page title=desk.name above="On the wall" dock=move || view! {
            {back_to(&desk.at(ClassSide::Board))}
            <button class="btn main tall next" on:click=move |_| asked.update(|nth| *nth += 1)>"Another question"</button>
        }>
            {desk.progress()}
            <div class="two wall" data-says="class yield losses cost">
                <figure>
                    <figcaption>{label}</figcaption>
                    {move || {
                        let (rows, measure) = (rows(), view.measure.get());
                        desk.board.with(|board| picture(board, &rows, measure))
                    }}
                </figure>
                <div class="stack">
                    <p class="question" role="status">{question}</p>
                    {lots::switch(desk.board, view)}
                    {view.measure_field()}
                </div>
            </div>
        </Page>
    }
    .into_any()
}

/// The results without a flag: nobody's slip is talked about.
fn sure<'a>(board: &'a Board, rows: &[usize]) -> Vec<&'a ClassResult> {
    let sure = rows.iter().filter(|nth| board.flags_of(**nth).is_empty());
    sure.filter_map(|nth| Some(&board.rows().get(*nth)?.result))
        .collect()
}

fn picture(board: &Board, rows: &[usize], measure: Measure) -> AnyView {
    let dots = rows.iter().filter_map(|nth| {
        Some(WallDot {
            value: measure.of(&board.rows().get(*nth)?.result)?,
            is_doubtful: !board.flags_of(*nth).is_empty(),
        })
    });
    let dots: Vec<WallDot> = dots.collect();
    let wide = width::for_picture(wall::LEAST_WIDTH);
    let Some(picture) = wall::pile(&dots, wide) else {
        return view! { <p class="soft">"No result here has this figure."</p> }.into_any();
    };
    let count = dots.len();
    let hollow = dots.iter().any(|dot| dot.is_doubtful);
    let past = picture.beyond.iter().sum::<usize>();
    view! {
        {drawn(&picture, wide, count, |value| measure::written(measure, value))}
        <p class="soft small">
            "One dot is one result; the line is the median."
            {hollow.then_some(" A hollow one is looked at again first.")}
            {(past > 0).then(|| format!(" Too far off to be drawn: {past}."))}
        </p>
    }
    .into_any()
}

fn drawn(
    picture: &WallPicture,
    wide: f64,
    count: usize,
    written: impl Fn(f64) -> String,
) -> AnyView {
    let WallPicture {
        radius, foot, ends, ..
    } = *picture;
    let dots = picture.dots.iter().map(|(x, y, hollow)| {
        let class = if *hollow { "hollow" } else { "dot" };
        let drawn = if *hollow { radius - 1.5 } else { radius - 0.5 };
        view! { <circle class=class cx=format!("{x:.1}") cy=format!("{y:.1}") r=format!("{drawn:.1}")/> }
    });
    let ticks = picture.ticks.iter().map(|(x, value)| {
        view! {
            <path class="axis" d=format!("M{x:.1} {foot:.1}v6")/>
            <text x=format!("{x:.1}") y=format!("{:.1}", foot + 22.0) text-anchor="middle">{written(*value)}</text>
        }
    });
    let high = foot + 30.0;
    view! {
        <svg class="picture plot" viewBox=format!("0 0 {wide:.0} {high:.0}") role="img" aria-label=format!("{count} results as dots, without names")>
            <path class="axis" d=format!("M{:.1} {foot:.1}H{:.1}", ends.0, ends.1)/>
            <path class="median" d=format!("M{0:.1} 0V{foot:.1}", picture.median)/>
            {dots.collect_view()}
            {ticks.collect_view()}
        </svg>
    }
    .into_any()
}
