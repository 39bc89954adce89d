//! What the cook is told when an entry can't be taken. A refusal changes nothing that is stored.

use std::fmt;

use serde::{Deserialize, Serialize};

/// One sentence in a cook's words, shown beside the field it is about.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Refusal(String);

/// A reason to refuse, whose `Display` is the sentence. What works things out names the reason; the words stand in the
/// `refusals.rs` of its room.
pub trait Said: fmt::Display {}

impl<T: Said> From<T> for Refusal {
    fn from(reason: T) -> Self {
        Self(reason.to_string())
    }
}

impl fmt::Display for Refusal {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.0)
    }
}

impl std::error::Error for Refusal {}
