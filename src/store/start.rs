//! What a page finds when it starts, by the keys alone: no record is read for it, however many there are.

use std::collections::{BTreeMap, BTreeSet};

use super::cooking;
use super::keys;
use super::shelf::{Shelf, ShelfFault};
use super::standing::{self, Standing};

/// What is on the shelf.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Start {
    /// Whether this build may write.
    pub standing: Standing,
    /// The fish whose timers may still ring, as far as was written down.
    pub cooking: Vec<String>,
    kinds: BTreeMap<String, BTreeSet<String>>,
}

impl Start {
    /// Looks at the shelf as `build`.
    ///
    /// # Errors
    /// [`ShelfFault`] when the shelf can't be read.
    pub fn find(shelf: &dyn Shelf, build: u64) -> Result<Self, ShelfFault> {
        let keys = shelf.keys()?;
        let kinds = keys::records(&keys);
        Ok(Self {
            standing: standing::among(shelf, &keys, build)?,
            cooking: cooking::hinted(shelf),
            kinds,
        })
    }

    /// The identities of one kind, the latest first: they sort by their moment.
    #[must_use]
    pub fn latest_first(&self, kind: &str) -> Vec<String> {
        let ids = self.kinds.get(kind).into_iter().flatten();
        ids.rev().cloned().collect()
    }
}
