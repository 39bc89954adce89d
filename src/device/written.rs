//! What was written to local storage since somebody last asked: the second home is told of it, once it is there.

use std::cell::RefCell;
use std::collections::BTreeSet;

thread_local! {
    static WRITTEN: RefCell<BTreeSet<String>> = const { RefCell::new(BTreeSet::new()) };
    static WAKE: RefCell<Option<fn()>> = const { RefCell::new(None) };
}

/// Notes that a key was written or taken away, or may have been.
pub(super) fn note(key: &str) {
    WRITTEN.with_borrow_mut(|written| written.insert(key.to_owned()));
    if let Some(wake) = WAKE.with_borrow(|wake| *wake) {
        wake();
    }
}

/// Whoever is to be told of each write from now on.
pub fn on_each(wake: fn()) {
    WAKE.with_borrow_mut(|told| *told = Some(wake));
}

/// The keys noted so far.
#[must_use]
pub fn take() -> BTreeSet<String> {
    WRITTEN.take()
}

/// Puts keys back that could not be told of yet.
pub fn put_back(keys: impl IntoIterator<Item = String>) {
    WRITTEN.with_borrow_mut(|written| written.extend(keys));
}
