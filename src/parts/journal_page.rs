//! The journal of one record, of whatever kind.

use leptos::prelude::*;

use super::choice::fault;
use super::page::{Page, back_to};
use super::photos::Photos;
use crate::base::instant::Instant;
use crate::device::{clock, download};
use crate::journal::{Journal, JournalTap};
use crate::place::Place;

/// A field of the journal: its name in the page, its question, and where it stands in the record.
struct Field {
    id: &'static str,
    fault: &'static str,
    ask: &'static str,
    text: fn(&Journal) -> &str,
    tap: fn(String) -> JournalTap,
}

const FIELDS: [Field; 3] = [
    Field {
        id: "went-well",
        fault: "went-well-fault",
        ask: "What went well?",
        text: |journal| &journal.went_well,
        tap: JournalTap::WentWell,
    },
    Field {
        id: "change",
        fault: "change-fault",
        ask: "What will you do differently next time?",
        text: |journal| &journal.note,
        tap: JournalTap::Note,
    },
    Field {
        id: "taste",
        fault: "taste-fault",
        ask: "How did it taste: skin, flesh, seasoning, sauce?",
        text: |journal| &journal.taste,
        tap: JournalTap::Taste,
    },
];

/// Whose journal it is, and what is to be shown and done.
pub struct Owner {
    /// The kind of the record.
    pub kind: &'static str,
    /// Its identity.
    pub id: String,
    /// What it is called.
    pub name: Signal<String>,
    /// When it was begun.
    pub begun: Signal<Instant>,
    /// Whether it is the demonstration.
    pub demo: Signal<bool>,
    /// Where the way back leads.
    pub back: Place,
    /// What the cook says of it.
    pub journal: Signal<Journal>,
    /// Takes a tap; answers what could not be done.
    pub send: Callback<JournalTap, Option<String>>,
    /// What the record itself tells, below the cook's own words.
    pub more: AnyView,
}

/// The journal of a record: photos, what went well, what to change and how it tasted; a page that prints.
pub fn page(owner: Owner) -> AnyView {
    let Owner {
        kind,
        id,
        name,
        begun,
        demo,
        back,
        journal,
        send,
        more,
    } = owner;
    let photos = Photos::of(kind, id);
    view! {
        <Page
            title=Signal::derive(move || format!("Journal of {}", name.get()))
            above=Signal::derive(move || clock::moment(begun.get()))
            demo=demo
            dock=move || view! {
                {back_to(&back)}
                {photos.add()}
            }
        >
            {photos.list(name)}
            <p class="soft small noprint">"A photo is made small on this phone, and where and with what it was taken is left out. It stays here."</p>
            {FIELDS.into_iter().map(|field| written(field, journal, send)).collect_view()}
            {more}
            <button class="btn noprint" on:click=|_| download::print()>"Print, or save as PDF"</button>
        </Page>
    }
    .into_any()
}

fn written(
    field: Field,
    journal: Signal<Journal>,
    send: Callback<JournalTap, Option<String>>,
) -> AnyView {
    let refused = RwSignal::new(None);
    let Field {
        id,
        fault: fault_id,
        ask,
        text,
        tap,
    } = field;
    // On paper a field would show no more than its first lines.
    view! {
        <div class="field noprint">
            <label for=id>{ask}</label>
            <textarea id=id aria-describedby=fault_id
                prop:value=move || journal.with(|journal| text(journal).to_owned())
                on:input:target=move |event| refused.set(send.run(tap(event.target().value())))></textarea>
            {fault(fault_id, move || refused.get())}
        </div>
        {move || journal.with(|journal| (!text(journal).trim().is_empty()).then(|| view! {
            <section class="paper"><h2>{ask}</h2><p class="lines">{text(journal).to_owned()}</p></section>
        }))}
    }
    .into_any()
}
