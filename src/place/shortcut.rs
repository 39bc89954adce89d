//! What an icon on the home screen offers when it is held: see the manifest.

use std::fmt;

/// Where it leads.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Shortcut {
    /// To a new fish.
    Begin,
    /// To the service that runs.
    Cooking,
}

impl Shortcut {
    pub(super) fn parse(word: &str) -> Option<Self> {
        match word {
            "begin" => Some(Self::Begin),
            "cooking" => Some(Self::Cooking),
            _ => None,
        }
    }
}

impl fmt::Display for Shortcut {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::Begin => "#/begin",
            Self::Cooking => "#/cooking",
        })
    }
}
