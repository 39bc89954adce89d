//! One student: every fish in the order of the days, where yield and losses go, and what the tutor says of each.

use leptos::prelude::*;

use super::desk::ClassDesk;
use super::marks;
use crate::class::board::Board;
use crate::class::dots::{self, Axis, DotLine};
use crate::class::group::Measure;
use crate::class::over_time::{OwnSeries, series};
use crate::class::standing::standing;
use crate::device::{address, clock, download};
use crate::parts::later::later;
use crate::parts::page::{Page, back_to};
use crate::parts::{measure, plot, student};
use crate::place::ClassSide;
use crate::trade::trend::{FEWEST_TREND, OwnTrend, TrendVerdict};

/// What is followed from fish to fish.
const FOLLOWED: [Measure; 3] = [Measure::Yield, Measure::OffTheBone, Measure::KeptInTrimming];

/// The student of a nickname.
pub fn screen(desk: ClassDesk, nickname: &str) -> AnyView {
    let nickname = StoredValue::new(nickname.to_owned());
    let all = Memo::new(move |_| {
        desk.board
            .with(|board| series(board, &nickname.get_value()))
    });
    let next = Memo::new(move |_| {
        let board = desk.board.get();
        let lines = desk.lesson.with(|lesson| standing(&board, lesson));
        let sent = lines.into_iter().filter(|line| !line.rows.is_empty());
        let mut after = sent.skip_while(move |line| line.nickname != nickname.get_value());
        after
            .nth(1)
            .map(|line| line.nickname)
            .filter(|name| !name.is_empty())
    });
    let on = move |_| {
        if let Some(nickname) = next.get_untracked() {
            address::replace(&desk.at(ClassSide::Student(nickname)));
        }
    };
    view! {
        <Page title=nickname.get_value() above=desk.name dock=move || view! {
            {back_to(&desk.at(ClassSide::Students))}
            {move || match next.get() {
                Some(nickname) => view! { <button class="btn main tall next" on:click=on>{format!("Next: {nickname}")}</button> }.into_any(),
                None => view! { <button class="btn main tall next" on:click=|_| download::print()>"Print"</button> }.into_any(),
            }}
        }>
            {desk.progress()}
            {move || all.with(|all| match all.as_slice() {
                [] => view! { <p>"Nothing has come from this student yet."</p> }.into_any(),
                all => desk.board.with(|board| {
                    all.iter().map(|series| of_series(desk, board, series)).collect_view().into_any()
                }),
            })}
            <p class="paper small">{move || format!("{}, {}", desk.name.get(), clock::day(clock::now()))}</p>
            <button class="btn plain noprint" on:click=|_| download::print()>"Print this student's sheet"</button>
        </Page>
    }
    .into_any()
}

fn of_series(desk: ClassDesk, board: &Board, series: &OwnSeries) -> AnyView {
    let counted = match series.rows.len() {
        1 => "1 fish".to_owned(),
        count => format!("{count} fish"),
    };
    let several = series.rows.len() > 1;
    let results: Vec<AnyView> = series
        .rows
        .iter()
        .rev()
        .enumerate()
        .map(|(place, nth)| of_row(desk, board, *nth, place == 0))
        .collect();
    view! {
        <section class="sheet results" data-says="yield losses">
            <h2>{series.label.clone()}<span class="soft small">{format!(" · {counted}")}</span></h2>
            {several.then(|| picture(board, series))}
            {several.then(|| trends(board, series))}
            {table(board, series)}
            <div class="stack noprint">{results}</div>
        </section>
        {series.rows.clone().into_iter().map(|nth| view! {
            {move || desk.board.with(|board| desk.lesson.with(|lesson| marks::on_paper(board, lesson, nth)))}
        }).collect_view()}
    }
    .into_any()
}

fn when(board: &Board, nth: usize) -> Option<String> {
    let row = board.rows().get(nth)?;
    let [_, test] = row.whose();
    Some(format!("{} · {test}", row.result.sheet.day))
}

