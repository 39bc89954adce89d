//! What the cook has to know whatever the screen, above every screen.

use leptos::prelude::*;

use crate::device::update;
use crate::place::Place;
use crate::session::bench::Bench;
use crate::session::notice::Notice;

/// What the cook has to know whatever the screen: a write that failed, a newer build.
#[component]
pub fn NoticeBar() -> impl IntoView {
    let bench = Bench::here();
    view! {
        <div role="status">
            {move || bench.notice.get().map(|notice| match notice {
                Notice::NotKept(sentence) => view! {
                    <div class="notice bad">
                        <b>"Not kept"</b>
                        <p>{sentence}</p>
                        <a href=Place::Kept.to_string()>"Save everything as a file, before this page is closed"</a>
                    </div>
                }.into_any(),
                Notice::OlderBuild(sentence) => view! {
                    <div class="notice bad">
                        <p>{sentence}</p>
                        <div class="row">
                            <button class="btn" on:click=move |_| reload()>"Reload"</button>
                            <button class="btn plain" on:click=move |_| bench.drawers.take_over()>"Go on with this version"</button>
                        </div>
                    </div>
                }.into_any(),
                Notice::Undo { sentence, copy, put_back } => view! {
                    <div class="notice">
                        <p>{sentence}</p>
                        <div class="row">
                            <button class="btn" on:click=move |_| bench.notice.set(Some(Notice::Told(put_back(&copy))))>"Put it back"</button>
                            <button class="btn plain" on:click=move |_| bench.notice.set(None)>"All right"</button>
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
                            "A new version is ready. It waits until the service is over, or until Scaleside was closed."
                        } else {
                            "A new version is ready. It starts when you choose, or once Scaleside was closed."
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

/// Takes the offer to put a record back away with the list it was offered above.
pub fn pass_by(bench: Bench, place: &Place) {
    let is_list = matches!(place, Place::Home | Place::Classes | Place::Dishes);
    let offered = |notice: &Option<Notice>| matches!(notice, Some(Notice::Undo { .. }));
    if !is_list && bench.notice.with_untracked(offered) {
        bench.notice.set(None);
    }
}
