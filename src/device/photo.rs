//! A QR code read from a photo, where the browser itself can.

use js_sys::{Array, Function, Object, Reflect};
use leptos::prelude::window;
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::spawn_local;
use web_sys::{File, HtmlInputElement};

use super::named::{ask, named};

/// The browser's own reader of such codes.
const READER: &str = "BarcodeDetector";

/// Whether this browser can read a code from a photo.
#[must_use]
pub fn can_read() -> bool {
    named(&window(), READER).is_some()
}

/// Takes the photo that was chosen in a field, and empties the field for the next.
#[must_use]
pub fn chosen(field: &HtmlInputElement) -> Option<File> {
    let file = field.files().and_then(|files| files.get(0));
    field.set_value("");
    file
}

/// Reads every code in a photo and reports their texts; nothing when the photo can't be read.
pub fn read(photo: File, report: impl Fn(Vec<String>) + 'static) {
    spawn_local(async move {
        report(texts(photo).await.unwrap_or_default());
    });
}

async fn texts(photo: File) -> Result<Vec<String>, JsValue> {
    let kind: Function = named(&window(), READER)
        .ok_or(JsValue::UNDEFINED)?
        .dyn_into()?;
    let wanted = Object::new();
    let formats = Array::of1(&JsValue::from_str("qr_code"));
    Reflect::set(&wanted, &JsValue::from_str("formats"), &formats)?;
    let reader = Reflect::construct(&kind, &Array::of1(&wanted))?;
    let found: Array = ask(&reader, "detect", &[photo.into()]).await?.dyn_into()?;
    let value = JsValue::from_str("rawValue");
    Ok(found
        .iter()
        .filter_map(|code| Reflect::get(&code, &value).ok()?.as_string())
        .collect())
}
