//! What is said where a backup can't be written, or a file not be read as one.

use std::fmt;

use crate::base::refusal::Said;

/// Why a file is not read as a backup.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) enum NoBackup {
    /// It is longer than [`super::MOST_BYTES`].
    TooLarge,
    /// It stops before its end, or something in it has changed.
    CutOff,
    /// It is something else.
    NotOurs,
    /// A later layout than this build knows.
    Newer,
    /// It unpacks to more than it may.
    Swollen,
    /// This path stands in it twice.
    Twice(String),
    /// A path that leads out of it begins so.
    LeadsOutside(String),
}

impl Said for NoBackup {}

impl fmt::Display for NoBackup {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::TooLarge => "This file is larger than any backup of Scaleside: choose another.",
            Self::CutOff => {
                "This file is cut off or damaged: fetch it again, or choose an earlier backup. Nothing was changed."
            }
            Self::NotOurs => {
                "This file is not a backup of Scaleside: choose another. Nothing was changed."
            }
            Self::Newer => {
                "A newer version of Scaleside made this backup: load this page again to get the newer one, then try again."
            }
            Self::Swollen => {
                "This file unpacks to more than any phone holds: it was not made by Scaleside. Nothing was changed."
            }
            Self::Twice(path) => {
                return write!(
                    f,
                    "This file holds {path} twice, which no backup of Scaleside does. Nothing was changed."
                );
            }
            Self::LeadsOutside(path) => {
                return write!(
                    f,
                    "This file holds something that leads outside it ({path}): it was not made by Scaleside. Nothing was changed."
                );
            }
        })
    }
}

/// Follows the path of a photo that can't be read.
pub(super) const DAMAGED_PHOTO: &str = "the photo is damaged";

/// Why there is no backup of this phone.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum NoMaking {
    /// Something of it can't be written.
    Unwritten,
}

impl Said for NoMaking {}

impl fmt::Display for NoMaking {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Unwritten => {
                f.write_str("The backup could not be written: this phone may be short of memory.")
            }
        }
    }
}
