//! A dish from another kitchen: pasted or read from a file, looked over, then kept.

use std::collections::BTreeMap;

use leptos::prelude::*;
use wasm_bindgen_futures::spawn_local;

use crate::base::refusal::Refusal;
use crate::cards::exchange::{Imported, read};
use crate::cards::recipe::Recipe;
use crate::device::{address, clock, photo, text_file};
use crate::parts::page::{Page, back_to};
use crate::place::{DishSide, Place};
use crate::session::bench::Bench;
use crate::session::drawer::Drawer;

/// Where a dish comes in.
pub fn screen(bench: Bench, recipes: Drawer<Recipe>) -> AnyView {
    let pasted = RwSignal::new(String::new());
    let refused = RwSignal::new(None::<String>);
    let found = RwSignal::new(None::<Imported>);
    let look = move |text: &str| {
        let settings = bench.settings.get_untracked();
        match read(text, clock::now(), &settings) {
            Ok(imported) => {
                refused.set(None);
                found.set(Some(imported));
            }
            Err(refusal) => {
                found.set(None);
                refused.set(Some(refusal.to_string()));
            }
        }
    };
    let chosen = move |field: web_sys::HtmlInputElement| {
        if let Some(file) = photo::chosen(&field) {
            spawn_local(async move {
                match text_file::read(file).await {
                    // The screen may have gone meanwhile.
                    _ if pasted.try_get_untracked().is_none() => {}
                    Some(text) => look(&text),
                    None => refused.set(Some(
                        "This file can't be read as text: choose a .jsonld or .json file."
                            .to_owned(),
                    )),
                }
            });
        }
    };
    let keep = move |_| {
        let outcome =
            found.with_untracked(|found| found.as_ref().map(|found| kept(recipes, found)));
        match outcome {
            Some(Ok(id)) => address::replace(&Place::Dish(id, DishSide::Card)),
            Some(Err(refusal)) => refused.set(Some(refusal.to_string())),
            None => {}
        }
    };
    view! {
        <Page title="Bring in a dish" above="Dishes" dock=move || view! {
            {back_to(&Place::Dishes)}
            {move || if found.with(Option::is_some) {
                view! { <button class="btn main tall next" on:click=keep>"Keep this dish"</button> }.into_any()
            } else {
                view! { <button class="btn main tall next" on:click=move |_| look(&pasted.get_untracked())>"Read it"</button> }.into_any()
            }}
        }>
            <p class="soft">"A dish as schema.org/Recipe in JSON-LD. Nothing is kept before you have looked it over."</p>
            <div class="field">
                <label for="dish-text">"Paste it here"</label>
                <textarea id="dish-text" autocomplete="off" spellcheck="false" aria-describedby="dish-text-fault" prop:value=move || pasted.get()
                    on:input:target=move |event| { found.set(None); refused.set(None); pasted.set(event.target().value()); }></textarea>
                <div id="dish-text-fault" aria-live="polite">{move || refused.get().map(|sentence| view! { <p class="fault">{sentence}</p> })}</div>
            </div>
            <label class="btn plain pick">
                <input type="file" accept=".jsonld,.json,application/ld+json,application/json" on:change:target=move |event| chosen(event.target())/>
                "Choose a file"
            </label>
            <div role="status">{move || found.with(|found| found.as_ref().map(told))}</div>
        </Page>
    }
    .into_any()
}

/// Keeps the parts first, then the dish that names them. Returns the identity of the dish.
fn kept(recipes: Drawer<Recipe>, found: &Imported) -> Result<String, Refusal> {
    let mut identities = BTreeMap::new();
    let mut last = String::new();
    for (mark, card) in &found.cards {
        let card = Imported::with_identities(card, &identities);
        last = recipes.begin(|_| Ok(card))?;
        identities.insert(mark.clone(), last.clone());
    }
    Ok(last)
}

fn told(found: &Imported) -> AnyView {
    let list = |title: &'static str, lines: &[String]| {
        let lines = lines.to_vec();
        (!lines.is_empty()).then(|| {
            view! {
                <b>{title}</b>
                <ul class="plain-list small">{lines.into_iter().map(|line| view! { <li class="breaks">{line}</li> }).collect_view()}</ul>
            }
        })
    };
    view! {
        <section class="notice">
            <h2>{found.dish().map(Recipe::title).unwrap_or_default()}</h2>
            {list("Understood", &found.taken)}
            {list("Not understood, or left out", &found.left)}
        </section>
    }
    .into_any()
}
