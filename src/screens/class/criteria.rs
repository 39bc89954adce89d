//! What the tutor marks, and the way to each student's marks.

use leptos::prelude::*;

use super::desk::ClassDesk;
use super::marks;
use crate::class::lesson::{Criterion, LessonAction};
use crate::device::{clock, download};
use crate::parts::choice::fault;
use crate::parts::page::{Page, back_to};
use crate::place::ClassSide;
use crate::session::drawer::identity;

/// The most points for a criterion, until the tutor says otherwise.
const USUAL: u16 = 10;

/// The criteria of a class.
pub fn screen(desk: ClassDesk) -> AnyView {
    let shown = move |gone: bool| {
        desk.lesson.with(|lesson| {
            let some = lesson.criteria.iter().filter(|one| one.gone == gone);
            some.cloned().collect::<Vec<Criterion>>()
        })
    };
    let is_new = untrack(|| shown(false).is_empty());
    view! {
        <Page title="Marks" above=desk.name dock=move || view! {
            {back_to(&desk.at(ClassSide::Board))}
            <button class="btn main tall next" on:click=|_| download::print()>"Print a sheet for each"</button>
        }>
            {desk.progress()}
            <details class="sheet noprint" open=is_new>
                <summary>{move || format!("What you mark: {}", shown(false).len())}</summary>
                <div class="stack">
                {move || shown(false).into_iter().map(|criterion| one(desk, criterion)).collect_view()}
                {added(desk)}
                {move || match shown(true) {
                    gone if gone.is_empty() => ().into_any(),
                    gone => view! {
                        <div>
                            <h3>"Taken off: tap to put back, with its points"</h3>
                            <ul class="names">{gone.into_iter().map(|criterion| {
 let name = criterion.name.clone();
 let back = move |_| { let _ = desk.say(LessonAction::Mark(criterion.clone())); };
 view! { <li><button class="btn plain" on:click=back>{name}</button></li> }
 }).collect_view()}</ul>
                        </div>
                    }.into_any(),
                }}
                </div>
            </details>
            {students(desk)}
            <p class="paper small">{move || format!("{}, {}", desk.name.get(), clock::day(clock::now()))}</p>
            {move || desk.board.with(|board| desk.lesson.with(|lesson| {
                (0..board.rows().len()).map(|nth| marks::on_paper(board, lesson, nth)).collect_view()
            }))}
        </Page>
    }
    .into_any()
}

/// Each result, with the points and the mark it has.
fn students(desk: ClassDesk) -> AnyView {
    let lines = move || {
        desk.board.with(|board| {
            desk.lesson.with(|lesson| {
                let rows = board.rows().iter().filter(|row| row.result.sheet.student.is_some());
                rows.map(|row| {
                    let judged = lesson.judged(row);
                    let sum = judged.and_then(|judged| judged.sum(lesson.marked()));
                    let sum = sum.map(|(points, most)| format!("{} of {most}", points.normalize()));
                    let mark = judged.map(|judged| judged.mark.clone()).filter(|mark| !mark.is_empty());
                    let said: Vec<String> = mark.into_iter().chain(sum).collect();
                    let [nickname, _] = row.whose();
                    let said = if said.is_empty() { "not marked".to_owned() } else { said.join(" · ") };
                    view! {
                        <li><a class="item" href=desk.at(ClassSide::Student(nickname)).to_string()>
                            <span class="grow"><b>{row.student()}</b><small data-says="points">{row.result.species()}", "{said}</small></span>
                        </a></li>
                    }
                }).collect_view()
            })
        })
    };
    view! { <ul class="rows narrow noprint">{lines}</ul> }.into_any()
}

/// One criterion: its name and points, to be put right.
fn one(desk: ClassDesk, criterion: Criterion) -> AnyView {
    let refused = RwSignal::new(None::<String>);
    let id = criterion.id.clone();
    let (name_id, most_id, fault_id) = (
        format!("name-{id}"),
        format!("most-{id}"),
        format!("criterion-{id}-fault"),
    );
    let kept = StoredValue::new(criterion.clone());
    let mark = move |criterion: Criterion| {
        let done = desk.say(LessonAction::Mark(criterion));
        refused.set(done.err().map(|refusal| refusal.to_string()));
    };
    let rename = move |name: String| {
        mark(Criterion {
            name,
            ..kept.get_value()
        })
    };
    let points = move |most: String| {
        mark(Criterion {
            most: most.trim().parse().unwrap_or_default(),
            ..kept.get_value()
        })
    };
    view! {
        <div class="criterion">
            <div class="field">
                <label for=name_id.clone()>"Criterion"</label>
                <input id=name_id type="text" autocomplete="off" aria-describedby=fault_id.clone() value=criterion.name.clone()
                    on:change:target=move |event| rename(event.target().value())/>
            </div>
            <div class="field">
                <label for=most_id.clone()>"Points"</label>
                <input id=most_id type="text" inputmode="numeric" autocomplete="off" aria-describedby=fault_id.clone() value=criterion.most.to_string()
                    on:change:target=move |event| points(event.target().value())/>
            </div>
            <button class="btn bare" aria-label=format!("Take off: {}", criterion.name) on:click=move |_| { let _ = desk.say(LessonAction::Unmark(id.clone())); }>"Take off"</button>
        </div>
        {fault(fault_id, move || refused.get())}
    }
    .into_any()
}

/// One more.
fn added(desk: ClassDesk) -> AnyView {
    let name = RwSignal::new(String::new());
    let refused = RwSignal::new(None::<String>);
    let add = move |_| {
        let criterion = Criterion {
            id: identity(clock::now()),
            name: name.get_untracked(),
            most: USUAL,
            gone: false,
        };
        match desk.say(LessonAction::Mark(criterion)) {
            Ok(()) => {
                name.set(String::new());
                refused.set(None);
            }
            Err(refusal) => refused.set(Some(refusal.to_string())),
        }
    };
    view! {
        <div class="field">
            <label for="criterion">"A criterion, such as: clean frame"</label>
            <input id="criterion" type="text" autocomplete="off" aria-describedby="criterion-fault" prop:value=move || name.get()
                on:input:target=move |event| name.set(event.target().value())/>
            {fault("criterion-fault", move || refused.get())}
        </div>
        <button class="btn" on:click=add>"Add the criterion"</button>
    }
    .into_any()
}
