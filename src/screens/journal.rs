//! The journal of one fish: photos, what went well, what to change and how it tasted; a page that prints.

use leptos::prelude::*;

use super::{Hand, costing, summary};
use crate::device::{clock, download};
use crate::parts::choice::fault;
use crate::parts::page::{Page, back_to};
use crate::parts::photos::Photos;
use crate::place::Stage;
use crate::record::action::Action;
use crate::record::fish::Fish;

/// A field of the journal: its name in the page, its question, and where it stands in the record.
struct Field {
    id: &'static str,
    ask: &'static str,
    text: fn(&Fish) -> &str,
    action: fn(String) -> Action,
}

const FIELDS: [Field; 3] = [
    Field {
        id: "went-well",
        ask: "What went well?",
        text: |fish| &fish.went_well,
        action: Action::WentWell,
    },
    Field {
        id: "change",
        ask: "What will you do differently next time?",
        text: |fish| &fish.note,
        action: Action::Note,
    },
    Field {
        id: "taste",
        ask: "How did it taste: skin, flesh, seasoning, sauce?",
        text: |fish| &fish.taste,
        action: Action::Taste,
    },
];

/// The journal of a fish.
pub fn screen(hand: Hand) -> AnyView {
    let fish = hand.fish;
    let photos = Photos::of("fish", hand.id.get_value());
    view! {
        <Page
            title=Signal::derive(move || format!("Journal of {}", fish.with(named)))
            above=Signal::derive(move || fish.with(|fish| format!("{} at {}", clock::day(fish.begun), clock::time_of_day(fish.begun))))
            demo=hand.demo()
            dock=move || view! {
                {back_to(&hand.at(Stage::Summary))}
                {photos.add()}
            }
        >
            {photos.list(hand.name())}
            <p class="soft small noprint">"A photo is made small on this phone, and where and with what it was taken is left out. It stays here."</p>
            {FIELDS.into_iter().map(|field| written(hand, field)).collect_view()}
            {move || fish.with(costing::figures)}
            {move || fish.with(summary::plate)}
            {move || fish.with(cold)}
            <button class="btn noprint" on:click=|_| download::print()>"Print, or save as PDF"</button>
        </Page>
    }
    .into_any()
}

fn named(fish: &Fish) -> String {
    match fish.name() {
        name if name == "A fish" => "a fish".to_owned(),
        name => name.to_lowercase(),
    }
}

fn written(hand: Hand, field: Field) -> AnyView {
    let fish = hand.fish;
    let refused = RwSignal::new(None);
    let fault_id: &'static str = match field.id {
        "went-well" => "went-well-fault",
        "change" => "change-fault",
        _ => "taste-fault",
    };
    // On paper a field would show no more than its first lines.
    view! {
        <div class="field noprint">
            <label for=field.id>{field.ask}</label>
            <textarea id=field.id aria-describedby=fault_id
                prop:value=move || fish.with(|fish| (field.text)(fish).to_owned())
                on:input:target=move |event| { hand.send((field.action)(event.target().value()), refused); }></textarea>
            {fault(fault_id, move || refused.get())}
        </div>
        {move || fish.with(|fish| (!(field.text)(fish).trim().is_empty()).then(|| view! {
            <section class="paper"><h2>{field.ask}</h2><p class="lines">{(field.text)(fish).to_owned()}</p></section>
        }))}
    }
    .into_any()
}

/// The time out of the fridge, as it stood when the fish was finished.
fn cold(fish: &Fish) -> AnyView {
    let Some(chill) = &fish.chill else {
        return ().into_any();
    };
    let sentence = chill.sentence(fish.finished.unwrap_or_else(clock::now));
    view! { <section class="sheet"><h2>"Out of the fridge"</h2><p>{sentence}</p></section> }
        .into_any()
}
