//! The frame of every screen: head, body, and a dock within one thumb's reach.

use leptos::prelude::*;

use super::mark;
use super::notice::NoticeBar;
use crate::device::address;
use crate::fish::record::Fish;
use crate::place::{Place, Stage};
use crate::session::bench::Bench;
use crate::session::hand::Hand;

/// A screen with its head, its body and its dock.
///
/// The head of a fish's screen is the way to its numbers and stages; `at` marks how far along the job it is.
#[component]
pub fn Page(
    /// What the screen is called: its heading and the name of the page.
    #[prop(into)]
    title: Signal<String>,
    /// What stands above the heading.
    #[prop(into)]
    above: Signal<String>,
    /// The stage of the job, for the line that shows how far it has come.
    #[prop(optional)]
    at: Option<Stage>,
    /// Whether this is the demonstration.
    #[prop(optional, into)]
    demo: Signal<bool>,
    /// The buttons of the dock.
    #[prop(optional, into)]
    dock: ViewFn,
    /// What the screen shows.
    children: Children,
) -> impl IntoView {
    let bench = Bench::here();
    let place = bench.place.get_untracked();
    let is_home = place == Place::Home;
    Effect::new(move |_| crate::device::focus::name_page(&title.get()));
    let named = move || {
        view! {
            <b>{move || above.get()}</b>
            {move || demo.get().then(|| view! { <span class="tag">"Demo: invented figures"</span> })}
        }
    };
    let head = match numbers_of(bench, &place) {
        // The dots are the stages of a fish: the service of a dish alone has few of them.
        Some((numbers, alone)) => view! {
            <a class="job" href=numbers.to_string()>
                {mark::stages()}
                <span class="where">
                    {named()}
                    {at.filter(|_| !alone).map(along)}
                </span>
                <span class="unseen">{Stage::Summary.name()}</span>
            </a>
        }
        .into_any(),
        None => view! { <p class="where">{named()}</p> }.into_any(),
    };
    view! {
        <div class="page">
            <header class="head">
                {head}
                {if is_home {
                    view! { <a class="corner" href="#/settings" aria-label="Settings">{mark::settings()}</a> }
                } else {
                    view! { <a class="corner" href="#/" aria-label="All fish">{mark::all_fish()}</a> }
                }}
            </header>
            <NoticeBar/>
            <main>
                <h1 tabindex="-1">{move || title.get()}</h1>
                {children()}
                <button class="btn plain says-who">"Says who?"</button>
            </main>
            <nav class="dock" aria-label="Go on">
                <div class="row">{dock.run()}</div>
            </nav>
        </div>
    }
}

/// The numbers and stages of the fish that a screen is about, and whether it is the service of a dish alone; nothing
/// where it is about none, or where they are what is shown.
fn numbers_of(bench: Bench, place: &Place) -> Option<(Place, bool)> {
    match place {
        Place::Fish(id, stage) if *stage != Stage::Summary => {
            let hand = Hand::of(bench, id)?;
            let alone = hand.fish.with_untracked(Fish::is_alone);
            Some((hand.at(Stage::Summary), alone))
        }
        _ => None,
    }
}

fn along(at: Stage) -> impl IntoView {
    let here = Stage::JOB
        .iter()
        .position(|stage| std::mem::discriminant(stage) == std::mem::discriminant(&at));
    view! {
        <span class="along" aria-hidden="true">
            {(0..Stage::JOB.len())
                .map(|place| {
                    let class = match here {
                        Some(here) if place < here => "past",
                        Some(here) if place == here => "here",
                        _ => "",
                    };
                    view! { <i class=class></i> }
                })
                .collect_view()}
        </span>
    }
}

/// A link in the dock that goes back. Where the cook came from there, it is the phone's own Back, so that a second one
/// does not bring this screen again.
pub fn back_to(place: &Place) -> impl IntoView + use<> {
    let (href, place) = (place.to_string(), place.clone());
    let back = move |event: leptos::ev::MouseEvent| {
        if address::back_if_at(&place) {
            event.prevent_default();
        }
    };
    view! { <a class="btn plain tall back" href=href on:click=back>"Back"</a> }
}

/// A button in the dock that goes back to wherever the cook came from; to `place` where this page was opened here.
pub fn back_or(place: Place) -> impl IntoView {
    view! { <button class="btn plain tall back" on:click=move |_| address::back_or(&place)>"Back"</button> }
}

/// The link in the dock that goes on.
pub fn on_to(place: &Place, words: &'static str) -> impl IntoView + use<> {
    view! { <a class="btn main tall next" href=place.to_string()>{words}</a> }
}
