//! Any bytes chosen as a backup: a reason, or records that can be looked at, put in and taken back.
#![no_main]

use std::cell::RefCell;
use std::collections::BTreeMap;

use libfuzzer_sys::fuzz_target;
use scaleside::instant::Instant;
use scaleside::record::backup::{merge, read};
use scaleside::record::shelf::{Shelf, ShelfFault};

#[derive(Default)]
struct Memory(RefCell<BTreeMap<String, String>>);

impl Shelf for Memory {
    fn get(&self, key: &str) -> Result<Option<String>, ShelfFault> {
        Ok(self.0.borrow().get(key).cloned())
    }

    fn put(&self, key: &str, text: &str) -> Result<(), ShelfFault> {
        self.0.borrow_mut().insert(key.to_owned(), text.to_owned());
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

fuzz_target!(|bytes: &[u8]| {
    let Ok(backup) = read::read(bytes) else {
        return;
    };
    let (phone, now) = (Memory::default(), Instant(1_800_000_000_000));
    let lines = merge::look(&phone, 1, &backup).expect("this shelf always reads");
    for line in &lines {
        if let Ok(Some(undo)) = merge::put_in(&phone, 1, line, now) {
            let _ = merge::take_back(&phone, 1, &undo, now);
        }
    }
    assert!(merge::look(&phone, 1, &backup).is_ok());
});
