//! The cook's own tests as a table for a spreadsheet, and back.

use leptos::prelude::*;
use wasm_bindgen_futures::spawn_local;

use super::choice::fault;
use super::refusals::NoTableFile;
use crate::compare::table;
use crate::compare::taken::Brought;
use crate::device::{clock, download, launch, photo, text_file};
use crate::fish::record::Fish;
use crate::session::asked::ask;
use crate::session::bench::Bench;
use crate::session::gathered;
use crate::work::tables::{In, Out};

/// How many lines of what will be added are shown.
const SHOWN: usize = 12;

/// Saving all tests as a table, and bringing tests from one.
pub fn save_and_bring(bench: Bench) -> AnyView {
    let refused = RwSignal::new(None::<String>);
    let brought = RwSignal::new(None::<Brought>);
    let done = RwSignal::new(None::<String>);
    // The screen may go while an answer is waited for.
    let said = move |sentence: Option<String>| {
        let _ = refused.try_set(sentence);
    };
    let save = move |_| {
        spawn_local(async move {
            let answer = ask(&Out {
                fish: gathered::fish(bench).await,
            })
            .await;
            match answer {
                Some(Ok(text)) if download::table("yield-tests.csv", &text) => said(None),
                Some(Err(refusal)) => said(Some(refusal.to_string())),
                Some(Ok(_)) => said(Some("The browser did not take the file.".to_owned())),
                // It was asked for again.
                None => {}
            }
        });
    };
    let template = move |_| {
        let saved = download::table("yield-tests-empty.csv", table::TEMPLATE);
        said((!saved).then(|| "The browser did not take the file.".to_owned()));
    };
    let read = move |file: web_sys::File| {
        spawn_local(async move {
            let answer = match text_file::read(file).await {
                None => Err(NoTableFile::Unread.into()),
                Some(text) => {
                    let table = In {
                        fish: gathered::fish(bench).await,
                        text,
                        settings: bench.settings.get_untracked(),
                        today: clock::dated(),
                    };
                    let Some(answer) = ask(&table).await else {
                        return;
                    };
                    answer
                }
            };
            let (sorted, sentence) = match answer {
                Ok(sorted) => (Some(sorted), None),
                Err(refusal) => (None, Some(refusal.to_string())),
            };
            said(sentence);
            let _ = done.try_set(None);
            let _ = brought.try_set(sorted);
        });
    };
    // A table that was opened with this app from among the phone's files.
    launch::on_file(read);
    let add = move |_| {
        let Some(Brought { new, .. }) = brought.get_untracked() else {
            return;
        };
        let all = new.len();
        let new = new.into_iter().map(|fish| (fish.id.clone(), fish));
        let new = new.collect();
        brought.set(None);
        spawn_local(async move {
            let kept = bench.fish.adopt(new).await;
            let _ = done.try_set(Some(if kept == all {
                format!("{} added.", tests(kept))
            } else {
                format!("{} of {all} added: this phone did not take more. Make room, then bring the table again.", tests(kept))
            }));
        });
    };
    view! {
        <section class="sheet noprint">
            <h2>"As a table"</h2>
            <p class="soft small">"Opens in any spreadsheet: one line a test, what you keyed and what is worked out from it. A table brought back adds what is not here yet and changes nothing that is."</p>
            <details>
                <summary>"Columns of a table of your own"</summary>
                <p class="small" data-typed="">"Needed: fish, form, delivered, ready. Grams, or a weight with its unit. Form: whole, gutted, gutted and scaled, headed and gutted. Of use: begun (a day), price (15.40, €15,40/kg), off the bone, fish together, note. In any order."</p>
                <button class="btn plain" on:click=template>"Save an empty table"</button>
            </details>
            <div class="row">
                <button class="btn" on:click=save>"Save as a table (CSV)"</button>
                <label class="btn plain pick">
                    <input id="bring-tests" type="file" accept=".csv,text/csv,text/plain" on:change:target=move |event| { photo::chosen(&event.target()).map(read); }/>
                    "Bring tests from a table"
                </label>
            </div>
            {fault("table-fault", move || refused.get())}
            <div role="status">
                {move || done.get().map(|sentence| view! { <p class="notice">{sentence}</p> })}
                {move || brought.with(|brought| brought.as_ref().map(told))}
            </div>
            {move || brought.with(|brought| brought.as_ref().map(|brought| brought.new.len())).map(|new| view! {
                <div class="row">
                    <button class="btn plain" on:click=move |_| brought.set(None)>"Leave it"</button>
                    {(new > 0).then(|| view! { <button class="btn main" on:click=add>{format!("Add {}", tests(new))}</button> })}
                </div>
            })}
        </section>
    }
    .into_any()
}

fn tests(count: usize) -> String {
    match count {
        1 => "1 test".to_owned(),
        count => format!("{count} tests"),
    }
}

/// What a table would bring, before anything is kept.
fn told(brought: &Brought) -> AnyView {
    let head = match brought.new.len() {
        0 => "Nothing new in this table.".to_owned(),
        new => format!("{} will be added:", tests(new)),
    };
    let mut new: Vec<String> = brought.new.iter().take(SHOWN).map(line_of).collect();
    if brought.new.len() > SHOWN {
        new.push(format!(
            "and {} more",
            brought.new.len().saturating_sub(SHOWN)
        ));
    }
    let known = match brought.known.len() {
        0 => None,
        known => Some(format!("Here already: {}.", tests(known))),
    };
    let differing = brought.differing.iter().map(|(line, name)| {
        format!("Line {line}: {name} is here with other figures, and stays as it is on this phone.")
    });
    let refused = brought
        .refused
        .iter()
        .map(|(line, why)| format!("Line {line}: {why}"));
    let aside = (!brought.aside.is_empty()).then(|| {
        format!(
            "Columns that mean nothing here: {}.",
            brought.aside.join(", ")
        )
    });
    let unread = brought.unread_from.map(|line| {
        format!("The table is too long: it was read up to line {line}. Bring the rest from there.")
    });
    let odd = brought.odd.iter();
    let odd = odd.map(|(line, why)| format!("Line {line} is added: {why}"));
    let faults: Vec<String> = differing.chain(refused).chain(odd).collect();
    view! {
        <div class="notice">
            <b>{head}</b>
            {list(new)}
            {known.map(|sentence| view! { <p>{sentence}</p> })}
            {aside.map(|sentence| view! { <p class="breaks">{sentence}</p> })}
            {unread.map(|sentence| view! { <p class="fault">{sentence}</p> })}
            {(!faults.is_empty()).then(|| view! { <b>{format!("To look at: {}", faults.len())}</b> })}
            {list(faults)}
        </div>
    }
    .into_any()
}

fn line_of(fish: &Fish) -> String {
    let form = fish.slip.form.map_or("", |form| form.name());
    let ratio = fish.breakdown().and_then(Result::ok);
    let ratio = ratio.map(|breakdown| crate::trade::rounding::percent(breakdown.yield_ratio(), 1));
    format!("{}, {form}: {}", fish.name(), ratio.unwrap_or_default())
}

fn list(lines: Vec<String>) -> AnyView {
    if lines.is_empty() {
        return ().into_any();
    }
    view! {
        <ul class="plain-list small">{lines.into_iter().map(|line| view! { <li class="breaks">{line}</li> }).collect_view()}</ul>
    }
    .into_any()
}
