//! What is said where a part of a screen is left without the file it is about.

use std::fmt;

use crate::base::refusal::Said;

/// Why there is no backup to give out.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum NoBackupFile {
    /// Nothing came back from putting it together.
    NotMade,
}

impl Said for NoBackupFile {}

impl fmt::Display for NoBackupFile {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NotMade => f.write_str("The backup was not put together: try again."),
        }
    }
}

/// Why there is no table to bring tests from.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum NoTableFile {
    /// The file is not read.
    Unread,
}

impl Said for NoTableFile {}

impl fmt::Display for NoTableFile {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Unread => f.write_str("This file could not be read."),
        }
    }
}
