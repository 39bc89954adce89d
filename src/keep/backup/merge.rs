//! Puts a backup in: what it will do, said first; then each record whole, and the copy it replaces in the bin.
//!
//! Doing it again does only what is left, so a restore that was cut off is finished by doing it again.

use serde::{Deserialize, Serialize};

use super::read::Backup;
use crate::base::instant::Instant;
use crate::base::refusal::Refusal;
use crate::keep::bin;
use crate::keep::bin::{Bin, Cause};
use crate::keep::kind::{Kind, Raw};
use crate::keep::refusals::NoReturn;
use crate::store::envelope::writes;
use crate::store::outcome::Held;
use crate::store::records::Store;
use crate::store::shelf::Shelf;

/// What a record of a backup does on this phone.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
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
#[derive(Clone, Debug, Serialize, Deserialize)]
pub struct MergeLine {
    /// Its kind.
    pub kind: String,
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
pub fn look(shelf: &dyn Shelf, build: u64, backup: &Backup<'_>) -> Result<Vec<MergeLine>, Refusal> {
    let lines = backup.records.iter().map(|(kind, held)| {
        let here = here(shelf, build, kind.name, &held.id)?;
        Ok(line(kind, held, here.as_ref()))
    });
    lines.collect()
}

fn line(kind: &'static Kind, held: &Held<Raw>, here: Option<&Held<Raw>>) -> MergeLine {
    let effect = match here {
        None => Effect::Added,
        Some(here) if here.record.get() == held.record.get() => Effect::Same,
        Some(here) if is_newer(held.counter, here.counter) => Effect::Changed,
        Some(_) => Effect::Kept,
    };
    MergeLine {
        kind: kind.name.to_owned(),
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
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Undo {
    /// The kind of the record.
    pub kind: String,
    /// Its identity.
    pub id: String,
    /// The name in the bin of the copy before; nothing for a record that was not here.
    pub copy: Option<String>,
}

/// How to take back what `lines` will do, told before they are done.
///
/// # Errors
/// The sentence for a shelf that can't be read.
pub fn undos(shelf: &dyn Shelf, build: u64, lines: &[MergeLine]) -> Result<Vec<Undo>, Refusal> {
    let mut undos = Vec::new();
    for line in lines {
        let copy = match line.effect {
            Effect::Kept | Effect::Same => continue,
            Effect::Added => None,
            Effect::Changed => {
                let kind = Kind::named(&line.kind).ok_or(NoReturn::UnknownKind)?;
                let here = here(shelf, build, kind.name, &line.id)?;
                here.map(|here| bin::name(kind.name, &line.id, &here.record))
            }
        };
        undos.push(Undo {
            kind: line.kind.clone(),
            id: line.id.clone(),
            copy,
        });
    }
    Ok(undos)
}

/// Does what one line says, if it still holds: another tab may have changed the record since. Returns whether
/// the record is another now.
///
/// # Errors
/// The sentence for what could not be written; the record before is still there then.
pub fn put_in(
    shelf: &dyn Shelf,
    build: u64,
    line: &MergeLine,
    now: Instant,
) -> Result<bool, Refusal> {
    let kind = Kind::named(&line.kind).ok_or(NoReturn::UnknownKind)?;
    let here = here(shelf, build, kind.name, &line.id)?;
    let held = Held::from_elsewhere(&line.id, line.record.clone(), line.counter);
    let mut bin = Bin::new(build);
    match self::line(kind, &held, here.as_ref()).effect {
        Effect::Same => Ok(false),
        Effect::Kept => {
            // The file still has it, so a bin without room is no reason to stop.
            let _ = bin.keep(shelf, kind.name, &held, Cause::Replaced, now);
            Ok(false)
        }
        Effect::Added | Effect::Changed => {
            bin.replace(shelf, kind, &held.id, &held.record, held.counter, now)?;
            Ok(true)
        }
    }
}

/// Takes back what a line did. What it has not done is left as it is, so this may be done twice, and after a restore
/// that was cut off.
///
/// # Errors
/// The sentence for what has to stay as it is.
pub fn take_back(shelf: &dyn Shelf, build: u64, undo: &Undo, now: Instant) -> Result<(), Refusal> {
    let mut bin = Bin::new(build);
    let kind = Kind::named(&undo.kind).ok_or(NoReturn::UnknownKind)?;
    let here = here(shelf, build, kind.name, &undo.id)?;
    match (&undo.copy, here) {
        (None, Some(held)) => {
            bin.remove(shelf, &mut Store::<Raw>::new(kind.name, build), &held, now)?;
        }
        (None, None) => {}
        // It was not reached, or is back already.
        (Some(copy), Some(held)) if bin::name(kind.name, &undo.id, &held.record) == *copy => {}
        (Some(copy), _) => {
            bin.put_back(shelf, copy, now)?;
        }
    }
    Ok(())
}

fn here(
    shelf: &dyn Shelf,
    build: u64,
    kind: &'static str,
    id: &str,
) -> Result<Option<Held<Raw>>, Refusal> {
    let here = Store::<Raw>::new(kind, build).reread(shelf, id);
    here.map_err(Refusal::from)
}
