//! Giving a text out of the app: through the clipboard or the phone's own share sheet.

use js_sys::{Array, Object, Reflect};
use leptos::prelude::window;
use wasm_bindgen::JsValue;
use wasm_bindgen_futures::spawn_local;
use web_sys::File;

use super::named::{ask, call, named};

/// What came of it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Sent {
    /// The text is on the clipboard.
    Copied,
    /// The share sheet took it.
    Shared,
    /// The browser refused, or the cook thought better of it.
    Refused,
}

/// Whether this browser has a share sheet.
#[must_use]
pub fn can_share() -> bool {
    named(&window().navigator(), "share").is_some()
}

/// Puts a text on the clipboard. Works only inside a tap.
pub fn copy(text: &str, report: impl Fn(Sent) + 'static) {
    let text = JsValue::from_str(text);
    spawn_local(async move {
        let copied = match named(&window().navigator(), "clipboard") {
            Some(board) => ask(&board, "writeText", &[text]).await.is_ok(),
            None => false,
        };
        report(if copied { Sent::Copied } else { Sent::Refused });
    });
}

/// Opens the share sheet with a text, and a link where there is one. Works only inside a tap.
pub fn share(text: &str, link: Option<&str>, report: impl Fn(Sent) + 'static) {
    let parcel = Object::new();
    for (name, value) in [("text", Some(text)), ("url", link)] {
        if let Some(value) = value {
            // A plain object takes any property.
            let _ = Reflect::set(&parcel, &JsValue::from_str(name), &JsValue::from_str(value));
        }
    }
    spawn_local(async move {
        let shared = ask(&window().navigator(), "share", &[parcel.into()]).await;
        report(if shared.is_ok() {
            Sent::Shared
        } else {
            Sent::Refused
        });
    });
}

/// Whether this browser's share sheet takes this file.
#[must_use]
pub fn can_share_file(file: &File) -> bool {
    let navigator = window().navigator();
    named(&navigator, "canShare").is_some()
        && call(&navigator, "canShare", &[parcel_of(file)]).is_ok_and(|can| can.is_truthy())
}

/// Opens the share sheet with a file. Works only inside a tap.
pub fn share_file(file: &File, report: impl Fn(Sent) + 'static) {
    let parcel = parcel_of(file);
    spawn_local(async move {
        let shared = ask(&window().navigator(), "share", &[parcel]).await;
        report(if shared.is_ok() {
            Sent::Shared
        } else {
            Sent::Refused
        });
    });
}

fn parcel_of(file: &File) -> JsValue {
    let parcel = Object::new();
    // A plain object takes any property.
    let _ = Reflect::set(&parcel, &JsValue::from_str("files"), &Array::of1(file));
    parcel.into()
}
