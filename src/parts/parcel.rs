//! A text to give out: buttons that copy and share it, and what came of it.

use leptos::prelude::*;

use crate::device::send::{self, Sent};

/// A text, the link that goes with it where there is one, and what came of giving it out.
#[derive(Clone, Copy, PartialEq)]
pub struct Parcel {
    text: StoredValue<String>,
    link: StoredValue<Option<String>>,
    sent: RwSignal<Option<Sent>>,
}

impl Parcel {
    /// A text to give out.
    #[must_use]
    pub fn new(text: String, link: Option<String>) -> Self {
        Self {
            text: StoredValue::new(text),
            link: StoredValue::new(link),
            sent: RwSignal::new(None),
        }
    }

    /// Copies the text. Works only inside a tap.
    pub fn copy(self) {
        send::copy(&self.text.get_value(), self.report());
    }

    /// Opens the share sheet, or copies where there is none. Works only inside a tap.
    pub fn send(self) {
        if send::can_share() {
            let link = self.link.get_value();
            send::share(&self.text.get_value(), link.as_deref(), self.report());
        } else {
            self.copy();
        }
    }

    /// The buttons of the text.
    pub fn buttons(self, copy_words: &'static str) -> AnyView {
        let share = view! { <button class="btn" on:click=move |_| self.send()>"Share…"</button> };
        self.row(copy_words, send::can_share().then_some(share).into_any())
    }

    /// What the main button of the dock leaves over: the copying, where that button shares.
    pub fn beside_dock(self, copy_words: &'static str) -> AnyView {
        if send::can_share() {
            self.row(copy_words, ().into_any())
        } else {
            self.came()
        }
    }

    fn row(self, copy_words: &'static str, more: AnyView) -> AnyView {
        view! {
            <div class="row noprint">
                <button class="btn" on:click=move |_| self.copy()>{copy_words}</button>
                {more}
            </div>
            {self.came()}
        }
        .into_any()
    }

    /// What came of giving it out.
    fn came(self) -> AnyView {
        view! { <p class="soft small" role="status">{move || self.sent.get().map(said)}</p> }
            .into_any()
    }

    fn report(self) -> impl Fn(Sent) + 'static {
        move |came| {
            // The answer may come after the screen has gone.
            let _ = self.sent.try_set(Some(came));
        }
    }
}

/// What the main button of a parcel says.
#[must_use]
pub fn send_words() -> &'static str {
    if send::can_share() {
        "Share the code…"
    } else {
        "Copy the code"
    }
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
