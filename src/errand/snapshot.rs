//! The shelf as it was at one moment: a worker can't reach local storage.

use std::cell::RefCell;
use std::collections::BTreeMap;

use js_sys::Array;
use wasm_bindgen::{JsCast, JsValue};

use crate::store::shelf::{Shelf, ShelfFault};

/// What stood on the shelf. What is put on it stays in memory.
pub(super) struct Snapshot(RefCell<BTreeMap<String, String>>);

impl Snapshot {
    /// From keys and texts in turn.
    pub(super) fn of(pairs: &JsValue) -> Self {
        let pairs: Option<&Array> = pairs.dyn_ref();
        let mut texts = pairs.into_iter().flat_map(Array::iter);
        let mut shelf = BTreeMap::new();
        while let (Some(key), Some(text)) = (texts.next(), texts.next()) {
            shelf.extend(key.as_string().zip(text.as_string()));
        }
        Self(RefCell::new(shelf))
    }
}

impl Shelf for Snapshot {
    fn get(&self, key: &str) -> Result<Option<String>, ShelfFault> {
        Ok(self.0.borrow().get(key).cloned())
    }

    fn put(&self, key: &str, value: &str) -> Result<(), ShelfFault> {
        self.0.borrow_mut().insert(key.to_owned(), value.to_owned());
        Ok(())
    }

    fn remove(&self, key: &str) -> Result<(), ShelfFault> {
        self.0.borrow_mut().remove(key);
        Ok(())
    }

    fn keys(&self) -> Result<Vec<String>, ShelfFault> {
        Ok(self.0.borrow().keys().cloned().collect())
    }
}
