//! What is set side by side: one fish and form at a time; what is set aside meanwhile stays in sight.

use std::sync::Arc;

use leptos::prelude::*;

use crate::class::board::{Board, Lot};
use crate::class::group::{ClassSplit, Measure, splits};
use crate::parts::board_table::BoardView;
use crate::parts::{mark, measure, spreads};

/// How many results of what is set aside are named.
const NAMED: usize = 8;

type Boarded = RwSignal<Arc<Board>>;

/// Which fish and form it is, where there are several.
pub fn switch(board: Boarded, view: BoardView) -> AnyView {
    let choose = move |text: String| {
        let nth = text.parse::<usize>().ok();
        let lot = board.with_untracked(|board| Some(board.lots().get(nth?)?.key));
        if let Some(key) = lot {
            view.choose(key);
        }
    };
    let options = move || {
        let shown = view.lot.with(|lot| lot.as_ref().map(|lot| lot.key));
        board.with(|board| {
            let lots = board.lots().iter().enumerate();
            lots.map(|(nth, lot)| view! {
                <option value=nth.to_string() selected={Some(lot.key) == shown}>{format!("{} · {}", lot.rows.len(), lot.label)}</option>
            }).collect_view()
        })
    };
    let several = Memo::new(move |_| board.with(|board| board.lots().len() > 1));
    view! {
        {move || several.get().then(|| view! {
            <div class="field noprint">
                <label for="lot">"Fish and form, one at a time"</label>
                <select id="lot" on:change:target=move |event| choose(event.target().value())>{options}</select>
            </div>
        })}
    }
    .into_any()
}

/// The results to look at again, each with its first reason.
pub fn look_again(board: Boarded, view: BoardView) -> AnyView {
    view! {
        {move || {
            let rows = view.lot.get().map_or_else(Vec::new, |lot| lot.rows);
            board.with(|board| flagged(view, board, &rows))
        }}
    }
    .into_any()
}

fn flagged(view: BoardView, board: &Board, rows: &[usize]) -> AnyView {
    let lines: Vec<AnyView> = board
        .flagged(rows)
        .map(|(nth, row)| {
            let sentence = board.flags_of(nth).first().map(|flag| flag.sentence());
            view! {
                <li>
                    <button class="item" on:click=move |_| view.show(nth)>
                        <span class="grow"><b>{row.student()}</b><small>{sentence}</small></span>
                    </button>
                </li>
            }
            .into_any()
        })
        .collect();
    if lines.is_empty() {
        return ().into_any();
    }
    let title = format!("To look at again: {}", lines.len());
    view! { <section><h2>{title}</h2><ul class="rows flagged" data-says="flag">{lines}</ul></section> }.into_any()
}

/// What is of another fish or form, each lot a tap away.
pub fn set_aside(board: Boarded, view: BoardView) -> AnyView {
    view! {
        {move || {
            let shown = view.lot.with(|lot| lot.as_ref().map(|lot| lot.key));
            board.with(|board| {
                let lots: Vec<AnyView> = board
                    .lots()
                    .iter()
                    .filter(|lot| Some(lot.key) != shown)
                    .map(|lot| aside(view, board, lot))
                    .collect();
                let is_any = !lots.is_empty();
                is_any.then(|| view! {
                    <section class="sheet aside" data-says="yield">
                        <h2>"Set aside: another fish or form"</h2>
                        <ul class="rows">{lots}</ul>
                    </section>
                })
            })
        }}
    }
    .into_any()
}

fn aside(view: BoardView, board: &Board, lot: &Lot) -> AnyView {
    let key = lot.key;
    let named = lot.rows.iter().take(NAMED).filter_map(|nth| {
        let row = board.rows().get(*nth)?;
        let value = Measure::Yield.of(&row.result);
        let value = value.map_or_else(String::new, |value| {
            format!(" {}", measure::written(Measure::Yield, value))
        });
        Some(format!("{}{value}", row.student()))
    });
    let mut line = named.collect::<Vec<_>>().join(", ");
    if let more @ 1.. = lot.rows.len().saturating_sub(NAMED) {
        line.push_str(&format!(", and {more} more"));
    }
    let flags = board.flagged(&lot.rows).count();
    view! {
        <li>
            <button class="item" on:click=move |_| view.choose(key)>
                <span class="grow"><b>{lot.label.clone()}</b><small>{line}</small></span>
                {(flags > 0).then(|| view! { <span class="again">{mark::flag()}{flags}</span> })}
            </button>
        </li>
    }
    .into_any()
}

/// How the results spread: all of them, or parted by how they were filleted, or by a piece of kit that some lacked.
pub fn parted(board: Boarded, view: BoardView) -> AnyView {
    let by = RwSignal::new(ClassSplit::SpeciesAndForm);
    let ways = Memo::new(move |_| {
        let rows = view.lot.get().map_or_else(Vec::new, |lot| lot.rows);
        board.with(|board| splits(board.results(&rows)))
    });
    let choose = move |text: String| {
        let nth = text.parse::<usize>().ok();
        let way = ways.with_untracked(|ways| ways.get(nth?).copied());
        by.set(way.unwrap_or(ClassSplit::SpeciesAndForm));
    };
    let spread = move || {
        let (by, rows) = (
            by.get(),
            view.lot.get().map_or_else(Vec::new, |lot| lot.rows),
        );
        board.with(|board| spreads::of_rows(board, &rows, by))
    };
    view! {
        <section class="sheet" data-says="class">
            <h2>"How they spread"</h2>
            {move || ways.with(|ways| (!ways.is_empty()).then(|| view! {
                <div class="field noprint">
                    <label for="parting">"Parted by"</label>
                    <select id="parting" on:change:target=move |event| choose(event.target().value())>
                        <option value="all">{ClassSplit::SpeciesAndForm.name()}</option>
                        {ways.iter().enumerate().map(|(nth, way)| view! {
                            <option value=nth.to_string()>{way.name()}</option>
                        }).collect_view()}
                    </select>
                </div>
            }))}
            {spread}
        </section>
    }
    .into_any()
}
