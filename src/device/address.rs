//! The address bar: the part after `#` names the screen.
//!
//! The app itself makes the entries of the browser's history, by tap and by link: to change the part after `#` lays out
//! the whole page first, to look for what it names there.

use std::cell::RefCell;
use std::time::Duration;

use leptos::prelude::{set_timeout, window, window_event_listener_untyped};
use wasm_bindgen::{JsCast, JsValue};
use web_sys::{Element, Event, MouseEvent};

use crate::place::Place;

/// More entries than any browser keeps of one tab.
const LONGEST_WAY: usize = 10_000;

/// A link to a screen of this app.
const LINK: &str = "a[href^='#/']:not([target])";

/// Hears of the screen that the address names now.
type Listener = Box<dyn Fn(Place)>;

thread_local! {
    /// The screens this page has been at, from the one it was opened at to the one that is shown. Each entry of the
    /// browser's history holds its own number, so that a step back is told from a step on.
    static WAY: RefCell<Vec<Option<Place>>> = const { RefCell::new(Vec::new()) };
    static LISTENER: RefCell<Option<Listener>> = const { RefCell::new(None) };
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

/// The words that a share sheet brought, in the query before `#`: see `public/boot.js`.
#[must_use]
pub fn shared() -> String {
    let app = app();
    let parts = app
        .split_once('?')
        .map_or("", |(_, query)| query)
        .split('&');
    let words = parts.filter_map(|part| {
        let (_, words) = part.split_once('=')?;
        js_sys::decode_uri_component(&words.replace('+', " ")).ok()
    });
    words.map(String::from).collect::<Vec<_>>().join("\n")
}

/// Goes to a screen in the place of this one, and leaves behind what a share sheet brought.
pub fn replace_shared(place: &Place) {
    let app = app();
    let app = app.split_once('?').map_or(app.as_str(), |(app, _)| app);
    // A browser that refuses stays where it is.
    let _ = window().location().replace(&format!("{app}{place}"));
}

/// Goes to a screen, so that Back comes back from it.
pub fn go(to: &Place) {
    if place() == *to {
        return;
    }
    let address = format!("{}{to}", app());
    let number = JsValue::from_str(&WAY.with_borrow(Vec::len).to_string());
    let entered = window()
        .history()
        .and_then(|history| history.push_state_with_url(&number, "", Some(&address)));
    if entered.is_err() {
        // A browser that was told of too many steps in a while refuses more of them, and still takes the slow way. One
        // that refuses that leaves the cook on the screen that works.
        let _ = window().location().set_hash(&to.to_string());
        return;
    }
    WAY.with_borrow_mut(|way| way.push(Some(to.clone())));
    let to = to.clone();
    // The tap has its frame before the next screen is built.
    set_timeout(move || tell(to), Duration::ZERO);
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
    LISTENER.set(Some(Box::new(f)));
    let changed = window_event_listener_untyped("hashchange", |_| {
        note(place());
        tell(place());
    });
    let clicked = window_event_listener_untyped("click", |event| follow(&event));
    // The listeners belong to the page, not to a screen.
    std::mem::forget((changed, clicked));
}

fn tell(place: Place) {
    LISTENER.with_borrow(|listener| {
        if let Some(listener) = listener {
            listener(place);
        }
    });
}

/// Follows a link to a screen of this app, unless it is wanted in a tab or a window of its own.
fn follow(click: &Event) {
    let mouse = click.unchecked_ref::<MouseEvent>();
    if click.default_prevented() || mouse.ctrl_key() || mouse.meta_key() || mouse.shift_key() {
        return;
    }
    let link = click
        .target()
        .and_then(|target| target.unchecked_into::<Element>().closest(LINK).ok()?);
    if let Some(to) = link.and_then(|link| link.get_attribute("href")) {
        click.prevent_default();
        go(&Place::parse(&to));
    }
}
