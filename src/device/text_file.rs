//! A file that was chosen on the phone, read as text.

use wasm_bindgen::JsValue;
use wasm_bindgen_futures::spawn_local;
use web_sys::File;

use super::named::ask;

/// Reads a file as UTF-8 and reports its text; nothing when it can't be read.
pub fn read(file: File, report: impl Fn(Option<String>) + 'static) {
    spawn_local(async move {
        let file: JsValue = file.into();
        let text = ask(&file, "text", &[]).await;
        report(text.ok().and_then(|text| text.as_string()));
    });
}
