//! The browser's local storage as a shelf: the only file that touches it.

use std::cell::RefCell;
use std::collections::VecDeque;

use gloo_storage::{LocalStorage, Storage as _};
use js_sys::JsString;
use wasm_bindgen::{JsCast, JsValue};
use web_sys::{DomException, Storage};

use super::folder;
use super::named::call;
use super::written;
use crate::store::shelf::{Shelf, ShelfFault};

/// What browsers call a full storage, by name and, older ones, by number.
const FULL_NAMES: [&str; 2] = ["QuotaExceededError", "NS_ERROR_DOM_QUOTA_REACHED"];
const FULL_CODES: [u16; 2] = [DomException::QUOTA_EXCEEDED_ERR, 1014];

/// How many long texts are remembered in both tongues, at most: two copies of each of the records that are at hand.
const MOST_TEXTS: usize = 8;
/// A text shorter than this, in letters, is sooner translated than remembered.
const LONG: u32 = 512;

thread_local! {
    /// The long texts that were met last, as the browser has them and as we do. To translate one takes a hundred times
    /// as long as to see that it is the same.
    static LAST: RefCell<VecDeque<(JsString, String)>> = const { RefCell::new(VecDeque::new()) };
}

/// Local storage, asked for afresh at each use: a browser may begin or cease to allow it at any time.
#[derive(Clone, Copy, Debug, Default)]
pub struct LocalShelf;

impl Shelf for LocalShelf {
    fn get(&self, key: &str) -> Result<Option<String>, ShelfFault> {
        get_as(&folder::own(key))
    }

    fn put(&self, key: &str, value: &str) -> Result<(), ShelfFault> {
        let text = JsString::from(value);
        call(
            &storage()?.into(),
            "setItem",
            &[folder::own(key).into(), text.clone().into()],
        )
        .map_err(fault)?;
        remember(text, value);
        written::note(key);
        Ok(())
    }

    fn remove(&self, key: &str) -> Result<(), ShelfFault> {
        storage()?.remove_item(&folder::own(key)).map_err(fault)?;
        written::note(key);
        Ok(())
    }

    fn keys(&self) -> Result<Vec<String>, ShelfFault> {
        let keys = all_keys()?;
        Ok(keys.iter().filter_map(|key| folder::plain(key)).collect())
    }
}

/// What stands under the plain names, for a copy in a folder: see [`super::old_names`].
#[derive(Clone, Copy, Debug, Default)]
pub(super) struct PlainShelf;

impl Shelf for PlainShelf {
    fn get(&self, key: &str) -> Result<Option<String>, ShelfFault> {
        get_as(key)
    }

    fn put(&self, key: &str, value: &str) -> Result<(), ShelfFault> {
        storage()?.set_item(key, value).map_err(fault)
    }

    fn remove(&self, key: &str) -> Result<(), ShelfFault> {
        storage()?.remove_item(key).map_err(fault)
    }

    fn keys(&self) -> Result<Vec<String>, ShelfFault> {
        all_keys()
    }
}

fn get_as(name: &str) -> Result<Option<String>, ShelfFault> {
    let found = call(&storage()?.into(), "getItem", &[name.into()]).map_err(fault)?;
    Ok(found.dyn_into().ok().map(ours))
}

fn all_keys() -> Result<Vec<String>, ShelfFault> {
    let storage = storage()?;
    let length = storage.length().map_err(fault)?;
    let keys: Result<Vec<_>, _> = (0..length).map(|index| storage.key(index)).collect();
    // A key is missing when another tab has taken one away meanwhile.
    Ok(keys.map_err(fault)?.into_iter().flatten().collect())
}

/// Whether local storage holds this very text under `key`, which is not translated for it.
pub(super) fn holds(key: &str, text: &JsValue) -> bool {
    let name = folder::own(key).into();
    let found =
        storage().and_then(|storage| call(&storage.into(), "getItem", &[name]).map_err(fault));
    found.is_ok_and(|found| found == *text)
}

/// Keeps a text that belongs to this browser alone, and to no record, if it is taken: nobody else is told of it.
pub(super) fn keep_here(key: &str, text: &str) {
    if let Ok(storage) = storage() {
        let _ = storage.set_item(&folder::own(key), text);
    }
}

/// A text of the browser as one of ours.
fn ours(text: JsString) -> String {
    let known = LAST.with_borrow(|last| {
        let same = last.iter().rev().find(|(known, _)| *known == text);
        same.map(|(_, known)| known.clone())
    });
    known.unwrap_or_else(|| {
        let translated = String::from(&text);
        remember(text, &translated);
        translated
    })
}

fn remember(text: JsString, ours: &str) {
    if text.length() < LONG {
        return;
    }
    LAST.with_borrow_mut(|last| {
        if last.len() >= MOST_TEXTS {
            last.pop_front();
        }
        last.push_back((text, ours.to_owned()));
    });
}

/// `LocalStorage::raw` panics where storage is blocked, so the window is asked first.
#[allow(clippy::disallowed_methods)]
fn storage() -> Result<Storage, ShelfFault> {
    let window = web_sys::window().ok_or_else(|| ShelfFault::Refused("no window".into()))?;
    match window.local_storage() {
        Ok(Some(_)) => Ok(LocalStorage::raw()),
        Ok(None) => Err(ShelfFault::Refused("no local storage".into())),
        Err(error) => Err(fault(error)),
    }
}

fn fault(error: JsValue) -> ShelfFault {
    match error.dyn_ref::<DomException>() {
        Some(error)
            if FULL_NAMES.contains(&error.name().as_str())
                || FULL_CODES.contains(&error.code()) =>
        {
            ShelfFault::Full
        }
        Some(error) => ShelfFault::Refused(error.name()),
        None => ShelfFault::Refused("unknown error".into()),
    }
}
