//! A tap that asks once more before something is taken away.

use leptos::prelude::*;

use crate::device::focus;

/// A quiet button that asks `question` before it does what `yes` says.
pub fn sure(
    button: &'static str,
    question: &'static str,
    yes: &'static str,
    act: Callback<()>,
) -> AnyView {
    let asked = RwSignal::new(false);
    let ask = move |_| {
        asked.set(true);
        focus::to_question();
    };
    let go_on = move |_| {
        asked.set(false);
        act.run(());
    };
    view! {
        {move || if asked.get() {
            view! {
                <div class="doubt asked noprint">
                    <p>{question}</p>
                    <div class="row">
                        <button class="btn plain" aria-keyshortcuts="Escape" on:click=move |_| asked.set(false)>"Keep it"</button>
                        <button class="btn hot" on:click=go_on>{yes}</button>
                    </div>
                </div>
            }.into_any()
        } else {
            view! { <button class="btn bare noprint" on:click=ask>{button}</button> }.into_any()
        }}
    }
    .into_any()
}
