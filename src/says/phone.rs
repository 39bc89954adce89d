//! What the phone keeps.

use super::Says;
use crate::keep::bin::DAYS;

/// What is kept, and for how long.
pub(super) fn kept() -> Says {
    Says {
        key: "kept",
        name: "What is kept on this phone",
        formula: "Counted here. How much room there is, the browser says.".into(),
        inputs: "The records, photos and files of this app.".into(),
        source: format!("The browser. {DAYS} days in the bin: our choice.").into(),
        covers: "A browser rounds the room, or keeps it to itself.".into(),
    }
}
