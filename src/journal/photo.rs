//! The name of a photo: which record it belongs to, and which of its photos it is.

use std::fmt;

use serde::{Deserialize, Serialize};

use crate::base::id::is_id;

/// The longest side of a kept photo, in pixels.
pub const LONGEST_SIDE: u32 = 1600;

/// The name of a photo, as text `kind/id/photo`.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
pub struct PhotoName {
    /// The kind of record it belongs to.
    pub kind: String,
    /// The record.
    pub id: String,
    /// The photo itself; later ones sort after earlier ones.
    pub photo: String,
}

impl PhotoName {
    /// Reads a name; nothing when the text is none.
    #[must_use]
    pub fn parse(text: &str) -> Option<Self> {
        let mut parts = text.split('/');
        let mut next = || parts.next().filter(|part| is_id(part)).map(str::to_owned);
        let name = Self {
            kind: next()?,
            id: next()?,
            photo: next()?,
        };
        parts.next().is_none().then_some(name)
    }

    /// What the names of all photos of one record begin with.
    #[must_use]
    pub fn opening(kind: &str, id: &str) -> String {
        format!("{kind}/{id}/")
    }
}

impl fmt::Display for PhotoName {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}/{}/{}", self.kind, self.id, self.photo)
    }
}

#[cfg(test)]
mod tests {
    use super::PhotoName;

    #[test]
    fn a_name_is_three_plain_words() {
        for (text, whole) in [
            ("fish/k3f9/a1", true),
            ("fish/k3f9", false),
            ("fish/k3f9/a1/b", false),
            ("fish/../a1", false),
            ("fish/K3/a1", false),
            ("fish//a1", false),
            ("", false),
        ] {
            let name = PhotoName::parse(text);
            assert_eq!(name.is_some(), whole, "{text}");
            assert!(name.is_none_or(|name| name.to_string() == text));
        }
    }
}
