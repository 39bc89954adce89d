//! Where a keyboard or a screen reader stands after the screen has changed.

use js_sys::Reflect;
use leptos::prelude::document;
use wasm_bindgen::closure::Closure;
use wasm_bindgen::{JsCast, JsValue};
use web_sys::HtmlElement;

use super::turns::after_paint;

/// Lets go of what a finger has touched. A browser that is told to take away the button that has the focus lays out the
/// whole page for it, half changed as it is. Keys, a mouse and a screen reader keep their place.
pub fn let_go_of_touched() {
    let touched = |event: web_sys::Event| {
        let by = Reflect::get(&event, &JsValue::from_str("pointerType"));
        let focused = document()
            .active_element()
            .filter(|focused| matches!(focused.tag_name().as_str(), "A" | "BUTTON" | "SUMMARY"));
        if by.is_ok_and(|by| by == "touch")
            && let Some(focused) =
                focused.and_then(|focused| focused.dyn_into::<HtmlElement>().ok())
        {
            let _ = focused.blur();
        }
    };
    // The listener belongs to the page, not to a screen. What is tapped has its own say after this one.
    let heard = Closure::<dyn FnMut(web_sys::Event)>::new(touched).into_js_value();
    let window = leptos::prelude::window();
    // A page that can't listen is a little slower.
    let _ = window.add_event_listener_with_callback_and_bool("click", heard.unchecked_ref(), true);
}

/// Puts the focus on the heading of the screen and the page back to its top, once the screen is there.
pub fn to_heading() {
    leptos::prelude::set_timeout(on_heading, std::time::Duration::ZERO);
}

/// Puts the focus on the heading of the screen that is there, and the page back to its top; not under the hands of who
/// has begun to type. Some engines call nothing `:focus` in a window that lies behind another.
fn on_heading() {
    let focused = document().active_element();
    if focused.is_some_and(|focused| matches!(focused.closest(".page main"), Ok(Some(_)))) {
        return;
    }
    let heading = document()
        .query_selector(".page main h1")
        .ok()
        .flatten()
        .and_then(|heading| heading.dyn_into::<HtmlElement>().ok());
    if let Some(heading) = heading {
        let _ = heading.focus();
    }
    leptos::prelude::window().scroll_to_with_x_and_y(0.0, 0.0);
}

/// Names the page, for the list of open tabs and for a screen reader.
pub fn name_page(name: &str) {
    let title = format!("{name} · Scaleside");
    // It costs the browser more than a text on the page does, and nobody reads it first.
    after_paint(move || document().set_title(&title));
}

/// Brings the first sentence beside a field into sight, once it is on the page; without one, the first doubt.
pub fn to_fault() {
    leptos::prelude::request_animation_frame(|| {
        let said = [".page main .fault", ".page main .doubt"];
        let found = |part: &&str| document().query_selector(part).ok().flatten();
        if let Some(said) = said.iter().find_map(found) {
            said.scroll_into_view_with_bool(false);
        }
    });
}

/// Brings a question that was just asked into sight, once it is on the page.
pub fn to_question() {
    leptos::prelude::request_animation_frame(|| {
        if let Ok(Some(question)) = document().query_selector(".page main .asked") {
            question.scroll_into_view_with_bool(false);
        }
    });
}

/// Brings the row of a table that was just opened into sight, once it is on the page.
pub fn to_opened() {
    leptos::prelude::request_animation_frame(|| {
        let opener = document().query_selector(".opener[aria-expanded=true]");
        if let Some(opener) = opener
            .ok()
            .flatten()
            .and_then(|opener| opener.dyn_into::<HtmlElement>().ok())
        {
            opener.scroll_into_view();
            let _ = opener.focus();
        }
    });
}

/// Folds away what has the identity `fold`, once its work is done.
pub fn fold(fold: &str) {
    if let Some(fold) = document().get_element_by_id(fold) {
        // A fold that stays open is in the way and no more.
        let _ = fold.remove_attribute("open");
    }
}

/// Unfolds what has the identity `fold` and puts the focus on a field in it.
pub fn to_field(fold: &str, field: &str) {
    if let Some(fold) = document().get_element_by_id(fold) {
        // A fold that stays shut still shows its summary.
        let _ = fold.set_attribute("open", "");
    }
    let field = document().get_element_by_id(field);
    if let Some(field) = field.and_then(|field| field.dyn_into::<HtmlElement>().ok()) {
        let _ = field.focus();
    }
}
