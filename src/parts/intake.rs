//! Bringing codes to a class: pasted, typed, or read from pictures; and what came of each line.

use std::collections::{HashMap, HashSet};

use leptos::prelude::*;
use wasm_bindgen_futures::spawn_local;

use super::{live_codes, pictures, typed};
use crate::base::refusal::Refusal;
use crate::class::class_list::{Class, ClassAction};
use crate::class::intake::Intake;
use crate::code::find::{Findings, FoundCode};
use crate::code::pieces::MOST_READ;
use crate::device::{focus, paste};
use crate::session::asked::ask;
use crate::session::drawer::Drawer;
use crate::work::codes::Pasted;

/// As much of a paste as the search reads, in UTF-16 units, and a little more, so that it can say where it stopped.
const MOST_UNITS: u32 = 2 * (MOST_READ as u32 + 1);
/// What the field shows of itself is some messages; a longer text is read at once, in UTF-16 units: laid out in the field
/// it would keep a slow phone standing still.
const LONGEST_SHOWN: u32 = 4_000;
/// How many lines of a report are shown.
const SHOWN: usize = 200;

/// What the intake of a class is doing.
#[derive(Clone, Copy)]
pub(super) struct Intaking {
    classes: Drawer<Class>,
    id: StoredValue<String>,
    report: RwSignal<Option<Intake>>,
    refused: RwSignal<Option<String>>,
    reading: RwSignal<bool>,
    notes: Notes,
}

/// Where what did not open stood, and what its sender wrote beside it, by the letters that the class keeps: for as long as
/// the class is on the screen.
pub type Notes = RwSignal<HashMap<String, (usize, String)>>;

/// The ways to bring codes to the class `id`.
pub fn of_class(classes: Drawer<Class>, id: StoredValue<String>, notes: Notes) -> AnyView {
    let desk = Intaking {
        classes,
        id,
        report: RwSignal::new(None),
        refused: RwSignal::new(None),
        reading: RwSignal::new(false),
        notes,
    };
    let pasted = RwSignal::new(String::new());
    let read = move |_| {
        let text = pasted.get_untracked();
        if !text.trim().is_empty() && !desk.reading.get_untracked() {
            pasted.set(String::new());
            desk.read(text);
        }
    };
    let long = move |event: leptos::ev::Event| {
        if let Some(text) = paste::longer_than(LONGEST_SHOWN, &event, MOST_UNITS)
            && !desk.reading.get_untracked()
        {
            desk.read(text);
        }
    };
    let typed = move |opened| {
        let found = Findings {
            found: vec![FoundCode { line: 1, opened }],
            ..Findings::default()
        };
        if let Some(known) = desk.known() {
            desk.keep(Intake::of(found, known));
        }
    };
    let empty = classes
        .with_untracked(&id.get_value(), |class| class.codes.is_empty())
        .unwrap_or(true);
    view! {
        <details id="adding" class="sheet noprint" open=empty>
            <summary>"Add codes"</summary>
            <div class="stack">
                <div class="field">
                    <label for="pasted">"Paste messages, mails or a table"</label>
                    <p class="hint" id="pasted-hint">"The codes are found in any text; a long one is read as soon as it is pasted. Nothing of it is kept but the letters of codes, and of what looks like one."</p>
                    <textarea id="pasted" aria-describedby="pasted-hint" autocomplete="off" spellcheck="false" prop:value=move || pasted.get()
                        on:paste=move |event| long(event.into())
                        on:input:target=move |event| pasted.set(event.target().value())></textarea>
                </div>
                <button class="btn main" on:click=read>{move || if desk.reading.get() { "Reading…" } else { "Add what is pasted" }}</button>
                {typed::field(typed)}
                {live_codes::field(desk)}
                {pictures::field(desk)}
            </div>
        </details>
        <div role="status" class="noprint">
            {move || desk.refused.get().map(|sentence| view! { <p class="fault">{sentence}</p> })}
            {move || desk.report.with(|report| report.as_ref().map(told))}
        </div>
    }
    .into_any()
}

impl Intaking {
    /// Has a text read beside the page, and keeps what it brings.
    fn read(self, text: String) {
        let Some(known) = self.known() else { return };
        self.reading.set(true);
        spawn_local(async move {
            let intake = ask(&Pasted { text, known }).await;
            // The screen may have gone meanwhile.
            if self.reading.try_set(false).is_some() {
                return;
            }
            if let Some(intake) = intake {
                focus::fold("adding");
                self.keep(intake);
            }
        });
    }

