//! A file read as text: one that was chosen on the phone, or one of this build.

use js_sys::Reflect;
use leptos::prelude::window;
use wasm_bindgen::JsValue;
use web_sys::File;

use super::named::ask;

/// The text of a file, read as UTF-8; nothing when it can't be read.
pub async fn read(file: File) -> Option<String> {
    let file: JsValue = file.into();
    ask(&file, "text", &[]).await.ok()?.as_string()
}

/// The text of a file that lies beside the page; nothing when it does not arrive.
pub async fn of_this_build(name: &str) -> Option<String> {
    let came = ask(&window(), "fetch", &[JsValue::from_str(name)])
        .await
        .ok()?;
    let arrived = Reflect::get(&came, &JsValue::from_str("ok")).ok()?;
    if !arrived.is_truthy() {
        return None;
    }
    ask(&came, "text", &[]).await.ok()?.as_string()
}
