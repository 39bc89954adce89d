//! Long work in short turns, so that taps are answered in between. Also beside the page, where there is no window.

use std::time::Duration;

use js_sys::{Function, Promise};
use leptos::prelude::{document, request_animation_frame, set_timeout};
use wasm_bindgen_futures::JsFuture;

use super::clock;
use super::named::call;
use crate::base::instant::Instant;

/// How long a turn may last, in milliseconds: a tap is still answered at once.
const TURN_MS: i64 = 16;

/// A turn that is under way.
pub struct Turn(Instant);

impl Turn {
    /// It begins now.
    #[must_use]
    pub fn begin() -> Self {
        Self(clock::now())
    }

    /// Whether it has lasted long enough. A clock that is set back ends it as well.
    #[must_use]
    pub fn is_over(&self) -> bool {
        !(0..TURN_MS).contains(&clock::now().ms_since(self.0))
    }

    /// Lets the browser have a turn of its own, if this one has lasted long enough. Returns whether it did.
    pub async fn pause(&mut self) -> bool {
        let over = self.is_over();
        if over {
            rest().await;
            *self = Self::begin();
        }
        over
    }
}

/// Is over when the browser has had a turn of its own.
pub async fn rest() {
    let turn = Promise::new(&mut |done: Function, _| {
        // A browser without timers runs nothing of this.
        let _ = call(&js_sys::global(), "setTimeout", &[done.into()]);
    });
    // The promise is never broken.
    let _ = JsFuture::from(turn).await;
}

/// Does something when the next frame is on the screen; in a tab that nobody sees, where there is none, soon.
pub fn after_paint(work: impl FnOnce() + 'static) {
    let soon = move || set_timeout(work, Duration::ZERO);
    if document().hidden() {
        soon();
    } else {
        request_animation_frame(soon);
    }
}
