//! The address bar: the part after `#` names the screen.

use std::cell::RefCell;

use leptos::prelude::{window, window_event_listener_untyped};
use wasm_bindgen::JsValue;

use crate::place::Place;

/// More entries than any browser keeps of one tab.
const LONGEST_WAY: usize = 10_000;

thread_local! {
    /// The screens this page has been at, from the one it was opened at to the one that is shown. Each entry of the
    /// browser's history holds its own number, so that a step back is told from a step on.
    static WAY: RefCell<Vec<Option<Place>>> = const { RefCell::new(Vec::new()) };
}

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
    WAY.with_borrow_mut(Vec::pop);
    let _ = window().location().replace(&place.to_string());
}

/// One screen back.
pub fn back() {
    if let Ok(history) = window().history() {
        let _ = history.back();
    }
}

/// Back to where the cook came from; to `place`, if this page was opened here.
pub fn back_or(place: &Place) {
    if WAY.with_borrow(|way| way.len() > 1) {
        back();
    } else {
        replace(place);
    }
}

/// Back, if `place` is where the cook came from, and whether it is.
pub fn back_if_at(place: &Place) -> bool {
    let is_last = WAY.with_borrow(|way| {
        way.iter()
            .nth_back(1)
            .is_some_and(|last| last.as_ref() == Some(place))
    });
    if is_last {
        back();
    }
    is_last
}

/// Takes note of the screen that is shown, by the number that its entry of the history holds.
fn note(place: Place) {
    let Ok(history) = window().history() else {
        return;
    };
    let held = history.state().ok().and_then(|state| state.as_string());
    let number = held.and_then(|held| held.parse::<usize>().ok());
    WAY.with_borrow_mut(|way| {
        // After a reload only the numbers are left of the way so far, not what they stand for.
        if let Some(number) = number.filter(|number| *number < LONGEST_WAY) {
            way.resize(number, None);
        }
        // Without the number a step back looks like one on.
        let _ = history.replace_state(&JsValue::from_str(&way.len().to_string()), "");
        way.push(Some(place));
    });
}

/// Calls `f` whenever the address changes, for as long as the page lives.
pub fn on_change(f: impl Fn(Place) + 'static) {
    note(place());
    let handle = window_event_listener_untyped("hashchange", move |_| {
        note(place());
        f(place());
    });
    // The listener belongs to the page, not to a screen.
    std::mem::forget(handle);
}
