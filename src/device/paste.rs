//! Pastes that are too long for a field: laid out in it they would keep the page standing still for seconds.

use js_sys::JsString;
use leptos::prelude::window_event_listener_untyped;
use wasm_bindgen::{JsCast, JsValue};
use web_sys::Event;

use super::named::{call, named};

/// The longest text that a field takes at once, in UTF-16 units.
const LONGEST: u32 = 200_000;

/// The text of a paste that is too long for its field, no more than the first `most` UTF-16 units of it. The field is
/// left as it is then.
pub fn too_long(event: &Event, most: u32) -> Option<String> {
    if event.default_prevented() {
        return None;
    }
    let held = named(event, "clipboardData")?;
    let text = call(&held, "getData", &[JsValue::from_str("text")]).ok()?;
    let text: JsString = text.dyn_into().ok()?;
    if text.length() <= LONGEST {
        return None;
    }
    event.prevent_default();
    Some(text.substring(0, most).into())
}

/// Calls `told` for every other paste that is too long, for as long as the page lives.
pub fn on_too_long(told: impl Fn() + 'static) {
    let handle = window_event_listener_untyped("paste", move |event| {
        if too_long(&event, 0).is_some() {
            told();
        }
    });
    std::mem::forget(handle);
}
