//! Which copy of the app this is, where a host serves several: the folder it lies in goes before the name of all that it
//! keeps. At the top of a host the names are plain, as they were everywhere once.

use js_sys::{JsString, Reflect};
use wasm_bindgen::{JsCast, JsValue};

use super::named::named;

thread_local! {
    static BEFORE: String = before();
}

/// Nothing at the top of a host, else the folder and a space, which no folder's name has in an address. A worker lies in
/// the folder of its page.
fn before() -> String {
    let path = named(&js_sys::global(), "location")
        .and_then(|location| Reflect::get(&location, &JsValue::from_str("pathname")).ok())
        .and_then(|path| path.dyn_into::<JsString>().ok())
        .map(String::from)
        .unwrap_or_default();
    match path.rsplit_once('/') {
        Some((folder, _)) if !folder.is_empty() => format!("{folder}/ "),
        _ => String::new(),
    }
}

/// What this copy calls what is plainly called `name`.
pub(super) fn own(name: &str) -> String {
    BEFORE.with(|before| format!("{before}{name}"))
}

/// The plain name of what this copy calls so; nothing where it is no name of this copy.
pub(super) fn plain(mut own: String) -> Option<String> {
    BEFORE.with(|before| {
        own.starts_with(before.as_str()).then(|| {
            own.drain(..before.len());
            own
        })
    })
}

/// Whether this copy lies below the top of a host, so that its names are not the plain ones.
#[must_use]
pub fn is_below() -> bool {
    BEFORE.with(|before| !before.is_empty())
}
