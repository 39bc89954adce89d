//! Puts a backup in: what it will do, said first; then each record whole, and the copy it replaces in the bin.
//!
//! Doing it again does only what is left, so a restore that was cut off is finished by doing it again.

use super::read::Backup;
use crate::instant::Instant;
use crate::record::bin::{Bin, Cause};
use crate::record::envelope::writes;
use crate::record::kind::{Kind, Raw};
use crate::record::outcome::Held;
use crate::record::shelf::Shelf;
use crate::record::store::Store;
use crate::refusal::Refusal;

/// What a record of a backup does on this phone.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Effect {
    /// It is not here: it is added.
    Added,
    /// The file's copy is the newer one: it takes the place of the one here, which goes into the bin.
    Changed,
    /// The copy here is the newer one, and stays; the file's goes into the bin.
    Kept,
    /// Both are the same.
    Same,
}

/// One record of a backup, and what it will do.
#[derive(Clone, Debug)]
pub struct Line {
    /// Its kind.
    pub kind: &'static str,
    /// Its identity.
    pub id: String,
    /// What it is called.
    pub title: String,
    /// What it will do.
    pub effect: Effect,
    counter: u64,
    record: Raw,
}

/// What the records of `backup` would do, in its order. Changes nothing.
///
/// # Errors
/// The sentence for a shelf that can't be read.
pub fn look(shelf: &dyn Shelf, build: u64, backup: &Backup<'_>) -> Result<Vec<Line>, Refusal> {
    let lines = backup.records.iter().map(|(kind, held)| {
        let here = Store::<Raw>::new(kind.name, build).reread(shelf, &held.id);
        let here = here.map_err(|fault| Refusal::new(fault.to_string()))?;
        Ok(line(kind, held, here.as_ref()))
    });
    lines.collect()
}

fn line(kind: &'static Kind, held: &Held<Raw>, here: Option<&Held<Raw>>) -> Line {
    let effect = match here {
        None => Effect::Added,
        Some(here) if here.record.get() == held.record.get() => Effect::Same,
        Some(here) if is_newer(held.counter, here.counter) => Effect::Changed,
        Some(_) => Effect::Kept,
    };
    Line {
        kind: kind.name,
        id: held.id.clone(),
        title: kind.title(held.record.get()).unwrap_or_default(),
        effect,
        counter: held.counter,
        record: held.record.clone(),
    }
}

/// The low bits of a counter tell copies apart and say nothing of their age; the first builds counted by one.
fn is_newer(one: u64, other: u64) -> bool {
    match (writes(one), writes(other)) {
        (0, 0) => one > other,
        (one, other) => one > other,
    }
}

/// How to take back what a line did.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Undo {
    /// The record was not here before.
    Remove {
        /// Its kind.
        kind: &'static str,
        /// Its identity.
        id: String,
    },
    /// The copy before is in the bin under this name.
    PutBack(String),
}

/// Does what one line says, if it still holds: another tab may have changed the record since. Returns how
/// to take it back; nothing when nothing was changed.
///
/// # Errors
/// The sentence for what could not be written; the record before is still there then.
pub fn put_in(
    shelf: &dyn Shelf,
    build: u64,
    line: &Line,
    now: Instant,
) -> Result<Option<Undo>, Refusal> {
    let kind = Kind::named(line.kind).ok_or_else(|| {
        Refusal::new("This version of Scaleside does not know this kind of entry.")
    })?;
    let here = Store::<Raw>::new(kind.name, build).reread(shelf, &line.id);
    let here = here.map_err(|fault| Refusal::new(fault.to_string()))?;
    let held = Held {
        id: line.id.clone(),
        record: line.record.clone(),
        counter: line.counter,
    };
    let mut bin = Bin::new(build);
    let effect = self::line(kind, &held, here.as_ref()).effect;
    match (effect, here) {
        (Effect::Same, _) => Ok(None),
        (Effect::Kept, _) => {
            // The file still has it, so a bin without room is no reason to stop.
            let _ = bin.keep(shelf, kind.name, &held, Cause::Replaced, now);
            Ok(None)
        }
        (_, here) => {
            let copy = bin.replace(shelf, kind, &held.id, &held.record, held.counter, now)?;
            Ok(match (here, copy) {
                (Some(_), Some(copy)) => Some(Undo::PutBack(copy)),
                (Some(_), None) => None,
                (None, _) => Some(Undo::Remove {
                    kind: kind.name,
                    id: held.id,
                }),
            })
        }
    }
}

/// Takes back what a line did. Returns the kind and id of the record.
///
/// # Errors
/// The sentence for what has to stay as it is.
pub fn take_back(
    shelf: &dyn Shelf,
    build: u64,
    undo: &Undo,
    now: Instant,
) -> Result<(String, String), Refusal> {
    let mut bin = Bin::new(build);
    match undo {
        Undo::PutBack(copy) => bin.put_back(shelf, copy, now),
        Undo::Remove { kind, id } => {
            let mut store = Store::<Raw>::new(kind, build);
            let here = store.reread(shelf, id);
            if let Some(held) = here.map_err(|fault| Refusal::new(fault.to_string()))? {
                bin.remove(shelf, &mut store, &held, now)?;
            }
            Ok(((*kind).to_owned(), id.clone()))
        }
    }
}
