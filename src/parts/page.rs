//! The frame of every screen: head, body, and a dock within one thumb's reach.

use leptos::prelude::*;

use super::bench::{Bench, Notice};
use crate::device::update;
use crate::place::{Place, Stage};

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
    let bench = expect_context_bench();
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

/// The bench, which `screens::mount` provides before any screen is built.
#[must_use]
pub fn expect_context_bench() -> Bench {
    use_context::<Bench>().unwrap_or_else(Bench::empty)
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

/// What the cook has to know whatever the screen: a write that failed, a newer build.
#[component]
fn NoticeBar() -> impl IntoView {
    let bench = expect_context_bench();
    view! {
        <div role="status">
            {move || bench.notice.get().map(|notice| match notice {
                Notice::NotKept(sentence) => view! {
                    <div class="notice bad"><b>"Not kept"</b><p>{sentence}</p></div>
                }.into_any(),
                Notice::OlderBuild(sentence) => view! {
                    <div class="notice bad">
                        <p>{sentence}</p>
                        <div class="row">
                            <button class="btn" on:click=move |_| reload()>"Reload"</button>
                            <button class="btn plain" on:click=move |_| bench.take_over()>"Go on with this version"</button>
                        </div>
                    </div>
                }.into_any(),
                Notice::Told(sentence) => view! {
                    <div class="notice">
                        <p>{sentence}</p>
                        <div class="row"><button class="btn plain" on:click=move |_| bench.notice.set(None)>"All right"</button></div>
                    </div>
                }.into_any(),
            })}
            {move || bench.update_ready.get().then(|| {
                let cooking = !bench.cooking.with(Vec::is_empty);
                view! {
                    <div class="notice">
                        <p>{if cooking {
                            "A new version is ready. It waits until the service is over."
                        } else {
                            "A new version is ready. Nothing changes until you choose."
                        }}</p>
                        {(!cooking).then(|| view! {
                            <div class="row">
                                <button class="btn" on:click=move |_| update::take()>"Start the new version"</button>
                            </div>
                        })}
                    </div>
                }
            })}
        </div>
    }
}

fn reload() {
    // A browser that refuses to reload leaves the cook where the work is.
    let _ = window().location().reload();
}

/// A link in the dock that goes back.
pub fn back_to(place: &Place) -> impl IntoView + use<> {
    view! { <a class="btn plain tall back" href=place.to_string()>"Back"</a> }
}

/// The link in the dock that goes on.
pub fn on_to(place: &Place, words: &'static str) -> impl IntoView + use<> {
    view! { <a class="btn main tall next" href=place.to_string()>{words}</a> }
}
