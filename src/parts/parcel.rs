//! A text to give out: buttons that copy and share it, and what came of it.

use leptos::prelude::*;

use crate::device::send::{self, Sent};

/// The buttons for a text, with the link that goes with it where there is one.
pub fn buttons(
    copy_words: &'static str,
    text: impl Fn() -> String + Copy + Send + Sync + 'static,
    link: impl Fn() -> Option<String> + Copy + Send + Sync + 'static,
) -> AnyView {
    let sent = RwSignal::new(None);
    // The answer may come after the screen has gone.
    let report = move |came| {
        let _ = sent.try_set(Some(came));
    };
    view! {
        <div class="row wrap noprint">
            <button class="btn" on:click=move |_| send::copy(&text(), report)>{copy_words}</button>
            {send::can_share().then(|| view! {
                <button class="btn" on:click=move |_| send::share(&text(), link().as_deref(), report)>"Share…"</button>
            })}
        </div>
        <p class="soft small" role="status">{move || sent.get().map(said)}</p>
    }
    .into_any()
}

fn said(sent: Sent) -> &'static str {
    match sent {
        Sent::Copied => "Copied: paste it into a message.",
        Sent::Shared => "Handed on.",
        Sent::Refused => {
            "The browser did not take it: hold a finger on the text and copy it yourself."
        }
    }
}
