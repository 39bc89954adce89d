//! The results of a class as dots and as a table that sort together; a row opens under the finger.

use std::sync::Arc;

use leptos::prelude::*;

use super::fresh::fresh;
use super::measure::{measures, name, written};
use super::{mark, plot, student};
use crate::class::board::{Board, Lot, LotKey, Sort};
use crate::class::class_list::Class;
use crate::class::group::Measure;
use crate::class::lesson::Lesson;
use crate::device::focus;
use crate::session::drawer::Drawer;

/// How many rows are shown before more are asked for.
const FIRST: usize = 50;

/// How the board is looked at.
#[derive(Clone, Copy)]
pub struct BoardView {
    classes: Drawer<Class>,
    id: StoredValue<String>,
    board: RwSignal<Arc<Board>>,
    chosen: RwSignal<Option<LotKey>>,
    /// The results that are set side by side: of one fish and form.
    pub lot: Memo<Option<Lot>>,
    /// What is shown of each.
    pub measure: RwSignal<Measure>,
    lesson: Memo<Lesson>,
    sort: RwSignal<(Sort, bool)>,
    shown: RwSignal<usize>,
    opened: RwSignal<Option<usize>>,
    order: Memo<Vec<usize>>,
}

impl BoardView {
    /// A first look at the board of class `id`, as the codes came.
    #[must_use]
    pub fn new(
        classes: Drawer<Class>,
        id: StoredValue<String>,
        board: RwSignal<Arc<Board>>,
        lesson: Memo<Lesson>,
    ) -> Self {
        let measure = RwSignal::new(Measure::Yield);
        let sort = RwSignal::new((Sort::Came, false));
        let chosen = RwSignal::new(None);
        let lot = Memo::new(move |_| board.with(|board| board.lot(chosen.get()).cloned()));
        let order = Memo::new(move |_| {
            let (sort, down) = sort.get();
            board.with(|board| {
                let lot = board.lot(chosen.get());
                lot.map_or_else(Vec::new, |lot| {
                    board.order(&lot.rows, sort, down, measure.get())
                })
            })
        });
        Self {
            classes,
            id,
            board,
            chosen,
            lot,
            measure,
            lesson,
            sort,
            shown: RwSignal::new(FIRST),
            opened: RwSignal::new(None),
            order,
        }
    }

    /// Sets the results of another fish or form side by side.
    pub fn choose(self, key: LotKey) {
        self.opened.set(None);
        self.shown.set(FIRST);
        self.chosen.set(Some(key));
    }

    /// Opens a row and brings it into sight.
    pub fn show(self, nth: usize) {
        let place = self
            .order
            .with_untracked(|order| order.iter().position(|row| *row == nth));
        if let Some(place) = place {
            self.shown.update(|shown| *shown = (*shown).max(place + 1));
        }
        self.opened.set(Some(nth));
        focus::to_opened();
    }

    fn sort_by(self, by: Sort) {
        self.sort.update(|(sort, down)| {
            *down = *sort == by && !*down;
            *sort = by;
        });
    }

    /// Which figure is shown.
    pub fn measure_field(self) -> AnyView {
        let choices = Memo::new(move |_| self.board.with(|board| measures(&board.currencies())));
        let choose = move |text: String| {
            let chosen = text
                .parse()
                .ok()
                .and_then(|nth: usize| choices.with_untracked(|choices| choices.get(nth).copied()));
            if let Some(chosen) = chosen {
                self.measure.set(chosen);
            }
        };
        view! {
        <div class="field noprint">
            <label for="measure">"Figure"</label>
            <select id="measure" on:change:target=move |event| choose(event.target().value())>
                {move || choices.get().into_iter().enumerate().map(|(nth, measure)| view! {
                    <option value=nth.to_string() selected={self.measure.get_untracked() == measure}>{name(measure)}</option>
                }).collect_view()}
            </select>
        </div>
    }
    .into_any()
    }

    fn head(self, by: Sort, words: impl Fn() -> String + Send + Sync + 'static) -> AnyView {
        let direction = move || match self.sort.get() {
            (sort, false) if sort == by => "ascending",
            (sort, true) if sort == by => "descending",
            _ => "none",
        };
        view! {
            <th scope="col" aria-sort=direction>
                <button class="sorter" on:click=move |_| self.sort_by(by)>{words}</button>
            </th>
        }
        .into_any()
    }
}

/// The dots and the table.
pub fn of_class(view: BoardView) -> AnyView {
    let rows = move || {
        let shown = view.shown.get();
        view.order
            .with(|order| order.iter().take(shown).copied().collect::<Vec<_>>())
    };
    let more = move || {
        let left = view.order.with(Vec::len).saturating_sub(view.shown.get());
        (left > 0).then(|| format!("Show more: {left} left"))
    };
    let dots = fresh(move || {
        let (board, measure) = (view.board.get(), view.measure.get());
        let lot = view.lot.get().map_or_else(Vec::new, |lot| lot.rows);
        plot::picture(&board, &lot, &rows(), measure)
    });
    let body = fresh(move || {
        let (board, measure) = (view.board.get(), view.measure.get());
        let rows = rows().into_iter();
        let rows = rows
            .map(|nth| row(view, &board, nth, measure))
            .collect_view();
        view! { <tbody>{rows}</tbody> }.into_any()
    });
    view! {
        <section class="sheet results" data-says="class yield losses cost">
            <h2>{move || view.lot.with(|lot| lot.as_ref().map(|lot| match lot.rows.len() {
                1 => "1 result".to_owned(),
                count => format!("{count} results"),
            }))}</h2>
            <p>{move || view.lot.with(|lot| lot.as_ref().map(|lot| lot.label.clone()))}</p>
            {view.measure_field()}
            {dots}
            <table class="board">
                <thead><tr>
                    {view.head(Sort::Student, || "Student".to_owned())}
                    {view.head(Sort::Value, move || name(view.measure.get()))}
                    {view.head(Sort::Flags, || "Look again".to_owned())}
                </tr></thead>
                {body}
            </table>
            {move || more().map(|words| view! {
                <button class="btn plain noprint" on:click=move |_| view.shown.update(|shown| *shown = shown.saturating_add(FIRST))>{words}</button>
            })}
        </section>
    }
    .into_any()
}

fn row(view: BoardView, board: &Arc<Board>, nth: usize, measure: Measure) -> AnyView {
    let Some(row) = board.rows().get(nth) else {
        return ().into_any();
    };
    let student = row.student();
    let corrected = (!row.earlier.is_empty()).then_some("corrected");
    let value = measure
        .of(&row.result)
        .map_or_else(|| "—".to_owned(), |value| written(measure, value));
    let flags = match board.flags_of(nth).len() {
        0 => None,
        count => Some(view! { {mark::flag()}{count} }),
    };
    let open = Memo::new(move |_| view.opened.get() == Some(nth));
    let turn = move |_| view.opened.set((!open.get_untracked()).then_some(nth));
    let board = Arc::clone(board);
    view! {
        <tr>
            <th scope="row">
                <button class="opener" aria-expanded=move || open.get().to_string() on:click=turn>
                    <b>{student}</b><small>{corrected}</small>
                </button>
            </th>
            <td class="num">{value}</td>
            <td class="num again">{flags}</td>
        </tr>
        {move || open.get().then(|| view! {
            <tr class="more"><td colspan="3">{student::of_row(view.classes, view.id, &board, view.lesson, nth)}</td></tr>
        })}
    }
    .into_any()
}
