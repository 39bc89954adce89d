//! The records as the app holds them, and which copy each was read from.

use std::sync::{Mutex, PoisonError};

use crate::base::refusal::Refusal;

/// A record as the app holds it. Its text is asked for only where it is not on the shelf.
pub(super) struct InHand<'a> {
    pub(super) id: &'a str,
    /// The count of writes of the copy this was last read from or written to; 0 when it was never stored.
    pub(super) counter: u64,
    pub(super) text: &'a dyn Fn() -> Result<String, Refusal>,
}

/// How many records are remembered, at most: those that were read or written last.
const MOST_NOTED: usize = 32;

/// The counter and the sum of the copy that a record in hand was read from, or written to. Another tab may write an older
/// copy over that one, and then a copy made on it must still name it: its counter alone may be another's too.
#[derive(Default)]
pub(super) struct CopiesInHand(Mutex<Vec<(String, u64, String)>>);

impl CopiesInHand {
    /// A copy of which nobody knows the sum is none that could be named.
    pub(super) fn note(&self, id: &str, counter: u64, sum: Option<&str>) {
        let mut copies = self.0.lock().unwrap_or_else(PoisonError::into_inner);
        copies.retain(|(known, ..)| known != id);
        if let Some(sum) = sum {
            if copies.len() >= MOST_NOTED {
                copies.remove(0);
            }
            copies.push((id.to_owned(), counter, sum.to_owned()));
        }
    }

    /// The sum of the copy with this counter; nothing where nobody has noted it.
    pub(super) fn sum(&self, id: &str, counter: u64) -> Option<String> {
        let copies = self.0.lock().unwrap_or_else(PoisonError::into_inner);
        let of_it = |(known, its_counter, _): &&(String, u64, String)| {
            known == id && *its_counter == counter
        };
        copies.iter().find(of_it).map(|(.., sum)| sum.clone())
    }
}
