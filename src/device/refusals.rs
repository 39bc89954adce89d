//! What is said where the browser does not take a photo.

use std::fmt;

use crate::base::refusal::Said;

/// Why there is no photo.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum NoPhoto {
    /// The browser can't show what was chosen.
    Unshown,
    /// There is no room for it.
    NoRoom,
    /// The browser keeps none.
    NotKept,
    /// The browser can't read one that it has kept.
    Unread,
    /// What keeps the photos does not answer.
    Silent,
}

impl Said for NoPhoto {}

impl fmt::Display for NoPhoto {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::Unshown => {
                "This browser can't open that picture: choose a JPEG or PNG, or take the photo anew."
            }
            Self::NoRoom => {
                "This phone has no room left for the photo: take some photos away first."
            }
            Self::Unread => {
                "A photo that was kept here can't be read by this browser any more. The others are shown."
            }
            Self::Silent => {
                "This browser does not answer for its photos. Close other tabs of Scaleside, or restart the browser, and try again."
            }
            Self::NotKept => {
                "This browser does not let Scaleside keep photos. Everything else is kept as before."
            }
        })
    }
}
