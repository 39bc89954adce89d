//! Whether the app is on the home screen, and the browser's own question about it, where it has one.

use js_sys::Reflect;
use leptos::prelude::window;
use wasm_bindgen::JsValue;

use super::named::{ask, call, named};

/// Where the page keeps the browser's question until somebody wants it: see `public/boot.js`.
const QUESTION: &str = "__scalesideInstall";

/// Whether this page was opened from the home screen.
#[must_use]
pub fn is_installed() -> bool {
    let query = "(display-mode: standalone), (display-mode: fullscreen)";
    let query = call(&window(), "matchMedia", &[query.into()]);
    let is = |on: &JsValue, name: &str| {
        Reflect::get(on, &JsValue::from_str(name)).is_ok_and(|is| is.is_truthy())
    };
    query.is_ok_and(|query| is(&query, "matches")) || is(&window().navigator(), "standalone")
}

/// Whether the browser has a question of its own to ask.
#[must_use]
pub fn can_ask() -> bool {
    named(&window(), QUESTION).is_some()
}

/// Has the browser ask, and answers whether the cook said yes. It can be asked once. Works only inside a tap.
pub async fn asked() -> bool {
    let Some(question) = named(&window(), QUESTION) else {
        return false;
    };
    let _ = Reflect::set(&window(), &JsValue::from_str(QUESTION), &JsValue::NULL);
    let Ok(answer) = ask(&question, "prompt", &[]).await else {
        return false;
    };
    let outcome = Reflect::get(&answer, &JsValue::from_str("outcome"));
    outcome.is_ok_and(|outcome| outcome.as_string().as_deref() == Some("accepted"))
}

/// What the browser calls itself.
#[must_use]
pub fn agent() -> String {
    window().navigator().user_agent().unwrap_or_default()
}
