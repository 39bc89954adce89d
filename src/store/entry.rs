//! What every kind of record that a screen lists has in common.

use serde::Serialize;
use serde::de::DeserializeOwned;

use crate::base::instant::Instant;
use crate::base::refusal::Refusal;

/// A record that is kept under a name of its own and changed by taps alone.
pub trait Entry: Clone + PartialEq + Serialize + DeserializeOwned + Send + Sync + 'static {
    /// What a tap does to it, as a plain value.
    type Action: Send + Sync + 'static;
    /// The kind in the keys of the store. Never changed: it is where a phone looks for what it has.
    const KIND: &'static str;
    /// What a cook calls it, inside a sentence.
    const NOUN: &'static str;
    /// Whether timers run in records of this kind. A record of another kind may go by the same identity as one that cooks.
    const COOKS: bool = false;

    /// When it was begun, which orders the list.
    fn begun(&self) -> Instant;

    /// Whether it belongs to the demonstration, which never counts among a cook's own.
    fn is_demo(&self) -> bool {
        false
    }

    /// Whether a timer of it may still ring, whichever screen is shown.
    fn is_cooking(&self) -> bool {
        false
    }

    /// The record after a tap at `now`.
    ///
    /// # Errors
    /// The sentence for a tap that can't be done. Nothing is changed then.
    fn apply(&self, action: &Self::Action, now: Instant) -> Result<Self, Refusal>;
}
