//! What is said where the browser does not give a file, or not take one.

use std::fmt;

use crate::base::refusal::Said;

/// Why there is no file.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum NoFile {
    /// The browser can't read what was chosen.
    Unreadable,
    /// The browser can't make one as large as it would be.
    NoRoom,
}

impl Said for NoFile {}

impl fmt::Display for NoFile {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::Unreadable => "The browser can't read this file.",
            Self::NoRoom => "The browser has no room for the file.",
        })
    }
}
