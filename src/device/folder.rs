//! Which copy of the app this is, where a host serves several: the folder it lies in goes before the name of all that it
//! keeps. At the top of a host the names are plain, as they were everywhere once.

use js_sys::Reflect;
use wasm_bindgen::JsValue;

thread_local! {
    /// Nothing at the top of a host, else the folder and a space, which no folder's name has in an address:
    /// `public/boot.js` sees to it, and `public/start_worker.js` beside the page.
    static BEFORE: String = {
        let before = Reflect::get(&js_sys::global(), &JsValue::from_str("__scalesideFolder"));
        before.ok().and_then(|before| before.as_string()).unwrap_or_default()
    };
}

/// What this copy calls what is plainly called `name`.
pub(super) fn own(name: &str) -> String {
    BEFORE.with(|before| format!("{before}{name}"))
}

/// The plain name of what this copy calls so; nothing where it is no name of this copy.
pub(super) fn plain(own: &str) -> Option<String> {
    BEFORE.with(|before| own.strip_prefix(before.as_str()).map(str::to_owned))
}

/// Whether this copy lies below the top of a host, so that its names are not the plain ones.
#[must_use]
pub fn is_below() -> bool {
    BEFORE.with(|before| !before.is_empty())
}
