//! How the app comes to the home screen, where that matters: beside what is kept, and above the list while it is new.

use leptos::prelude::*;
use wasm_bindgen_futures::spawn_local;

use crate::device::install;
use crate::keep::home_screen;
use crate::place::Place;
use crate::session::bench::Bench;

/// What is gained by it, and how it is done here.
pub fn section() -> AnyView {
    let there = RwSignal::new(install::is_installed());
    let asks = RwSignal::new(install::can_ask());
    let ask = move |_| {
        spawn_local(async move {
            let yes = install::asked().await;
            there.try_set(yes);
            asks.try_set(false);
        });
    };
    let how = home_screen::how(&install::agent());
    view! {
        <section class="sheet">
            <h2>"On the home screen"</h2>
            <div role="status" class="stack">
                {move || if there.get() {
                    view! { <p>"Scaleside is on the home screen of this phone."</p> }.into_any()
                } else {
                    view! {
                        <p>"From there it starts without a signal and fills the screen, and most phones keep what is in it."</p>
                        {move || if asks.get() {
                            view! { <button class="btn" on:click=ask>"Add to the home screen"</button> }.into_any()
                        } else {
                            view! { <p>{how}</p> }.into_any()
                        }}
                    }
                    .into_any()
                }}
            </div>
        </section>
    }
    .into_any()
}

/// A word above the list of fish, with the first of the cook's own.
pub fn word(bench: Bench) -> impl IntoView {
    let due = move || {
        let ids = bench.fish.ids().into_iter().take(home_screen::LOOKED_AT);
        let is_own = |id: &String| bench.fish.with(id, |fish| !fish.demo) == Some(true);
        home_screen::is_due(ids.filter(is_own).count()) && !install::is_installed()
    };
    move || {
        due().then(|| {
            view! {
                <a class="item reminder" href=Place::Kept.to_string()>
                    <span class="grow"><b>"Add Scaleside to the home screen"</b><small>"It starts from there without a signal."</small></span>
                </a>
            }
        })
    }
}
