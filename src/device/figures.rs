//! The figures of a screen that say who, as they are marked (`data-says`), and the taps on them.

use js_sys::{Function, Reflect};
use leptos::prelude::{document, window_event_listener_untyped};
use wasm_bindgen::{JsCast, JsValue};
use web_sys::{Element, Event};

/// What marks a figure, or what holds several: the keys of their rows, parted by blanks.
const MARK: &str = "data-says";
/// What asks for all the figures of the screen.
const BUTTON: &str = ".says-who";
/// What does something of its own when it is tapped; in the service that is the whole screen (see `touch.rs`).
const OF_ITS_OWN: &str = "a, button, input, textarea, select, label, summary, dialog, .stove";

/// What lies between the figures: a tap there is one that missed.
const GROUND: &str = "section, div, ul, ol, dl, table, tr, svg, details, article";

/// Of what a table is wanted.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Tapped {
    /// The keys of the figure that was tapped; none where the screen was asked about as a whole.
    pub figure: Vec<String>,
    /// The keys of all figures of the screen, in their order, each once.
    pub of_page: Vec<String>,
}

/// Calls `told` for every tap on a figure, or on the button that asks about all of them, for as long as the page lives.
pub fn on_tapped(told: impl Fn(Tapped) + 'static) {
    let handle = window_event_listener_untyped("click", move |event: Event| {
        let on = event.target().and_then(|on| on.dyn_into::<Element>().ok());
        let Some(on) = on else { return };
        if let Some(figure) = asked(&on) {
            let of_page = of_page();
            told(Tapped { figure, of_page });
        }
    });
    std::mem::forget(handle);
}

/// The keys of what was tapped, none for the button; nothing where the tap asks no figure.
fn asked(on: &Element) -> Option<Vec<String>> {
    let within = |of: &str| on.closest(of).ok().flatten();
    if within(BUTTON).is_some() {
        return Some(Vec::new());
    }
    if within(OF_ITS_OWN).is_some() || on.matches(GROUND).unwrap_or(true) || is_marked_out() {
        return None;
    }
    let shown = on.text_content().unwrap_or_default();
    let figure = within("[data-says]").filter(|_| shown.contains(|one: char| one.is_ascii_digit()));
    figure.map(|figure| keys(&figure))
}

/// Whether words are marked to be copied: the click that ends it asks nothing.
fn is_marked_out() -> bool {
    let said = |of: &JsValue, what: &str| Reflect::get(of, &JsValue::from_str(what)).ok();
    let page = document();
    let marked = said(&page, "getSelection")
        .and_then(|ask| ask.dyn_into::<Function>().ok())
        .and_then(|ask| ask.call0(&page).ok());
    // A browser that does not say so has nothing marked.
    marked.and_then(|marked| said(&marked, "isCollapsed")) == Some(JsValue::FALSE)
}

fn keys(figure: &Element) -> Vec<String> {
    let marked = figure.get_attribute(MARK).unwrap_or_default();
    marked.split_whitespace().map(str::to_owned).collect()
}

fn of_page() -> Vec<String> {
    let mut all: Vec<String> = Vec::new();
    if let Ok(marked) = document().query_selector_all("main [data-says]") {
        for at in 0..marked.length() {
            let figure = marked
                .get(at)
                .and_then(|one| one.dyn_into::<Element>().ok());
            for key in figure.iter().flat_map(keys) {
                if !all.contains(&key) {
                    all.push(key);
                }
            }
        }
    }
    all
}
