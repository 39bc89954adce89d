//! Pastes that are too long for a field: laid out in it they would keep the page standing still for seconds.

use js_sys::JsString;
use leptos::prelude::window_event_listener_untyped;
use wasm_bindgen::{JsCast, JsValue};
use web_sys::Event;

use super::named::{call, named};

/// The longest text that any field takes at once, in UTF-16 units.
const LONGEST: u32 = 200_000;

/// The text of a paste that is longer than `longest` UTF-16 units, no more than the first `most` of them. The field is
/// left as it is then.
pub fn longer_than(longest: u32, event: &Event, most: u32) -> Option<String> {
    if event.default_prevented() {
        return None;
    }
    let held = named(event, "clipboardData")?;
    let text = call(&held, "getData", &[JsValue::from_str("text")]).ok()?;
    let text: JsString = text.dyn_into().ok()?;
    if text.length() <= longest {
        return None;
    }
    event.prevent_default();
    Some(text.substring(0, most).into())
}

/// Calls `told` for every other paste that is too long, for as long as the page lives.
pub fn on_too_long(told: impl Fn() + 'static) {
    let handle = window_event_listener_untyped("paste", move |event| {
        if longer_than(LONGEST, &event, 0).is_some() {
            told();
        }
    });
    std::mem::forget(handle);
}
