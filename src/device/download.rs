//! A file for the phone to keep, and a page for its printer.

use js_sys::Array;
use leptos::prelude::{document, set_timeout, window};
use std::time::Duration;
use wasm_bindgen::{JsCast, JsValue};
use web_sys::{Blob, File, FilePropertyBag, HtmlAnchorElement, Url};

/// How long the browser may take to fetch the file from memory.
const KEPT_FOR: Duration = Duration::from_secs(60);

/// Saves a table under `name`. False where the browser refuses.
pub fn table(name: &str, words: &str) -> bool {
    // A spreadsheet takes the text for UTF-8 only with this mark at its head.
    text(name, "text/csv;charset=utf-8", &format!("\u{feff}{words}"))
}

/// Saves a text of a media type under `name`. False where the browser refuses.
pub fn text(name: &str, kind: &str, words: &str) -> bool {
    let parts = Array::of1(&JsValue::from_str(words));
    written(name, kind, &parts).is_some_and(|written| file(&written))
}

/// Saves a file under its name. False where the browser refuses.
pub fn file(file: &File) -> bool {
    give(&file.name(), file).is_ok()
}

/// A file in memory, put together from its parts.
#[must_use]
pub fn made(name: &str, kind: &str, parts: &Array) -> Option<File> {
    let bag = FilePropertyBag::new();
    bag.set_type(kind);
    File::new_with_u8_array_sequence_and_options(parts, name, &bag).ok()
}

/// As [`made`], from texts.
#[must_use]
pub fn written(name: &str, kind: &str, parts: &Array) -> Option<File> {
    let bag = FilePropertyBag::new();
    bag.set_type(kind);
    File::new_with_str_sequence_and_options(parts, name, &bag).ok()
}

fn give(name: &str, blob: &Blob) -> Result<(), JsValue> {
    let url = Url::create_object_url_with_blob(blob)?;
    let link: HtmlAnchorElement = document().create_element("a")?.dyn_into()?;
    link.set_href(&url);
    link.set_download(name);
    link.click();
    set_timeout(
        move || {
            // An address that is gone already needs no taking back.
            let _ = Url::revoke_object_url(&url);
        },
        KEPT_FOR,
    );
    Ok(())
}

/// Opens the browser's own print sheet.
pub fn print() {
    // Where there is no printing nothing happens, and the page stays as it is.
    let _ = window().print();
}
