//! The class as a table for a spreadsheet, and as a sheet on paper.

use leptos::prelude::*;

use super::desk::ClassDesk;
use crate::class::board::{Board, Lot};
use crate::class::cell::Separator;
use crate::class::filleted;
use crate::class::group::Measure;
use crate::class::lesson::Lesson;
use crate::class::sheet_csv::sheet_csv;
use crate::class::standing::standing;
use crate::device::{clock, download};
use crate::parts::choice::{fault, one_of};
use crate::parts::measure;
use crate::parts::page::{Page, back_to};
use crate::place::ClassSide;

/// The sheet of a class.
pub fn screen(desk: ClassDesk) -> AnyView {
    let by = RwSignal::new(Separator::Comma);
    let refused = RwSignal::new(None::<String>);
    let save = move |_| {
        let written = desk.board.with_untracked(|board| {
            let by = by.get_untracked();
            desk.lesson
                .with_untracked(|lesson| sheet_csv(board, lesson, by))
        });
        let name = file_name(&desk.name.get_untracked(), "csv");
        refused.set(match written {
            Ok(text) if download::table(&name, &text) => None,
            Ok(_) => Some("The browser did not take the file.".to_owned()),
            Err(refusal) => Some(refusal.to_string()),
        });
    };
    let options = Separator::ALL.map(|by| (by, by.name().to_owned())).to_vec();
    let days = move || desk.board.with(|board| days(board));
    view! {
        <Page title="Class sheet" above=desk.name dock=move || view! {
            {back_to(&desk.at(ClassSide::Board))}
            <button class="btn main tall next" on:click=|_| download::print()>"Print"</button>
        }>
            {desk.progress()}
            <section class="sheet noprint">
                <h2>"As a table"</h2>
                <p>"Yield, loss by stage, cost, how it was filleted, what to look at again, earlier tries, times in the pan, your marks and words; whoever has not sent stands at its end."</p>
                {one_of("sheet-by", "Between the cells", "one", options, move || Some(by.get()), move |one| by.set(one))}
                <button class="btn" on:click=save>"Save as a table (CSV)"</button>
                {fault("sheet-fault", move || refused.get())}
            </section>
            <p class="soft noprint">"On paper: a line for each result, one fish and form after the other, with the median, and room to write."</p>
            <div class="paper whole" data-says="yield losses cost class flag points">
                <p><b>{move || desk.name.get()}</b>{move || format!(". Fish of {}. Printed {}.", days(), clock::day(clock::now()))}</p>
                {move || desk.board.with(|board| desk.lesson.with(|lesson| view! {
                    {board.lots().iter().map(|lot| on_paper(board, lesson, lot)).collect_view()}
                    {missing(board, lesson)}
                }))}
            </div>
        </Page>
    }
    .into_any()
}

/// The first and the last day of the results.
fn days(board: &Board) -> String {
    let days = || board.rows().iter().map(|row| row.result.sheet.day);
    match (days().min(), days().max()) {
        (Some(first), Some(last)) if first == last => first.to_string(),
        (Some(first), Some(last)) => format!("{first} to {last}"),
        _ => "no day".to_owned(),
    }
}

fn on_paper(board: &Board, lesson: &Lesson, lot: &Lot) -> AnyView {
    let paid = board.currencies();
    let measures: Vec<Measure> = measure::measures(&paid)
        .into_iter()
        .filter(|measure| {
            let has = |result| measure.of(result).is_some();
            !matches!(measure, Measure::CostPerKilo(_)) && board.results(&lot.rows).any(has)
        })
        .collect();
    let cell = |value: Option<f64>, measure: Measure| {
        let value = value.map_or_else(String::new, |value| measure::written(measure, value));
        view! { <td class="num">{value}</td> }
    };
    let told = filleted::is_any_told(board.results(&lot.rows));
    let rows = lot.rows.iter().filter_map(|nth| {
        let row = board.rows().get(*nth)?;
        let flag = board.flags_of(*nth).first().map(|flag| flag.sentence());
        let judged = lesson.judged(row);
        let sum = judged.and_then(|judged| judged.sum(lesson.marked()));
        let sum = sum.map(|(points, most)| format!("{} of {most}", points.normalize()));
        let mark = judged.map(|judged| judged.mark.clone()).filter(|mark| !mark.is_empty());
        let said: Vec<String> = mark.into_iter().chain(sum).collect();
        Some(view! {
            <tr>
                <th scope="row">{row.student()}{(!row.earlier.is_empty()).then_some(", corrected")}</th>
                {measures.iter().map(|measure| cell(measure.of(&row.result), *measure)).collect_view()}
                {told.then(|| view! { <td class="say">{row.result.filleted_line()}</td> })}
                <td class="num">{said.join(" · ")}</td>
                <td class="say">{flag}</td>
            </tr>
        })
    });
    let medians = measures.iter().map(|measure| {
        let spread = measure.spread(board.results(&lot.rows));
        cell(
            spread
                .filter(|spread| spread.count >= 3)
                .map(|spread| spread.median),
            *measure,
        )
    });
    view! {
        <table>
            <caption>{lot.label.clone()}{format!(" · {}", lot.rows.len())}</caption>
            <thead><tr>
                <th scope="col">"Student"</th>
                {measures.iter().map(|measure| view! { <th scope="col" class="num">{measure::name(*measure)}</th> }).collect_view()}
                {told.then(|| view! { <th scope="col">"Filleted"</th> })}
                <th scope="col" class="num">"Mark"</th>
                <th scope="col">"Look again"</th>
            </tr></thead>
            <tbody>
                {rows.collect_view()}
                <tr class="median"><th scope="row">"Median"</th>{medians.collect_view()}{told.then(|| view! { <td></td> })}<td></td><td></td></tr>
            </tbody>
        </table>
    }
    .into_any()
}

fn missing(board: &Board, lesson: &Lesson) -> AnyView {
    let missing = standing(board, lesson)
        .into_iter()
        .filter(|line| line.rows.is_empty());
    let missing: Vec<String> = missing.map(|line| line.nickname).collect();
    (!missing.is_empty())
        .then(|| view! { <p>{format!("Not sent yet: {}.", missing.join(", "))}</p> })
        .into_any()
}

/// The name of a class as a file: letters and figures of any language, the rest a hyphen.
pub fn file_name(name: &str, kind: &str) -> String {
    let plain: String = name
        .chars()
        .map(|letter| {
            if letter.is_alphanumeric() {
                letter
            } else {
                '-'
            }
        })
        .collect();
    format!("{}.{kind}", plain.trim_matches('-'))
}
