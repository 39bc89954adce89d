//! What is folded away or lies below the first screen: built when the rest has been painted, in a turn of its own.

use leptos::prelude::*;

use crate::device::turns::after_paint;

/// What `view` draws, once the screen around it has been painted.
pub fn later(view: impl Fn() -> AnyView + Send + 'static) -> AnyView {
    let is_due = RwSignal::new(false);
    after_paint(move || {
        // The screen may be gone by then.
        is_due.try_set(true);
    });
    view! { {move || is_due.get().then(|| untrack(&view))} }.into_any()
}
