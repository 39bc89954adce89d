//! A tap that asks once more before something is taken away.

use leptos::prelude::*;

/// A quiet button that asks `question` before it does what `yes` says.
pub fn sure(
    button: &'static str,
    question: &'static str,
    yes: &'static str,
    act: Callback<()>,
) -> AnyView {
    let asked = RwSignal::new(false);
    let go_on = move |_| {
        asked.set(false);
        act.run(());
    };
    view! {
        {move || if asked.get() {
            view! {
                <div class="doubt noprint">
                    <p>{question}</p>
                    <div class="row">
                        <button class="btn plain" on:click=move |_| asked.set(false)>"Keep it"</button>
                        <button class="btn hot" on:click=go_on>{yes}</button>
                    </div>
                </div>
            }.into_any()
        } else {
            view! { <button class="btn bare noprint" on:click=move |_| asked.set(true)>{button}</button> }.into_any()
        }}
    }
    .into_any()
}
