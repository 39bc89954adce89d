//! A file for the phone to keep, and a page for its printer.

use js_sys::{Array, Uint8Array};
use leptos::prelude::{document, set_timeout, window};
use std::time::Duration;
use wasm_bindgen::{JsCast, JsValue};
use web_sys::{Blob, BlobPropertyBag, File, FilePropertyBag, HtmlAnchorElement, Url};

/// How long the browser may take to fetch the file from memory.
const KEPT_FOR: Duration = Duration::from_secs(60);

/// Saves a table under `name`. False where the browser refuses.
pub fn table(name: &str, text: &str) -> bool {
    // A spreadsheet takes the text for UTF-8 only with this mark at its head.
    let marked = format!("\u{feff}{text}");
    file(name, "text/csv;charset=utf-8", marked.as_bytes())
}

/// Saves a file of a media type under `name`. False where the browser refuses.
pub fn file(name: &str, media_type: &str, bytes: &[u8]) -> bool {
    save(name, media_type, bytes).is_ok()
}

fn save(name: &str, media_type: &str, bytes: &[u8]) -> Result<(), JsValue> {
    let kind = BlobPropertyBag::new();
    kind.set_type(media_type);
    let parts = Array::of1(&Uint8Array::from(bytes));
    give(
        name,
        &Blob::new_with_u8_array_sequence_and_options(&parts, &kind)?,
    )
}

/// Saves a file that is put together already. False where the browser refuses.
pub fn whole(file: &File) -> bool {
    give(&file.name(), file).is_ok()
}

/// A file in memory, put together from its parts.
#[must_use]
pub fn made(name: &str, media_type: &str, parts: &Array) -> Option<File> {
    let bag = FilePropertyBag::new();
    bag.set_type(media_type);
    File::new_with_u8_array_sequence_and_options(parts, name, &bag).ok()
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
