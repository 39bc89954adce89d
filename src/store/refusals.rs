//! What is said where a record can't be kept, read or taken away.

use std::fmt;

use super::envelope::{Unreadable, Unsealable};
use super::outcome::Fault;
use super::shelf::ShelfFault;
use super::standing::Newer;
use crate::base::refusal::Said;

/// Why a record is not taken at all.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum NoEntry {
    /// There is one of this identity.
    Taken,
    /// Its identity is none.
    NoIdentity,
    /// It was written as often as can be counted.
    Worn,
}

impl Said for NoEntry {}

impl fmt::Display for NoEntry {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::Taken => "There is already an entry with this number.",
            Self::NoIdentity => "An entry can't be kept under this name.",
            Self::Worn => "This entry was changed too often: begin a new one.",
        })
    }
}

impl Said for Unsealable {}

impl fmt::Display for Unsealable {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::TooLong => "This entry has grown too long to keep: shorten its notes.",
            Self::NoText => "This can't be written down: check the figures in it.",
        })
    }
}

impl Said for Fault {}

impl fmt::Display for Fault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Shelf(fault) => fault.fmt(f),
            Self::ReadOnly(newer) => newer.fmt(f),
            Self::NotReadBack => f.write_str("The phone said it had saved this, and had not."),
            Self::ChangedElsewhere => f.write_str(
                "This entry has just been changed in another tab: look at it again first.",
            ),
        }
    }
}

impl fmt::Display for ShelfFault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Full => f.write_str("This phone has no room left for your entries."),
            Self::Refused(words) => write!(
                f,
                "This browser does not let Scaleside keep anything ({words})."
            ),
        }
    }
}

impl fmt::Display for Newer {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::Build(_) => {
                "A newer version of Scaleside has saved entries on this phone, so this one has stopped \
                 saving: close the other tabs and load this page again."
            }
            Self::Format(_) => {
                "A newer version of Scaleside has saved entries that this one can't read, so this one \
                 has stopped saving: load this page again to get the newer one."
            }
        })
    }
}

/// Follows what it is about, and a colon or a dash.
impl fmt::Display for Unreadable {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::Torn => "the saving of it was cut off",
            Self::NotOurs => "it was not written by Scaleside",
            Self::Damaged => "it has been damaged since it was saved",
            Self::FutureFormat(_) => "a newer version of Scaleside saved it",
            Self::Unfamiliar => "it is whole, but not an entry this version knows",
        })
    }
}
