//! The journal of one fish or one dish: photos, what went well, what to change and how it tasted; a page that
//! prints.

use leptos::prelude::*;

use crate::cards::recipe::{Recipe, RecipeAction, Serves};
use crate::device::{clock, download};
use crate::fish::action::Action;
use crate::fish::record::Fish;
use crate::journal::{Journal, JournalTap};
use crate::parts::choice::fault;
use crate::parts::page::{Page, back_to};
use crate::parts::photos::Photos;
use crate::parts::plate_check;
use crate::place::{Place, Side, Stage};
use crate::screens::dish::plate;
use crate::screens::fish::costing;
use crate::screens::fish::summary;
use crate::session::desk::Desk;
use crate::session::hand::Hand;
use crate::store::entry::Entry;

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

/// Whose journal it is: the kind and id of the record, and what is to be shown and done.
struct Owner {
    kind: &'static str,
    id: String,
    name: Signal<String>,
    begun: Signal<crate::base::instant::Instant>,
    demo: Signal<bool>,
    back: Place,
    journal: Signal<Journal>,
    send: Callback<JournalTap, Option<String>>,
    /// What the record itself tells, below the cook's own words.
    more: AnyView,
}

/// The journal of a fish.
pub fn of_fish(hand: Hand) -> AnyView {
    let fish = hand.fish;
    let refused = RwSignal::new(None);
    let name = move |fish: &Fish| match fish.name() {
        name if name == "A fish" => "a fish".to_owned(),
        name => name.to_lowercase(),
    };
    page(Owner {
        kind: "fish",
        id: hand.id(),
        name: Signal::derive(move || fish.with(name)),
        begun: Signal::derive(move || fish.with(|fish| fish.begun)),
        demo: hand.demo(),
        back: hand.at(Stage::Summary),
        journal: Signal::derive(move || fish.with(Fish::journal)),
        send: Callback::new(move |tap| {
            hand.send(Action::Journal(tap), refused);
            refused.get_untracked()
        }),
        more: view! {
            {move || fish.with(costing::figures)}
            {move || fish.with(summary::plate)}
            {move || fish.with(cold)}
        }
        .into_any(),
    })
}

/// The journal of a dish, or of a part made ahead.
pub fn of_dish(desk: Desk) -> AnyView {
    let checks = desk.get(Recipe::plate_check);
    let journal = Signal::derive(move || desk.get(|card| card.journal.clone()));
    let send = Callback::new(move |tap| {
        desk.send(RecipeAction::Journal(tap));
        desk.refused.get_untracked()
    });
    let answer = Callback::new(move |tap| {
        send.run(tap);
    });
    let is_plate = desk.get(|card| card.serves) == Serves::Covers;
    let plate = is_plate.then(|| {
        view! {
            <section class="noprint">
                <h2>"The plate"</h2>
                {plate_check::questions(&checks, journal, answer)}
            </section>
            <div class="paper">{move || journal.with(|journal| plate_check::answers(&checks, &journal.plate))}</div>
        }
    });
    page(Owner {
        kind: Recipe::KIND,
        id: desk.id(),
        name: desk.title(),
        begun: Signal::derive(move || desk.get(|card| card.begun)),
        demo: desk.demo(),
        back: desk.at(Side::Card),
        journal,
        send,
        more: view! {
            {plate}
            {move || plate::cost(desk)}
        }
        .into_any(),
    })
}

fn page(owner: Owner) -> AnyView {
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

/// The time out of the fridge, as it stood when the fish was finished.
fn cold(fish: &Fish) -> AnyView {
    let Some(chill) = &fish.chill else {
        return ().into_any();
    };
    let sentence = chill.sentence(fish.finished.unwrap_or_else(clock::now));
    view! { <section class="sheet"><h2>"Out of the fridge"</h2><p>{sentence}</p></section> }
        .into_any()
}
