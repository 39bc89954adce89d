//! What somebody without a finger on the glass expects of every screen: Enter does what a field is for, Escape closes a
//! question, a field that is refused says so, and the focus does not go with a button that went.

use std::cell::Cell;

use js_sys::Reflect;
use leptos::prelude::document;
use wasm_bindgen::closure::Closure;
use wasm_bindgen::{JsCast, JsValue};
use web_sys::{Element, Event, FocusOptions, HtmlElement};

use super::turns::after_paint;

thread_local! {
    /// Whether the last tap was one of a finger, which has no use for the focus.
    static BY_TOUCH: Cell<bool> = const { Cell::new(false) };
}

/// Hears the keys of every screen, and looks after each tap and each letter at the fields. A button says by
/// `aria-keyshortcuts` that Enter or Escape works it.
pub fn listen() {
    on("keydown", pressed);
    on("click", |event| {
        BY_TOUCH.set(said(event, "pointerType") == "touch");
        let in_dock = event
            .target()
            .and_then(|tapped| tapped.dyn_into::<Element>().ok())
            .is_some_and(|tapped| tapped.closest(".dock").is_ok_and(|dock| dock.is_some()));
        after_paint(move || {
            mark_refused();
            // What the dock would not do is put right in the field that it was refused for.
            if in_dock {
                to(first(".page main [aria-invalid]"));
            }
            find_focus();
        });
    });
    on("input", |_| after_paint(mark_refused));
}

fn on(name: &str, act: fn(&Event)) {
    let heard = Closure::<dyn FnMut(Event)>::new(move |event| act(&event)).into_js_value();
    // The listener belongs to the page, not to a screen. A page that can't listen has its buttons.
    let _ = leptos::prelude::window().add_event_listener_with_callback_and_bool(
        name,
        heard.unchecked_ref(),
        true,
    );
}

fn said(event: &Event, what: &str) -> String {
    let said = Reflect::get(event, &JsValue::from_str(what));
    said.ok()
        .and_then(|said| said.as_string())
        .unwrap_or_default()
}

fn first(of: &str) -> Option<Element> {
    document().query_selector(of).ok().flatten()
}

fn pressed(event: &Event) {
    // What lies over the screen has its own keys.
    if first("dialog[open]").is_some() {
        return;
    }
    let works = match said(event, "key").as_str() {
        "Enter" => for_enter(event),
        "Escape" => first(".page [aria-keyshortcuts=Escape]"),
        _ => None,
    };
    if let Some(button) = works.and_then(|button| button.dyn_into::<HtmlElement>().ok()) {
        event.prevent_default();
        button.click();
    }
}

/// The button that a field of one line is for: the nearest that says so, or the one in the dock.
fn for_enter(event: &Event) -> Option<Element> {
    let field = event.target()?.dyn_into::<Element>().ok()?;
    if field.tag_name() != "INPUT" || field.get_attribute("type")? != "text" {
        return None;
    }
    let mut around = field.parent_element();
    while let Some(part) = around {
        let own = part.query_selector("[aria-keyshortcuts=Enter]");
        if let Ok(Some(own)) = own {
            return Some(own);
        }
        around = part.parent_element();
    }
    first(".page .dock button.next")
}

/// A field whose sentence stands beside it is marked for as long as it does.
fn mark_refused() {
    for field in all(".page [aria-invalid]") {
        let _ = field.remove_attribute("aria-invalid");
    }
    for sentence in all(".page .fault") {
        let beside = sentence.closest("[id]").ok().flatten();
        let described = beside.map(|beside| format!(".page [aria-describedby~='{}']", beside.id()));
        // A list may have a field of its own below it, which is what is meant then.
        if let Some(field) = described.and_then(|described| all(&described).pop()) {
            let _ = field.set_attribute("aria-invalid", "true");
        }
    }
}

fn all(of: &str) -> Vec<Element> {
    let Ok(found) = document().query_selector_all(of) else {
        return Vec::new();
    };
    (0..found.length())
        .filter_map(|at| found.get(at)?.dyn_into().ok())
        .collect()
}

/// Looks after the focus once more when the screen is drawn: a button that rested can have it again.
pub fn hold_focus() {
    after_paint(find_focus);
}

/// A keyboard or a screen reader goes on where the next tap is, when the button it was on is gone.
fn find_focus() {
    if BY_TOUCH.get() {
        return;
    }
    let lost = document()
        .active_element()
        .is_none_or(|focused| focused.tag_name() == "BODY");
    if lost {
        to(first(".page .dock .next").or_else(|| first(".page main h1")));
    }
}

fn to(part: Option<Element>) {
    if let Some(part) = part.and_then(|part| part.dyn_into::<HtmlElement>().ok()) {
        // What is tapped next must not move under the pointer.
        let still = FocusOptions::new();
        still.set_prevent_scroll(true);
        let _ = part.focus_with_options(&still);
    }
}
