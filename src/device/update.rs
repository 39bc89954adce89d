//! A newer build that waits: the cook chooses when to take it, so no timer is reloaded under way.

use js_sys::Reflect;
use leptos::prelude::{window, window_event_listener_untyped};
use wasm_bindgen::JsValue;
use web_sys::Event;

/// Whether a newer build is waiting already.
#[must_use]
pub fn is_ready() -> bool {
    Reflect::get(&window(), &JsValue::from_str("__scalesideUpdate"))
        .is_ok_and(|state| state.as_string().as_deref() == Some("ready"))
}

/// Calls `f` when a newer build is there.
pub fn on_ready(f: impl Fn() + 'static) {
    let handle = window_event_listener_untyped("scaleside-update-ready", move |_| f());
    // The listener belongs to the page, not to a screen.
    std::mem::forget(handle);
}

/// Takes the newer build: the page reloads with it.
pub fn take() {
    if let Ok(event) = Event::new("scaleside-update-take") {
        let _ = window().dispatch_event(&event);
    }
}
