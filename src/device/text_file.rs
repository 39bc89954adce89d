//! A file that was chosen on the phone, read as text.

use wasm_bindgen::JsValue;
use web_sys::File;

use super::named::ask;

/// The text of a file, read as UTF-8; nothing when it can't be read.
pub async fn read(file: File) -> Option<String> {
    let file: JsValue = file.into();
    ask(&file, "text", &[]).await.ok()?.as_string()
}
