//! What is said where a record can't go into the bin, or not come out of it.

use std::fmt;

use super::bin::Unbinned;
use crate::base::refusal::Said;

/// Why a record can't be put back in its place.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum NoReturn {
    /// It is not in the bin.
    Gone,
    /// This build does not know its kind.
    UnknownKind,
}

impl Said for NoReturn {}

impl fmt::Display for NoReturn {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::Gone => "It is no longer in the bin.",
            Self::UnknownKind => "This version of Scaleside does not know this kind of entry.",
        })
    }
}

impl Said for Unbinned {}

impl fmt::Display for Unbinned {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NoRoom => f.write_str(
                "This phone has no room left to keep it in the bin: make a backup, then empty the bin first or remove this for good.",
            ),
            Self::Refused(refusal) => refusal.fmt(f),
        }
    }
}
