//! The address bar: the part after `#` names the screen.

use leptos::prelude::{window, window_event_listener_untyped};

use crate::place::Place;

/// The screen that the address names.
#[must_use]
pub fn place() -> Place {
    Place::parse(&window().location().hash().unwrap_or_default())
}

/// The address of the app itself, up to where a place begins.
#[must_use]
pub fn app() -> String {
    let whole = window().location().href().unwrap_or_default();
    whole.split('#').next().unwrap_or_default().to_owned()
}

/// Goes to a screen, so that Back comes back from it.
pub fn go(place: &Place) {
    // A refused change of address leaves the cook on the screen that works.
    let _ = window().location().set_hash(&place.to_string());
}

/// Goes to a screen in the place of this one, so that Back passes it by.
pub fn replace(place: &Place) {
    let _ = window().location().replace(&place.to_string());
}

/// One screen back.
pub fn back() {
    if let Ok(history) = window().history() {
        let _ = history.back();
    }
}

/// Calls `f` whenever the address changes, for as long as the page lives.
pub fn on_change(f: impl Fn(Place) + 'static) {
    let handle = window_event_listener_untyped("hashchange", move |_| f(place()));
    // The listener belongs to the page, not to a screen.
    std::mem::forget(handle);
}
