//! What is said where a backup is not put in.

use std::fmt;

use crate::base::refusal::Said;

/// Why a restore stops.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum NoRestore {
    /// Nothing came back from reading the file.
    Unread,
    /// Nothing came back from putting its photos in.
    PhotosLeftOut,
}

impl Said for NoRestore {}

impl fmt::Display for NoRestore {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::Unread => "The file was not read: try again.",
            Self::PhotosLeftOut => "The photos were not put in: choose the file again.",
        })
    }
}
