//! What the last restore did, written down before it begins: so that it can be taken back after the page was left,
//! reloaded or killed. Small: it names the copies in the bin, and holds none itself.

use serde::{Deserialize, Serialize};

use super::merge::Undo;
use crate::base::instant::Instant;
use crate::journal::photo::PhotoName;
use crate::keep::bin::DAYS;
use crate::store::outcome::{Fault, Held, Outcome};
use crate::store::records::Store;
use crate::store::shelf::Shelf;

/// Its kind in the keys of the store. Neither backed up nor binned: it is of this phone and this backup alone.
const KIND: &str = "restored";
/// The one record of this kind.
const LAST: &str = "last";
const DAY_MS: i64 = 24 * 3_600_000;

/// The last restore.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct LastRestore {
    /// When the backup was made, which tells it from others.
    pub made: Instant,
    /// When it was put in.
    pub at: Instant,
    /// How to take back what it did to the records.
    pub undos: Vec<Undo>,
    /// The photos it added, by name.
    pub photos: Vec<String>,
}

impl LastRestore {
    /// The last one, if it is on the shelf and what it replaced is still in the bin.
    #[must_use]
    pub fn read(shelf: &dyn Shelf, build: u64, now: Instant) -> Option<Self> {
        let held = store(build).reread(shelf, LAST).ok()??;
        let days = now.ms_since(held.record.at) / DAY_MS;
        (days < DAYS).then_some(held.record)
    }

    /// Writes down what a restore is about to do. One of the same backup goes on from what it did before: it was
    /// cut off, or the phone was full.
    ///
    /// # Errors
    /// [`Fault`] says why it is not kept.
    pub fn keep(mut self, shelf: &dyn Shelf, build: u64) -> Result<Self, (Self, Fault)> {
        if self.undos.is_empty() && self.photos.is_empty() {
            // Nothing to take back, and the one before may still be.
            return Ok(self);
        }
        if let Some(before) = Self::read(shelf, build, self.at)
            && before.made == self.made
        {
            self = before.and(self);
        }
        let mut store = store(build);
        let (held, next) = (self.held(), self.clone());
        match store.commit(shelf, &held, self.at, move |_| Ok(next.clone())) {
            Outcome::Kept { .. } => {
                // The one before is of no more use, and may be as long; where it stays, it takes a little room.
                let _ = store.settle(shelf, LAST);
                Ok(self)
            }
            Outcome::Refused(_) => Err((self, Fault::NotReadBack)),
            Outcome::NotKept { fault, .. } => Err((self, fault)),
        }
    }

    /// Forgets it, once it is taken back.
    ///
    /// # Errors
    /// [`Fault`] says why it is still there; taking it back twice does nothing more.
    pub fn forget(&self, shelf: &dyn Shelf, build: u64) -> Result<(), Fault> {
        let mut store = store(build);
        match store.reread(shelf, LAST)? {
            Some(held) => store.remove(shelf, &held, self.at),
            None => Ok(()),
        }
    }

    /// The photos to take off the phone: those of the records that stay. The others go into the bin with theirs.
    #[must_use]
    pub fn loose_photos(&self) -> Vec<PhotoName> {
        let goes = |photo: &PhotoName| {
            let mut added = self.undos.iter().filter(|undo| undo.copy.is_none());
            added.any(|undo| undo.kind == photo.kind && undo.id == photo.id)
        };
        let photos = self.photos.iter().filter_map(|name| PhotoName::parse(name));
        photos.filter(|photo| !goes(photo)).collect()
    }

    /// This one, and then `later`: what was there before this one is what both are taken back to.
    fn and(mut self, later: Self) -> Self {
        let known = |all: &[Undo], undo: &Undo| {
            all.iter()
                .any(|known| known.kind == undo.kind && known.id == undo.id)
        };
        for undo in later.undos {
            if !known(&self.undos, &undo) {
                self.undos.push(undo);
            }
        }
        for photo in later.photos {
            if !self.photos.contains(&photo) {
                self.photos.push(photo);
            }
        }
        Self {
            at: later.at,
            ..self
        }
    }

    fn held(&self) -> Held<Self> {
        Held::from_elsewhere(LAST, self.clone(), 0)
    }
}

fn store(build: u64) -> Store<LastRestore> {
    Store::new(KIND, build)
}
