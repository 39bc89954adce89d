//! Two taps in a row on what is no control: a knuckle's way to do what is due.

use std::cell::Cell;

use leptos::prelude::{WindowListenerHandle, window_event_listener};
use wasm_bindgen::JsCast;
use web_sys::{Element, PointerEvent};

/// So soon after the first comes the second, ms.
const SOON_MS: f64 = 450.0;
/// So near the first comes the second, CSS px: a knuckle is broad.
const NEAR_PX: f64 = 60.0;
/// What does something of its own when it is tapped.
const CONTROLS: &str = "a, button, input, textarea, select, label, summary";

/// Calls `done` for every two taps in a row beside the controls, until the listener is removed.
pub fn on_double(done: impl Fn() + 'static) -> WindowListenerHandle {
    // The moment and the place of a tap that may be the first of two.
    let first = Cell::new(None::<(f64, f64, f64)>);
    window_event_listener(leptos::ev::pointerup, move |event: PointerEvent| {
        let on = event.target().and_then(|on| on.dyn_into::<Element>().ok());
        let is_beside = on.is_some_and(|on| matches!(on.closest(CONTROLS), Ok(None)));
        if !is_beside || !event.is_primary() {
            first.set(None);
            return;
        }
        let (at, x, y) = (
            event.time_stamp(),
            f64::from(event.client_x()),
            f64::from(event.client_y()),
        );
        let is_second = first.get().is_some_and(|(before, was_x, was_y)| {
            at - before <= SOON_MS && (x - was_x).hypot(y - was_y) <= NEAR_PX
        });
        if is_second {
            first.set(None);
            done();
        } else {
            first.set(Some((at, x, y)));
        }
    })
}
