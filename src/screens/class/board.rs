//! One class on the board: codes come in, results stand side by side, and answers go out.

use leptos::prelude::*;

use super::answers::{self, Answering};
use super::desk::ClassDesk;
use super::lots;
use crate::base::refusal::Refusal;
use crate::class::board::Board;
use crate::class::class_list::ClassAction;
use crate::device::focus;
use crate::parts::board_table::{self, BoardView};
use crate::parts::choice::fault;
use crate::parts::later::later;
use crate::parts::page::{Page, back_to};
use crate::parts::{intake, removal};
use crate::place::{ClassSide, Place};

/// How many of what does not open are shown at once.
const UNOPENED_SHOWN: usize = 50;

/// The class of a desk.
pub fn screen(desk: ClassDesk) -> AnyView {
    let filled = Memo::new(move |_| desk.board.with(|board| !board.rows().is_empty()));
    let view = BoardView::new(desk.classes, desk.id, desk.board, desk.lesson);
    let answering = Answering::new(desk.classes, desk.id);
    view! {
        <Page title=desk.name above="Class" dock=|| view! {
            {back_to(&Place::Classes)}
            <button class="btn main tall next" on:click=|_| focus::to_field("adding", "pasted")>"Add codes"</button>
        }>
            {intake::of_class(desk.classes, desk.id, desk.notes)}
            {desk.progress()}
            {move || desk.board.with(|board| unopened(desk, board))}
            {move || desk.board.with(|board| answers::asked(answering, board))}
            {sides(desk)}
            <div class="two">
                <div class="stack">
                    {move || filled.get().then(|| view! {
                        {lots::switch(desk.board, view)}
                        {lots::look_again(desk.board, view)}
                        {board_table::of_class(view)}
                    })}
                </div>
                <div class="stack">
                    {move || filled.get().then(|| later(move || view! {
                        {lots::set_aside(desk.board, view)}
                        {lots::parted(desk.board, view)}
                    }.into_any()))}
                    {later(move || view! {
                        {move || desk.board.with(|board| answers::corrected(answering, board))}
                        {move || desk.board.with(|board| answers::given(answering, board))}
                        {answers::taken_out(answering)}
                        {settings(desk)}
                    }.into_any())}
                </div>
            </div>
        </Page>
    }
    .into_any()
}

/// The other sides of the class.
fn sides(desk: ClassDesk) -> AnyView {
    let ways = [
        (ClassSide::Students, "Students and feedback"),
        (ClassSide::Criteria, "Marks"),
        (ClassSide::Wall, "On the wall"),
        (ClassSide::Sheet, "Class sheet"),
    ];
    view! {
        <nav class="sides noprint" aria-label="This class">
            {ways.map(|(side, words)| view! { <a class="btn plain" href=desk.at(side).to_string()>{words}</a> }).collect_view()}
        </nav>
    }
    .into_any()
}

/// What looks like a code and does not open stands before everything else: it is somebody's result.
fn unopened(desk: ClassDesk, board: &Board) -> AnyView {
    let all = board.unopened();
    if all.is_empty() {
        return ().into_any();
    }
    let lines = all.iter().take(UNOPENED_SHOWN).map(|(text, why)| {
        let dropped = text.clone();
        let noted = desk.notes.with(|notes| notes.get(text).cloned());
        let noted = noted.map(|(line, words)| view! { <p class="quote small breaks">{format!("Line {line}: {words}")}</p> });
        view! {
            <li class="stack">
                <p><b class="breaks">{text.clone()}</b><br/>{why.to_string()}</p>
                {noted}
                <button class="btn plain noprint" on:click=move |_| {
                    // A line that is gone already needs no taking out.
                    let _ = desk.act(ClassAction::Drop(dropped.clone()));
                }>"Settled: take it out"</button>
            </li>
        }
        .into_any()
    });
    let lines: Vec<AnyView> = lines.collect();
    let (title, more) = (
        format!("Not opened: {}", all.len()),
        all.len() - lines.len(),
    );
    view! {
        <section class="sheet">
            <h2>{title}</h2>
            <p class="soft small">"Ask for them again: each leaves this list when it comes whole, or when you take it out."</p>
            <ul class="plain-list">{lines}</ul>
            {(more > 0).then(|| view! { <p class="soft small">{format!("And {more} more.")}</p> })}
        </section>
    }
    .into_any()
}

fn settings(desk: ClassDesk) -> AnyView {
    let refused = RwSignal::new(None::<String>);
    let done = move |outcome: Result<(), Refusal>| {
        refused.set(outcome.err().map(|refusal| refusal.to_string()));
    };
    let rename = move |name| done(desk.act(ClassAction::Name(name)));
    view! {
        <details class="sheet noprint">
            <summary>"Name, or remove the class"</summary>
            <div class="stack">
                <div class="field">
                    <label for="rename">"Name of the class"</label>
                    <input id="rename" type="text" autocomplete="off" aria-describedby="rename-fault" prop:value=move || desk.name.get()
                        on:change:target=move |event| rename(event.target().value())/>
                    {fault("rename-fault", move || refused.get())}
                </div>
                {removal::of_record(
                    "Remove this class…",
                    "This takes the class and all its codes out of your list. They stay in the bin for 30 days.",
                    Place::Classes,
                    Callback::new(move |whereto| desk.classes.remove(&desk.id.get_value(), whereto)),
                )}
            </div>
        </details>
    }
    .into_any()
}
