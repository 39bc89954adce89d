//! The frame of every screen: head, body, and a dock within one thumb's reach.

use leptos::prelude::*;

use super::notice::NoticeBar;
use crate::place::{Place, Stage};
use crate::session::bench::Bench;

/// A screen with its head, its body and its dock.
///
/// `where_` names the fish or the part of the app above the heading; `at` marks how far along the job it is.
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
    let is_home = bench.place.with_untracked(|place| *place == Place::Home);
    Effect::new(move |_| crate::device::focus::name_page(&title.get()));
    view! {
        <div class="page">
            <header class="head">
                {(!is_home).then(|| view! {
                    <a class="corner" href="#/" aria-label="All fish">"☰"</a>
                })}
                <p class="where">
                    <b>{move || above.get()}</b>
                    {move || demo.get().then(|| view! { <span class="tag">"Demo: invented figures"</span> })}
                </p>
                {is_home.then(|| view! {
                    <a class="corner" href="#/settings" aria-label="Settings">"⚙\u{fe0e}"</a>
                })}
            </header>
            {at.map(along)}
            <NoticeBar/>
            <main>
                <h1 tabindex="-1">{move || title.get()}</h1>
                {children()}
            </main>
            <nav class="dock" aria-label="Go on">
                <div class="row">{dock.run()}</div>
            </nav>
        </div>
    }
}

fn along(at: Stage) -> impl IntoView {
    let here = Stage::JOB
        .iter()
        .position(|stage| std::mem::discriminant(stage) == std::mem::discriminant(&at));
    view! {
        <div class="along" aria-hidden="true">
            {Stage::JOB
                .iter()
                .enumerate()
                .map(|(place, _)| {
                    let class = match here {
                        Some(here) if place < here => "past",
                        Some(here) if place == here => "here",
                        _ => "",
                    };
                    view! { <i class=class></i> }
                })
                .collect_view()}
        </div>
    }
}

/// A link in the dock that goes back.
pub fn back_to(place: &Place) -> impl IntoView + use<> {
    view! { <a class="btn plain tall back" href=place.to_string()>"Back"</a> }
}

/// The link in the dock that goes on.
pub fn on_to(place: &Place, words: &'static str) -> impl IntoView + use<> {
    view! { <a class="btn main tall next" href=place.to_string()>{words}</a> }
}
