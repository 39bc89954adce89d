//! The list of fish, and where a new one begins.

use leptos::prelude::*;

use super::door;
use crate::device::{address, clock};
use crate::fish::demo;
use crate::fish::record::Fish;
use crate::parts::page::Page;
use crate::place::{Place, Stage};
use crate::session::bench::Bench;
use crate::session::hand::Hand;
use crate::trade::reading::YieldReading;
use crate::trade::rounding;

/// How many fish the list shows before it is asked for more.
const FIRST: usize = 20;

/// What lies beside the one fish.
const SHELVES: [(Place, &str, &str); 4] = [
    (
        Place::Dishes,
        "Dishes and orders",
        "What a cover costs, and what to buy",
    ),
    (
        Place::Compare { demo: false },
        "Compare your fish",
        "Which is cheapest to eat, what the next will give",
    ),
    (
        Place::Classes,
        "For tutors: classes",
        "Students' results side by side",
    ),
    (
        Place::About,
        "Cautions and sources",
        "What can hurt, and where figures come from",
    ),
];

/// The list of fish.
pub fn screen(bench: Bench) -> AnyView {
    let refused = RwSignal::new(None::<String>);
    let begin = move |make: fn(
        String,
        crate::base::instant::Instant,
        &crate::fish::settings::Settings,
    ) -> Fish| {
        match bench.begin(make) {
            Ok(place) => address::go(&place),
            Err(refusal) => refused.set(Some(refusal.to_string())),
        }
    };
    let shown = RwSignal::new(FIRST);
    let empty = move || bench.fish.ids().is_empty();
    let latest = move || {
        let mut ids = bench.fish.ids();
        ids.truncate(shown.get());
        ids
    };
    view! {
        <Page
            title="Your fish"
            above="Scaleside"
            dock=move || view! {
                <button class="btn main tall next" on:click=move |_| begin(Fish::new)>"Start a fish"</button>
            }
        >
            {move || refused.get().map(|sentence| view! { <p class="fault" role="alert">{sentence}</p> })}
            {move || empty().then(|| view! {
                <section class="sheet">
                    <p class="lead">"Buy one whole fish, weigh it, fillet it, and see what it really gave and what a portion costs."</p>
                    <p class="soft">"Everything stays on this phone. Try the demo first."</p>
                </section>
            })}
            <ul class="rows">
                {move || latest().iter().map(|id| row(bench, id)).collect_view()}
            </ul>
            {move || (bench.fish.ids().len() > shown.get()).then(|| view! {
                <button class="btn plain" on:click=move |_| shown.update(|shown| *shown = shown.saturating_add(FIRST))>"Show earlier fish"</button>
            })}
            <button class="btn plain" on:click=move |_| begin(demo::bream)>"Open the demo"</button>
            <ul class="rows">
                {SHELVES.iter().map(|(place, name, about)| view! {
                    <li>
                        <a class="item" href=place.to_string()>
                            <span class="grow"><b>{*name}</b><small>{*about}</small></span>
                            <span class="soft" aria-hidden="true">"›"</span>
                        </a>
                    </li>
                }).collect_view()}
            </ul>
            // It comes a moment later than the list, which must not move under a thumb.
            {door::reminder(bench)}
        </Page>
    }
    .into_any()
}

fn row(bench: Bench, id: &str) -> AnyView {
    let Some(hand) = Hand::of(bench, id) else {
        return ().into_any();
    };
    let fish = hand.fish;
    let href = move || {
        let stage = fish.with(Fish::next_stage);
        hand.at(stage).to_string()
    };
    view! {
        <li>
            <a class=move || if fish.with(Fish::is_cooking) { "item here" } else { "item" } href=href>
                <span class="grow">
                    <b>{move || fish.with(Fish::name)}</b>
                    <small>{move || fish.with(line)}</small>
                </span>
                {move || fish.with(|fish| fish.demo).then(|| view! { <span class="tag">"Demo"</span> })}
                <span class="num" data-says="yield">{move || fish.with(yield_words)}</span>
            </a>
        </li>
    }
    .into_any()
}

fn line(fish: &Fish) -> String {
    let stage = fish.next_stage();
    let state = if stage == Stage::Summary && fish.run.is_some() && fish.plate.is_empty() {
        "finished, plate not checked".to_owned()
    } else if stage == Stage::Summary {
        "finished".to_owned()
    } else {
        format!("next: {}", stage.name().to_ascii_lowercase())
    };
    let together = match fish.slip.read_count() {
        _ if fish.is_alone() => " · service".to_owned(),
        Ok(count @ 2..) => format!(" · {count} fish together"),
        _ => String::new(),
    };
    format!("{}{together} · {state}", clock::day(fish.begun))
}

fn yield_words(fish: &Fish) -> String {
    match fish.breakdown() {
        Some(Ok(breakdown)) => {
            let decimals = YieldReading::of(&breakdown, fish.slip.scale).percent_decimals();
            rounding::percent(breakdown.yield_ratio(), decimals)
        }
        _ => String::new(),
    }
}