/// A dot a fish, the latest lowest.
fn picture(board: &Board, series: &OwnSeries) -> AnyView {
    let lines: Vec<DotLine> = series
        .rows
        .iter()
        .filter_map(|nth| {
            let row = board.rows().get(*nth)?;
            Some(DotLine {
                label: row.result.sheet.day.to_string(),
                value: Measure::Yield.of(&row.result),
                marked: !board.flags_of(*nth).is_empty(),
                ..DotLine::default()
            })
        })
        .collect();
    let Some(axis) = Axis::over(&lines) else {
        return ().into_any();
    };
    view! {
        {plot::drawn(dots::draw(&lines, axis, None, plot::wide()), "", |value| measure::written(Measure::Yield, value))}
        <p class="soft small">"Yield, fish by fish. A triangle is one to look at again."</p>
    }
    .into_any()
}

fn trends(board: &Board, series: &OwnSeries) -> AnyView {
    let lines: Vec<String> = FOLLOWED
        .into_iter()
        .filter_map(|measure| Some(told(measure, series.trend(board, measure)?)))
        .collect();
    view! { <ul class="plain-list" data-says="trend">{lines.into_iter().map(|line| view! { <li>{line}</li> }).collect_view()}</ul> }
        .into_any()
}

/// Where a figure goes, as far as so many fish can say.
fn told(of: Measure, trend: OwnTrend) -> String {
    let moved = format!(
        "{}: {}, now {}",
        measure::name(of),
        measure::written(of, trend.first),
        measure::written(of, trend.last)
    );
    let step = format!("{:.1} points a fish", (trend.step * 100.0).abs());
    match trend.verdict() {
        TrendVerdict::TooFew => format!("{moved}. A trend takes {FEWEST_TREND} fish."),
        TrendVerdict::NoTrend => {
            format!("{moved}. Up and down, no trend over {} fish.", trend.fish)
        }
        TrendVerdict::Rises => format!("{moved}. It rises, some {step} over {} fish.", trend.fish),
        TrendVerdict::Falls => format!("{moved}. It falls, some {step} over {} fish.", trend.fish),
    }
}

fn table(board: &Board, series: &OwnSeries) -> AnyView {
    let rows = series.rows.iter().filter_map(|nth| {
        let row = board.rows().get(*nth)?;
        let figures = FOLLOWED.map(|measure| {
            let value = measure.of(&row.result);
            let value =
                value.map_or_else(|| "—".to_owned(), |value| measure::written(measure, value));
            view! { <td class="num">{value}</td> }
        });
        Some(view! { <tr><th scope="row">{when(board, *nth)}</th>{figures}</tr> })
    });
    view! {
        <table class="weights small">
            <thead><tr>
                <th scope="col">"Day · test"</th>
                <th scope="col" class="num">"Yield"</th>
                <th scope="col" class="num">"To the bone"</th>
                <th scope="col" class="num">"Kept, trimmed"</th>
            </tr></thead>
            <tbody>{rows.collect_view()}</tbody>
        </table>
    }
    .into_any()
}

/// What is said of one fish: the latest lies open.
fn of_row(desk: ClassDesk, board: &Board, nth: usize, open: bool) -> AnyView {
    // The feedback says the first of them.
    let flagged = board.flags_of(nth).iter().skip(1);
    let flagged: Vec<String> = flagged.map(|flag| flag.sentence()).collect();
    let feedback = board.feedback(nth);
    let earlier = board.rows().get(nth).map(|row| {
        let earlier = row.earlier.iter().map(student::said_of);
        earlier.collect::<Vec<_>>()
    });
    let earlier = earlier.filter(|earlier| !earlier.is_empty());
    view! {
        <details open=open>
            <summary>{when(board, nth)}": marks and words"</summary>
            <div class="stack" data-says="yield flag">
                <p class="quote">{feedback}</p>
                {flagged.into_iter().map(|sentence| view! { <p class="care">{sentence}</p> }).collect_view()}
                {earlier.map(|earlier| view! { <p class="small">"Corrected; before: "{earlier.join("; ")}</p> })}
                {if open {
                    desk.board.with_untracked(|board| marks::fields(desk, board, nth))
                } else {
                    later(move || desk.board.with_untracked(|board| marks::fields(desk, board, nth)))
                }}
            </div>
        </details>
    }
    .into_any()
}
