//! Where texts are kept under keys: the browser's local storage on a phone, a hostile double in a test.
//! Everything above it writes through this trait, so that what is lost when a shelf misbehaves can be tested.

/// A place that keeps texts under keys, shared with other tabs and with other programs of the same host.
pub trait Shelf {
    /// The text under `key`, or nothing when there is none.
    ///
    /// # Errors
    /// [`ShelfFault`] when the shelf can't be read at all.
    fn get(&self, key: &str) -> Result<Option<String>, ShelfFault>;

    /// Keeps `value` under `key` in place of whatever was there.
    ///
    /// # Errors
    /// [`ShelfFault`] when it is not kept. What was there before should still be there, but nothing here trusts that.
    fn put(&self, key: &str, value: &str) -> Result<(), ShelfFault>;

    /// Takes away the text under `key`; does nothing when there is none.
    ///
    /// # Errors
    /// [`ShelfFault`] when it could not be taken away.
    fn remove(&self, key: &str) -> Result<(), ShelfFault>;

    /// Every key on the shelf, ours and others', in no promised order.
    ///
    /// # Errors
    /// [`ShelfFault`] when the shelf can't be read at all.
    fn keys(&self) -> Result<Vec<String>, ShelfFault>;
}

/// Why a shelf did not do what it was asked.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum ShelfFault {
    /// There is no room left.
    Full,
    /// The browser does not allow it (a private window, a policy, a blocked site); its own words.
    Refused(String),
}

impl std::error::Error for ShelfFault {}
