//! The browser's local storage as a shelf: the only file that touches it.

use gloo_storage::{LocalStorage, Storage as _};
use wasm_bindgen::{JsCast, JsValue};
use web_sys::{DomException, Storage};

use crate::store::shelf::{Shelf, ShelfFault};

/// What browsers call a full storage, by name and, older ones, by number.
const FULL_NAMES: [&str; 2] = ["QuotaExceededError", "NS_ERROR_DOM_QUOTA_REACHED"];
const FULL_CODES: [u16; 2] = [DomException::QUOTA_EXCEEDED_ERR, 1014];

/// Local storage, asked for afresh at each use: a browser may begin or cease to allow it at any time.
#[derive(Clone, Copy, Debug, Default)]
pub struct LocalShelf;

impl Shelf for LocalShelf {
    fn get(&self, key: &str) -> Result<Option<String>, ShelfFault> {
        storage()?.get_item(key).map_err(fault)
    }

    fn put(&self, key: &str, value: &str) -> Result<(), ShelfFault> {
        storage()?.set_item(key, value).map_err(fault)
    }

    fn remove(&self, key: &str) -> Result<(), ShelfFault> {
        storage()?.remove_item(key).map_err(fault)
    }

    fn keys(&self) -> Result<Vec<String>, ShelfFault> {
        let storage = storage()?;
        let length = storage.length().map_err(fault)?;
        let keys: Result<Vec<_>, _> = (0..length).map(|index| storage.key(index)).collect();
        // A key is missing when another tab has taken one away meanwhile.
        Ok(keys.map_err(fault)?.into_iter().flatten().collect())
    }
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
