//! What is said where the browser does not give a file, or not take one, and of a picture that is not looked through.

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

/// Why a picture is not looked through for codes.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum NoPicture {
    /// The file has no bytes.
    Empty,
    /// The file has too many.
    TooLong,
    /// So many million points are too many.
    TooLarge(u64),
    /// The browser can't show it.
    Unshown,
}

impl Said for NoPicture {}

impl fmt::Display for NoPicture {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Empty => f.write_str("this file is empty. Choose the picture again."),
            Self::TooLong => f.write_str(
                "this file is too large. Take a screenshot of the picture, and choose that.",
            ),
            Self::TooLarge(millions) => write!(
                f,
                "this picture has {millions} million points, which is too many. Take a screenshot of it, and choose that."
            ),
            Self::Unshown => f.write_str(
                "this browser can't open this file as a picture. Choose a JPEG or PNG, or a screenshot of it.",
            ),
        }
    }
}
