//! Long work in short turns, so that taps are answered in between.

use std::time::Duration;

use js_sys::Promise;
use leptos::prelude::set_timeout;
use wasm_bindgen::JsValue;
use wasm_bindgen_futures::JsFuture;

use super::clock;

/// How long a turn may last, in milliseconds: a tap is still answered at once.
const TURN_MS: i64 = 16;

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

/// Does `step` again and again until it returns false or the turn has lasted long enough. Returns whether there is
/// more to do.
pub fn within(mut step: impl FnMut() -> bool) -> bool {
    let begun = clock::now();
    while step() {
        let lasted = clock::now().ms_since(begun);
        // A clock that is set back ends the turn as well.
        if !(0..TURN_MS).contains(&lasted) {
            return true;
        }
    }
    false
}

/// Is over when the browser has had a turn of its own.
pub async fn rest() {
    let turn = Promise::new(&mut |done, _| {
        set_timeout(
            move || {
                let _ = done.call0(&JsValue::UNDEFINED);
            },
            Duration::ZERO,
        );
    });
    // The promise is never broken.
    let _ = JsFuture::from(turn).await;
}
