//! Long work in short turns, so that taps are answered in between.

use std::time::Duration;

use leptos::prelude::set_timeout;

/// Calls `turn` now, and again after the browser has had its own turn, until it returns false.
pub fn each(mut turn: impl FnMut() -> bool + 'static) {
    if turn() {
        set_timeout(move || each_boxed(Box::new(turn)), Duration::ZERO);
    }
}

/// One type for every further turn, however often it is handed on.
fn each_boxed(mut turn: Box<dyn FnMut() -> bool>) {
    if turn() {
        set_timeout(move || each_boxed(turn), Duration::ZERO);
    }
}
