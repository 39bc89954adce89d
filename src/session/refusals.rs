//! What is said where a tap on a record reaches none.

use std::fmt;

use crate::base::refusal::Said;

/// Why there is no record for a tap.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum NoRecord {
    /// The record, of the kind that is called so, has gone.
    Gone(&'static str),
    /// Nothing is in memory any more.
    Closing,
}

impl Said for NoRecord {}

impl fmt::Display for NoRecord {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Gone(noun) => write!(f, "This {noun} is no longer on this phone."),
            Self::Closing => f.write_str("The page is closing."),
        }
    }
}
