//! The cook's dishes and the parts made ahead for them, and where a new one begins.

use leptos::prelude::*;

use crate::base::refusal::Refusal;
use crate::cards::demo_dish;
use crate::cards::recipe::{Recipe, Serves};
use crate::device::{address, clock};
use crate::parts::page::{Page, back_to};
use crate::parts::whole;
use crate::place::{DishSide, Place};
use crate::session::bench::Bench;
use crate::session::desk::Desk;
use crate::session::drawer::Drawer;
use crate::trade::plate::plate::Plate;

/// How many dishes, and how many parts, the list shows before it is asked for more.
const FIRST: usize = 20;

/// The list of dishes.
pub fn screen(bench: Bench, recipes: Drawer<Recipe>) -> AnyView {
    let refused = RwSignal::new(None::<String>);
    let go = move |begun: Result<String, Refusal>| match begun {
        Ok(id) => address::go(&Place::Dish(id, DishSide::Card)),
        Err(refusal) => refused.set(Some(refusal.to_string())),
    };
    let begin = move |serves| {
        let settings = bench.settings.get_untracked();
        go(recipes.begin(|now| Ok(Recipe::new(serves, now, &settings))));
    };
    let demo = move |_| {
        let settings = bench.settings.get_untracked();
        go(recipes
            .begin(|now| Ok(demo_dish::green_sauce(now, &settings)))
            .and_then(|sauce| {
                recipes.begin(|now| Ok(demo_dish::bream_plate(&sauce, now, &settings)))
            }));
    };
    let shown = RwSignal::new(FIRST);
    // One more than is shown tells that there are more.
    let latest = move |serves| -> Vec<String> {
        let ids = recipes.ids().into_iter();
        ids.filter(|id| recipes.with(id, |card| card.serves == serves) == Some(true))
            .take(shown.get().saturating_add(1))
            .collect()
    };
    let rows = move |serves| {
        let ids = latest(serves).into_iter().take(shown.get());
        ids.map(|id| row(Desk::of(bench, recipes, &id)))
            .collect_view()
    };
    let has = move |serves| !latest(serves).is_empty();
    let more = move || {
        [Serves::Covers, Serves::Amount]
            .into_iter()
            .any(|serves| latest(serves).len() > shown.get())
    };
    view! {
        <Page title="Dishes" above="Cost and order" dock=move || view! {
            {back_to(&Place::Home)}
            <button class="btn main tall next" on:click=move |_| begin(Serves::Covers)>"Write a dish"</button>
        }>
            {move || refused.get().map(|sentence| view! { <p class="fault" role="alert">{sentence}</p> })}
            {whole::once_read(recipes, move || view! {
                {move || (!has(Serves::Covers)).then(|| view! {
                    <div class="sheet">
                        <p class="lead">"Write down what goes on the plate, and read what a cover costs, what to sell it for and what to buy."</p>
                        <p class="soft">"A fish takes its yield and price from one you weighed, or from the published range."</p>
                    </div>
                })}
                {move || has(Serves::Covers).then(|| view! { <ul class="rows">{move || rows(Serves::Covers)}</ul> })}
                {move || has(Serves::Amount).then(|| view! {
                    <h2>"Made ahead"</h2>
                    <ul class="rows">{move || rows(Serves::Amount)}</ul>
                })}
                {move || more().then(|| view! {
                    <button class="btn plain" on:click=move |_| shown.update(|shown| *shown = shown.saturating_add(FIRST))>"Show earlier dishes"</button>
                })}
            }.into_any())}
            <div class="row">
                <button class="btn plain" on:click=move |_| begin(Serves::Amount)>"Write a part made ahead"</button>
                <a class="btn plain" href=Place::DishIn.to_string()>"Bring in a dish"</a>
                <button class="btn plain" on:click=demo>"Open the demo dish"</button>
            </div>
        </Page>
    }
    .into_any()
}

fn row(desk: Desk) -> AnyView {
    let (title, demo, begun) = desk.get(|card| (card.title(), card.demo, card.begun.0));
    let cost = desk.reading().and_then(|reading| {
        let plate = Plate::of(&reading.preparation).ok()?;
        let whole = reading.faults.is_empty() && !plate.lines.is_empty();
        whole.then(|| plate.per_cover().show())
    });
    let lines = match desk.get(|card| card.lines.len()) {
        0 => "no lines yet".to_owned(),
        1 => "1 line".to_owned(),
        count => format!("{count} lines"),
    };
    view! {
        <li><a class="item" href=desk.at(DishSide::Card).to_string()>
            <span class="grow"><b>{title}</b><small>{format!("{} · {lines}", clock::day(crate::base::instant::Instant(begun)))}</small></span>
            {demo.then(|| view! { <span class="tag">"Demo"</span> })}
            <span class="num" data-says="plate">{cost.unwrap_or_default()}</span>
        </a></li>
    }
    .into_any()
}

/// A dish that is not on this phone.
pub fn not_found() -> AnyView {
    view! {
        <Page title="This dish is not here" above="Dishes" dock=|| back_to(&Place::Dishes)>
            <p>"It may have been removed, or kept on another phone. Your other dishes are in the list."</p>
        </Page>
    }
    .into_any()
}
