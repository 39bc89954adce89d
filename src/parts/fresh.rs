//! What is drawn anew each time, not changed in place: to change what stands on the page costs a browser more, an element
//! and an attribute at a time, than to build it aside and put it there whole.

use std::sync::atomic::{AtomicBool, Ordering};

use leptos::either::Either;
use leptos::prelude::*;

/// What `view` draws, drawn anew whenever something that it reads has changed. For what changes all over: a button under
/// a thumb would be replaced, and lose the focus.
pub fn fresh(view: impl Fn() -> AnyView + Send + 'static) -> AnyView {
    let side = AtomicBool::new(false);
    let drawn = move || {
        let new = view();
        if side.fetch_not(Ordering::Relaxed) {
            Either::Left(new)
        } else {
            Either::Right(new)
        }
    };
    view! { {drawn} }.into_any()
}
