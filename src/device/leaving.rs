//! Whoever is about to leave the page is asked first, by the browser itself and in its own words.

use js_sys::Reflect;
use leptos::prelude::window_event_listener_untyped;
use wasm_bindgen::JsValue;

/// Asks from now on, whenever there is something to lose.
pub fn ask_if(is_at_stake: impl Fn() -> bool + 'static) {
    let handle = window_event_listener_untyped("beforeunload", move |event| {
        if is_at_stake() {
            event.prevent_default();
            // Older browsers go by this.
            let _ = Reflect::set(&event, &JsValue::from_str("returnValue"), &JsValue::TRUE);
        }
    });
    // The listener belongs to the page, not to a screen.
    std::mem::forget(handle);
}
