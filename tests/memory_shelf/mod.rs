//! A shelf in memory that always does what it is asked, and finds a key as soon among many as among few, as a
//! browser does.

use std::cell::RefCell;
use std::collections::HashMap;

use scaleside::store::shelf::{Shelf, ShelfFault};

/// What is kept, under its keys.
#[derive(Default)]
pub struct Memory(RefCell<HashMap<String, String>>);

impl Shelf for Memory {
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
