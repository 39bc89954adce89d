//! One code typed letter by letter, its groups shown as they come and the wrong one marked.

use leptos::prelude::*;

use super::choice::fault;
use crate::code::alphabet::{self, GROUP, Read};
use crate::code::opening::OpenedCode;
use crate::code::reading::read_one;
use crate::code::unopened::Unopened;

/// A field for one code; `take` gets it once it opens.
pub fn field(take: impl Fn(OpenedCode) + Copy + Send + Sync + 'static) -> AnyView {
    let typed = RwSignal::new(String::new());
    // A code is not called wrong while it is being typed.
    let tried = RwSignal::new(false);
    let why = Memo::new(move |_| {
        let why = typed.with(|typed| match typed.trim() {
            "" => None,
            typed => read_one(typed).err(),
        });
        why.filter(|_| tried.get())
    });
    let add = move |_| {
        tried.set(true);
        if let Ok(opened) = typed.with_untracked(|typed| read_one(typed)) {
            take(opened);
            typed.set(String::new());
            tried.set(false);
        }
    };
    view! {
        <div class="field">
            <label for="one-code">"Type one code"</label>
            <p class="hint" id="one-code-hint">"Capitals, spaces and marks don't matter, and the words for the letters will do. Type ? for a letter you did not hear."</p>
            <input id="one-code" type="text" autocomplete="off" autocapitalize="characters" spellcheck="false"
                aria-describedby="one-code-hint one-code-fault" prop:value=move || typed.get()
                on:input:target=move |event| typed.set(event.target().value())/>
            {move || typed.with(|typed| why.with(|why| echo(typed, why.as_ref())))}
            {fault("one-code-fault", move || why.get().map(|why| why.to_string()))}
        </div>
        <button class="btn" aria-keyshortcuts="Enter" on:click=add>"Add this code"</button>
    }
    .into_any()
}

/// What stands between groups besides spaces and hyphens.
const MARKS: [char; 6] = ['.', ',', ';', ':', '/', '|'];

/// The groups as typed, or fours where they run together.
fn groups(typed: &str) -> Vec<String> {
    let parts: Vec<String> = typed
        .split(|letter| alphabet::read(letter) == Read::Gap || MARKS.contains(&letter))
        .filter(|part| !part.is_empty())
        .map(str::to_uppercase)
        .collect();
    match parts.as_slice() {
        [whole] => {
            let letters: Vec<char> = whole.chars().collect();
            let fours = letters.chunks(GROUP);
            fours.map(|four| four.iter().collect()).collect()
        }
        _ => parts,
    }
}

fn echo(typed: &str, why: Option<&Unopened>) -> AnyView {
    let wrong = match why {
        Some(Unopened::TooShort { group, .. } | Unopened::TooLong { group, .. }) => *group,
        Some(Unopened::BadLetter { group, .. } | Unopened::WrongGroup(group)) => Some(*group),
        _ => None,
    };
    let groups = groups(typed);
    if groups.is_empty() {
        return ().into_any();
    }
    view! {
        <ol class="groups typed" aria-hidden="true">
            {(1..).zip(groups).map(|(number, letters)| view! {
                <li class=if wrong == Some(number) { "wrong" } else { "" }><b>{letters}</b></li>
            }).collect_view()}
        </ol>
    }
    .into_any()
}
