//! The records as the app holds them, and which copy each was read from.

use std::collections::BTreeMap;
use std::sync::{Mutex, PoisonError};

use crate::base::refusal::Refusal;

/// A record as the app holds it. Its text is asked for only where it is not on the shelf.
pub(super) struct InHand<'a> {
    pub(super) id: &'a str,
    /// The count of writes of the copy this was last read from or written to; 0 when it was never stored.
    pub(super) counter: u64,
    pub(super) text: &'a dyn Fn() -> Result<String, Refusal>,
}

/// The counter and the sum of the copy that each record in hand was read from, or written to. Another tab may write an
/// older copy over that one, and then a copy made on it must still name it: its counter alone may be another's too.
#[derive(Default)]
pub(super) struct CopiesInHand(Mutex<BTreeMap<String, (u64, String)>>);

impl CopiesInHand {
    /// A copy of which nobody knows the sum is none that could be named.
    pub(super) fn note(&self, id: &str, counter: u64, sum: Option<&str>) {
        let mut copies = self.0.lock().unwrap_or_else(PoisonError::into_inner);
        match sum {
            Some(sum) => copies.insert(id.to_owned(), (counter, sum.to_owned())),
            None => copies.remove(id),
        };
    }

    /// The sum of the copy with this counter; nothing where nobody has noted it.
    pub(super) fn sum(&self, id: &str, counter: u64) -> Option<String> {
        let copies = self.0.lock().unwrap_or_else(PoisonError::into_inner);
        let (known, sum) = copies.get(id)?;
        (*known == counter).then(|| sum.clone())
    }

    pub(super) fn forget(&self, id: &str) {
        let mut copies = self.0.lock().unwrap_or_else(PoisonError::into_inner);
        copies.remove(id);
    }
}