    /// The letters that the class has; nothing where it is gone.
    pub(super) fn known(self) -> Option<HashSet<String>> {
        let id = self.id.get_value();
        self.classes
            .with_untracked(&id, |class| class.codes.iter().cloned().collect())
    }

    fn keep(self, intake: Intake) {
        match self.add(&intake) {
            Ok(()) => {
                self.refused.set(None);
                self.report.set(Some(intake));
            }
            Err(refusal) => self.refused.set(Some(refusal.to_string())),
        }
    }

    /// Adds to the class what an intake brings.
    pub(super) fn add(self, intake: &Intake) -> Result<(), Refusal> {
        let id = self.id.get_value();
        self.classes
            .act(&id, ClassAction::Add(intake.codes.clone()))?;
        for settled in &intake.settled {
            // What another tab has taken out is settled too.
            let _ = self.classes.act(&id, ClassAction::Drop(settled.clone()));
        }
        self.notes.update(|notes| {
            let lines = intake.refused.iter().take(SHOWN);
            notes.extend(lines.map(|near| (near.text.clone(), (near.line, near.words.clone()))));
        });
        Ok(())
    }
}

/// What came of a text, line by line; nothing is dropped without a word.
fn told(intake: &Intake) -> AnyView {
    let new = match intake.new {
        0 => "No new code in it.".to_owned(),
        1 => "1 code added.".to_owned(),
        count => format!("{count} codes added."),
    };
    let repeated = match intake.repeated.as_slice() {
        [] => None,
        [line] => Some(format!("1 code was here already: line {line}.")),
        lines => Some(format!(
            "{} codes were here already: lines {}.",
            lines.len(),
            listed(lines)
        )),
    };
    let refused = match intake.refused.len() {
        0 => None,
        1 => Some(
            "1 looks like a code and does not open: it stands below until it is settled."
                .to_owned(),
        ),
        count => Some(format!(
            "{count} look like codes and do not open: they stand below until they are settled."
        )),
    };
    let again = match intake.again.len() + intake.settled.len() {
        0 => None,
        1 => Some("1 that did not open came again whole.".to_owned()),
        count => Some(format!("{count} that did not open came again whole.")),
    };
    let plain = match intake.plain {
        0 => None,
        1 => Some("1 line holds no code.".to_owned()),
        count => Some(format!("{count} lines hold no code.")),
    };
    let unread = intake.unread_from.map(|line| {
        format!("The text was too long: it was read up to line {line}. Paste the rest from there.")
    });
    view! {
        <div class="notice">
            <b>{new}</b>
            {refused.map(|sentence| view! { <p class="fault">{sentence}</p> })}
            {again.map(|sentence| view! { <p>{sentence}</p> })}
            {repeated.map(|sentence| view! { <p>{sentence}</p> })}
            {plain.map(|sentence| view! { <p>{sentence}</p> })}
            {unread.map(|sentence| view! { <p class="fault">{sentence}</p> })}
            {list("Put right", intake.mended.iter().map(|(line, sentence)| format!("Line {line}: {sentence}")).collect())}
        </div>
    }
    .into_any()
}

fn listed(lines: &[usize]) -> String {
    const MOST: usize = 12;
    let mut numbers: Vec<String> = lines.iter().take(MOST).map(ToString::to_string).collect();
    if lines.len() > MOST {
        numbers.push("and so on".to_owned());
    }
    numbers.join(", ")
}

fn list(title: &'static str, lines: Vec<String>) -> AnyView {
    if lines.is_empty() {
        return ().into_any();
    }
    let (title, brief) = (format!("{title}: {}", lines.len()), lines.len() <= 5);
    let more = lines.len().saturating_sub(SHOWN);
    view! {
        <details open=brief>
            <summary>{title}</summary>
            <ul class="plain-list small">{lines.into_iter().take(SHOWN).map(|line| view! { <li class="breaks">{line}</li> }).collect_view()}</ul>
            {(more > 0).then(|| view! { <p class="soft small">{format!("And {more} more.")}</p> })}
        </details>
    }
    .into_any()
}
