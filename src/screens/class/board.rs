//! One class on the board: codes come in, results stand side by side, and answers go out.

use std::collections::HashMap;
use std::sync::Arc;

use leptos::prelude::*;
use wasm_bindgen_futures::spawn_local;

use super::answers::{self, Answering};
use super::lots;
use crate::class::board::Board;
use crate::class::class_list::{Class, ClassAction};
use crate::class::sheet_csv::sheet_csv;
use crate::device::turns::{Turn, rest};
use crate::device::{download, focus};
use crate::parts::board_table::{self, BoardView};
use crate::parts::choice::fault;
use crate::parts::intake::Notes;
use crate::parts::later::later;
use crate::parts::page::{Page, back_to};
use crate::parts::{intake, removal};
use crate::place::Place;
use crate::session::drawer::Drawer;

/// How many of what does not open are shown at once.
const UNOPENED_SHOWN: usize = 50;

/// A class on its screen.
#[derive(Clone, Copy)]
struct Shown {
    classes: Drawer<Class>,
    id: StoredValue<String>,
    board: RwSignal<Arc<Board>>,
    /// How many codes have been opened, of how many; nothing once all are.
    opening: RwSignal<Option<(usize, usize)>>,
    notes: Notes,
}

/// The class `id`.
pub fn screen(classes: Drawer<Class>, id: &str) -> AnyView {
    if classes.with_untracked(id, |_| ()).is_none() {
        return not_found();
    }
    let desk = Shown {
        classes,
        id: StoredValue::new(id.to_owned()),
        board: RwSignal::new(Arc::default()),
        opening: RwSignal::new(None),
        notes: RwSignal::new(HashMap::new()),
    };
    desk.keep_worked_out();
    let name = Memo::new(move |_| {
        let name = classes.with(&desk.id.get_value(), |class| class.name.clone());
        name.unwrap_or_default()
    });
    let filled = Memo::new(move |_| desk.board.with(|board| !board.rows().is_empty()));
    let view = BoardView::new(classes, desk.id, desk.board);
    let answering = Answering::new(classes, desk.id);
    view! {
        <Page title=name above="Class" dock=|| view! {
            {back_to(&Place::Classes)}
            <button class="btn main tall next" on:click=|_| focus::to_field("adding", "pasted")>"Add codes"</button>
        }>
            {intake::of_class(classes, desk.id, desk.notes)}
            {move || desk.opening.get().map(|(done, of)| view! {
                <p class="soft" role="status">{format!("Opening {done} of {of} codes…")}</p>
            })}
            {move || desk.board.with(|board| unopened(desk, board))}
            {move || desk.board.with(|board| answers::asked(answering, board))}
            {move || filled.get().then(|| view! {
                {lots::switch(desk.board, view)}
                {lots::look_again(desk.board, view)}
                {board_table::of_class(view)}
                {later(move || view! {
                    {lots::set_aside(desk.board, view)}
                    {lots::parted(desk.board, view)}
                }.into_any())}
            })}
            {later(move || view! {
                {move || desk.board.with(|board| answers::corrected(answering, board))}
                {move || desk.board.with(|board| answers::given(answering, board))}
                {move || filled.get().then(|| sheet(desk, view))}
                {settings(desk, name)}
            }.into_any())}
        </Page>
    }
    .into_any()
}

impl Shown {
    /// Opens the codes of the class again whenever they or the tutor's answers change, a few in each turn.
    fn keep_worked_out(self) {
        let kept = Memo::new(move |_| {
            let kept = self.classes.with(&self.id.get_value(), |class| {
                (class.codes.clone(), class.settled.clone())
            });
            kept.unwrap_or_default()
        });
        let round = StoredValue::new(0_u32);
        Effect::new(move |_| {
            let (codes, settled) = kept.get();
            let this = round.get_value().wrapping_add(1);
            round.set_value(this);
            spawn_local(async move {
                // A newer list, or another screen, makes this work of no use.
                let wanted = || round.try_get_value() == Some(this);
                let (mut board, mut turn) = (Board::begin(settled), Turn::begin());
                for (nth, code) in (1..).zip(&codes) {
                    board.take(nth, code);
                    if turn.pause().await {
                        if !wanted() {
                            return;
                        }
                        self.opening.set(Some((nth, codes.len())));
                    }
                }
                rest().await;
                if wanted() {
                    board.judge();
                    self.opening.set(None);
                    self.board.set(Arc::new(board));
                }
            });
        });
    }
}

fn not_found() -> AnyView {
    view! {
        <Page title="This class is not here" above="Classes" dock=|| back_to(&Place::Classes)>
            <p>"It may have been removed, or kept on another phone."</p>
        </Page>
    }
    .into_any()
}

/// What looks like a code and does not open stands before everything else: it is somebody's result.
fn unopened(desk: Shown, board: &Board) -> AnyView {
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
                    let _ = desk.classes.act(&desk.id.get_value(), ClassAction::Drop(dropped.clone()));
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

fn sheet(desk: Shown, view: BoardView) -> AnyView {
    let refused = RwSignal::new(None::<String>);
    let save = move |_| {
        let written = desk
            .board
            .with_untracked(|board| sheet_csv(board.rows(), board.flags()));
        let name = desk
            .classes
            .with_untracked(&desk.id.get_value(), |class| file_name(&class.name));
        refused.set(match written {
            Ok(text) if download::table(&name.unwrap_or_default(), &text) => None,
            Ok(_) => Some("The browser did not take the file.".to_owned()),
            Err(refusal) => Some(refusal.to_string()),
        });
    };
    let print = move |_| {
        view.show_all();
        // The rows are on the page after the browser's next turn.
        request_animation_frame(|| request_animation_frame(download::print));
    };
    view! {
        <section class="sheet noprint">
            <h2>"Class sheet"</h2>
            <div class="row">
                <button class="btn" on:click=save>"Save as a table (CSV)"</button>
                <button class="btn" on:click=print>"Print"</button>
            </div>
            {fault("sheet-fault", move || refused.get())}
        </section>
    }
    .into_any()
}

/// The name of a class as a file: letters and figures of any language, the rest a hyphen.
fn file_name(name: &str) -> String {
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
    format!("{}.csv", plain.trim_matches('-'))
}

fn settings(desk: Shown, name: Memo<String>) -> AnyView {
    let refused = RwSignal::new(None::<String>);
    let done = move |outcome: Result<(), crate::base::refusal::Refusal>| {
        refused.set(outcome.err().map(|refusal| refusal.to_string()));
    };
    let rename = move |name| {
        done(
            desk.classes
                .act(&desk.id.get_value(), ClassAction::Name(name)),
        )
    };
    view! {
        <details class="sheet noprint">
            <summary>"Name, or remove the class"</summary>
            <div class="stack">
                <div class="field">
                    <label for="rename">"Name of the class"</label>
                    <input id="rename" type="text" autocomplete="off" aria-describedby="rename-fault" prop:value=move || name.get()
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
