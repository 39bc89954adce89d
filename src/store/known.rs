//! What is known of the texts that were met last, so that one that stands on the shelf unchanged is not checked and
//! parsed again. Nothing is trusted but the text itself: it is read off the shelf each time, and known only where it is
//! the same, letter by letter.

use std::collections::VecDeque;
use std::sync::{Arc, Mutex, PoisonError};

use super::envelope::{self, Unreadable};
use super::tally::Tally;

/// How many texts are remembered, at most: two copies of each of the records that are at hand.
const MOST_TEXTS: usize = 8;

/// Whether a body is a record of the kind that belongs in a place.
pub(super) type Fits = dyn Fn(&str) -> bool + Send + Sync;

/// A text that opens, and holds a record of its kind.
pub(super) struct Whole {
    pub(super) text: String,
    pub(super) body: String,
    pub(super) counter: u64,
    pub(super) tally: Tally,
    pub(super) sum: String,
}

/// Checks the texts of one kind.
pub(super) struct KnownTexts {
    fits: Box<Fits>,
    /// The last that were found whole, the latest last.
    last: Mutex<VecDeque<Arc<Whole>>>,
}

impl KnownTexts {
    pub(super) fn new(fits: Box<Fits>) -> Self {
        Self {
            fits,
            last: Mutex::new(VecDeque::new()),
        }
    }

    /// Whether a body is a record of this kind.
    pub(super) fn fits(&self, body: &str) -> bool {
        envelope::is_bounded(body) && (self.fits)(body)
    }

    /// A text that stands on the shelf, as it reads; or the text, and why it does not.
    pub(super) fn open(&self, text: String) -> Result<Arc<Whole>, (String, Unreadable)> {
        if let Some(whole) = self.recall(&text) {
            return Ok(whole);
        }
        let opened = envelope::open(&text).and_then(|opened| {
            if !self.fits(opened.body) {
                return Err(Unreadable::Unfamiliar);
            }
            Ok((
                opened.body.to_owned(),
                opened.counter,
                opened.sum.to_owned(),
                opened.tally,
            ))
        });
        match opened {
            Ok((body, counter, sum, tally)) => Ok(self.remember(Whole {
                text,
                body,
                counter,
                tally,
                sum,
            })),
            Err(reason) => Err((text, reason)),
        }
    }

    /// Remembers a text that was found whole, or was made of a record that fits.
    pub(super) fn remember(&self, whole: Whole) -> Arc<Whole> {
        let whole = Arc::new(whole);
        let mut last = self.last.lock().unwrap_or_else(PoisonError::into_inner);
        if last.len() >= MOST_TEXTS {
            last.pop_front();
        }
        last.push_back(whole.clone());
        whole
    }

    fn recall(&self, text: &str) -> Option<Arc<Whole>> {
        let last = self.last.lock().unwrap_or_else(PoisonError::into_inner);
        last.iter().rev().find(|whole| whole.text == text).cloned()
    }
}
