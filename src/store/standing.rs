//! Whether this build may write here: a tab of an older build stops, and says so.

use super::envelope::{self, FORMAT, Unreadable};
use super::keys;
use super::outcome::Fault;
use super::shelf::{Shelf, ShelfFault};
use super::slot;
use crate::base::instant::Instant;

/// Whether a build may write.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Standing {
    /// It is the newest that has written here.
    Writing,
    /// It only reads.
    ReadOnly {
        /// What is newer.
        why: Newer,
    },
}

/// What tells that a newer Scaleside has written here. Shown as a sentence for the cook.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Newer {
    /// Its build number; the format is the same, so the cook may decide to go on: see [`take_over`].
    Build(u64),
    /// Its format, which this build can't read.
    Format(u32),
}

/// The standing of `build` on this shelf, from every key there.
///
/// # Errors
/// [`ShelfFault`] when the shelf can't be read.
pub fn standing(shelf: &dyn Shelf, build: u64) -> Result<Standing, ShelfFault> {
    among(shelf, &shelf.keys()?, build)
}

/// As [`standing`], where the keys are known.
pub(super) fn among(shelf: &dyn Shelf, all: &[String], build: u64) -> Result<Standing, ShelfFault> {
    for key in all.iter().filter(|key| keys::format_of(key).is_some()) {
        // The text must be whole: one stray key must not stop the app for ever. Copies of this format are
        // read when their records are.
        if keys::format_of(key) > Some(FORMAT)
            && let Some(text) = shelf.get(key)?
            && let Err(Unreadable::FutureFormat(newer)) = envelope::open(&text)
        {
            return Ok(Standing::ReadOnly {
                why: Newer::Format(newer),
            });
        }
    }
    Ok(match stored_build(shelf)? {
        Some(newer) if newer > build => Standing::ReadOnly {
            why: Newer::Build(newer),
        },
        _ => Standing::Writing,
    })
}

/// Lets `build` write again after the newer build `seen` did, because the cook says so: a deployment that
/// was taken back must not leave the app reading for ever. The newer one takes over again if it comes back.
///
/// # Errors
/// [`Fault::ReadOnly`] when what is newer is the format, or a build other than `seen`;
/// [`Fault::Shelf`] and [`Fault::NotReadBack`] when it could not be written down.
pub fn take_over(shelf: &dyn Shelf, build: u64, seen: u64) -> Result<(), Fault> {
    match standing(shelf, build)? {
        Standing::ReadOnly {
            why: Newer::Build(newer),
        } if newer == seen => slot::put_and_check(shelf, keys::BUILD, &build.to_string()),
        Standing::ReadOnly { why } => Err(Fault::ReadOnly(why)),
        Standing::Writing => Ok(()),
    }
}

/// Stops an older build from writing.
pub(super) fn may_write(shelf: &dyn Shelf, build: u64) -> Result<(), Fault> {
    match stored_build(shelf)? {
        Some(newer) if newer > build => Err(Fault::ReadOnly(Newer::Build(newer))),
        _ => Ok(()),
    }
}

/// As [`may_write`], and writes down that `build` has been here, before anything else of it is written.
pub(super) fn claim(shelf: &dyn Shelf, build: u64, now: Instant) -> Result<(), Fault> {
    may_write(shelf, build)?;
    match shelf.get(keys::BUILD)? {
        Some(text) if text.parse() == Ok(build) => return Ok(()),
        Some(text) if text.parse::<u64>().is_err() => {
            slot::set_aside(shelf, keys::BUILD, &text, now)?;
        }
        _ => {}
    }
    slot::put_and_check(shelf, keys::BUILD, &build.to_string())
}

/// The newest build that has written here; nothing when there is none, or when the number is damaged.
fn stored_build(shelf: &dyn Shelf) -> Result<Option<u64>, ShelfFault> {
    Ok(shelf.get(keys::BUILD)?.and_then(|text| text.parse().ok()))
}
