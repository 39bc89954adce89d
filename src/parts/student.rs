//! One row of the board opened: why it is flagged, what to send back, its figures and earlier tries.

use std::sync::Arc;

use leptos::prelude::*;

use super::parcel::Parcel;
use super::result;
use super::words::capital;
use crate::class::answer::answer;
use crate::class::board::Board;
use crate::class::class_list::{Class, ClassAction, letters};
use crate::class::lesson::Lesson;
use crate::class::result::ClassResult;
use crate::class::why;
use crate::place::{ClassSide, Place};
use crate::session::drawer::Drawer;
use crate::trade::rounding;

/// The row `nth` of the board of class `id`.
pub fn of_row(
    classes: Drawer<Class>,
    id: StoredValue<String>,
    board: &Arc<Board>,
    lesson: Memo<Lesson>,
    nth: usize,
) -> AnyView {
    let feedback = lesson.with_untracked(|lesson| answer(board, lesson, nth));
    let (Some(row), Some(feedback)) = (board.rows().get(nth), feedback) else {
        return ().into_any();
    };
    let [nickname, _] = row.whose();
    let side = ClassSide::Student(nickname.clone());
    let own = (!nickname.is_empty()).then(|| Place::Class(id.get_value(), side).to_string());
    let parcel = Parcel::new(feedback.clone(), None);
    let code = letters(&row.result.code);
    let refused = RwSignal::new(None::<String>);
    let take_out = move |_| {
        if let Err(refusal) = classes.act(&id.get_value(), ClassAction::Drop(code.clone())) {
            refused.set(Some(refusal.to_string()));
        }
    };
    view! {
        <div class="stack opened" data-says="yield losses cost flag">
            <div>
                <h3>"To send back"</h3>
                <p class="quote">{feedback}</p>
                {parcel.buttons("Copy it")}
            </div>
            {own.map(|own| view! { <a class="btn plain noprint" href=own>{format!("{nickname}: marks, and every fish")}</a> })}
            {why(board, nth, &row.result)}
            {board.flags_of(nth).iter().skip(1).map(|flag| view! { <p class="care">{flag.sentence()}</p> }).collect_view()}
            {earlier(&row.earlier)}
            {result::of(&row.result)}
            {move || refused.get().map(|sentence| view! { <p class="fault">{sentence}</p> })}
            <button class="btn bare noprint" on:click=take_out>"Take this code out of the class"</button>
        </div>
    }
    .into_any()
}

/// What came off where, beside the class; two causes with what would tell them apart.
fn why(board: &Board, nth: usize, result: &ClassResult) -> AnyView {
    let beside = board.stages(nth);
    let told = beside.map(|beside| capital(&beside.told(result)));
    let causes = why::causes(board.flags_of(nth), beside);
    if told.is_none() && causes.is_none() {
        return ().into_any();
    }
    view! {
        <div>
            <h3>"Why"</h3>
            {told.map(|told| view! { <p>{told}</p> })}
            {causes.map(|causes| view! {
                <ul class="causes">
                    {causes.into_iter().map(|cause| view! {
                        <li><b>{cause.what}</b><small>{cause.tells}</small></li>
                    }).collect_view()}
                </ul>
            })}
        </div>
    }
    .into_any()
}

fn earlier(results: &[ClassResult]) -> AnyView {
    if results.is_empty() {
        return ().into_any();
    }
    view! {
        <div>
            <h3>"Corrected: earlier tries"</h3>
            <ul class="plain-list small">
                {results.iter().map(|result| view! { <li>{said_of(result)}</li> }).collect_view()}
            </ul>
        </div>
    }
    .into_any()
}

/// A try that was corrected, in a line.
#[must_use]
pub fn said_of(result: &ClassResult) -> String {
    let yielded = match &result.figures {
        Ok(figures) => rounding::percent(figures.yield_ratio, figures.reading.percent_decimals()),
        Err(why) => why.to_string(),
    };
    format!("{}: {yielded}", result.sheet.day)
}
