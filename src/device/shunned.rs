//! A record whose screen has stopped the app, and that the cook has set aside on the page that says so (`public/mend.js`).

use leptos::prelude::window;

const KEY: &str = "scaleside aside";

/// The kind in the address, and the identity, as one text; nothing where none was.
#[must_use]
pub fn named() -> Option<String> {
    window().session_storage().ok()??.get_item(KEY).ok()?
}

/// It is dealt with.
pub fn forget() {
    if let Ok(Some(storage)) = window().session_storage() {
        let _ = storage.remove_item(KEY);
    }
}
