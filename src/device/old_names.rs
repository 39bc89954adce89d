//! What stands under the plain names, for a copy of the app in a folder: all copies of a host shared them once.

use js_sys::{Array, JsString, Reflect};
use wasm_bindgen::{JsCast, JsValue};

use super::named::{ask, named};
use super::storage::PlainShelf;
use super::{folder, ledger, photos};
use crate::store::homes::SecondTexts;
use crate::store::keys;
use crate::store::shelf::{Shelf, ShelfFault};

/// Whether it may be of this copy. Not where the copy of another folder was kept on this phone for use without a signal,
/// and this one never was.
pub async fn may_be_ours() -> bool {
    let (kept, own) = (kept().await.unwrap_or_default(), folder::own(""));
    let location = named(&js_sys::global(), "location").unwrap_or_default();
    let origin = Reflect::get(&location, &JsValue::from_str("origin")).unwrap_or_default();
    let own = format!("scaleside {}{own}", origin.as_string().unwrap_or_default());
    kept.is_empty() || kept.iter().any(|name| name.starts_with(&own))
}

/// The builds that are kept on this phone, of every folder of this host: `public/sw.js` names them.
async fn kept() -> Option<Vec<String>> {
    let names = ask(&named(&js_sys::global(), "caches")?, "keys", &[]).await;
    let names: Array = names.ok()?.dyn_into().ok()?;
    let names = names
        .iter()
        .filter_map(|name| name.dyn_into::<JsString>().ok())
        .map(String::from);
    Some(
        names
            .filter(|name| name.starts_with("scaleside "))
            .collect(),
    )
}

/// The texts of local storage.
///
/// # Errors
/// [`ShelfFault`] when it can't be read.
pub fn texts() -> Result<SecondTexts, ShelfFault> {
    let mut found = SecondTexts::new();
    for key in PlainShelf
        .keys()?
        .into_iter()
        .filter(|key| keys::is_ours(key))
    {
        if let Some(text) = PlainShelf.get(&key)? {
            found.insert(key, text);
        }
    }
    Ok(found)
}

/// The texts of the second home.
///
/// # Errors
/// The browser's own error.
pub async fn second_texts() -> Result<SecondTexts, JsValue> {
    ledger::plain_texts().await
}

/// Takes every photo over that is not here yet.
///
/// # Errors
/// The browser's own error; those that were taken over stay.
pub async fn take_photos() -> Result<(), JsValue> {
    photos::take_plain().await
}

/// Tells a page of an older build that is still open that it has been overtaken: it stops writing where nobody reads.
pub fn overtake(build: u64) {
    let told = PlainShelf.get(keys::BUILD).ok().flatten();
    if told.and_then(|told| told.parse().ok()) < Some(build) {
        // Where it can't be told it is as on any full phone.
        let _ = PlainShelf.put(keys::BUILD, &build.to_string());
    }
}

/// Frees the room of texts that were taken over.
pub fn let_go(names: &[String]) {
    for key in names.iter().flat_map(|name| keys::under(name)) {
        // What stays takes room, and no more.
        let _ = PlainShelf.remove(&key);
    }
}
