//! What was written to local storage since somebody last asked: the second home is told of it, once it is there.

use std::cell::RefCell;

/// Whoever waits for a write.
type Wake = Box<dyn Fn()>;

thread_local! {
    static WRITTEN: RefCell<Vec<String>> = const { RefCell::new(Vec::new()) };
    /// A list, though there is one: through anything less the compiler sees who it is, and brings what lies behind it
    /// with the page.
    static WAKE: RefCell<Vec<Wake>> = const { RefCell::new(Vec::new()) };
}

/// Notes that a key was written or taken away, or may have been.
pub(super) fn note(key: &str) {
    WRITTEN.with_borrow_mut(|written| {
        if !written.iter().any(|known| known == key) {
            written.push(key.to_owned());
        }
    });
    WAKE.with_borrow(|all| all.iter().for_each(|wake| wake()));
}

/// Whoever is to be told of each write from now on.
pub fn on_each(wake: impl Fn() + 'static) {
    WAKE.with_borrow_mut(|all| all.push(Box::new(wake)));
}

/// The keys noted so far.
#[must_use]
pub fn take() -> Vec<String> {
    WRITTEN.take()
}

/// Puts keys back that could not be told of yet.
pub fn put_back(keys: impl IntoIterator<Item = String>) {
    WRITTEN.with_borrow_mut(|written| {
        written.extend(keys);
        written.sort_unstable();
        written.dedup();
    });
}
