//! That a record was removed is a write too: it stands beside the records for a while, so that a home which has not
//! heard of it (the browser had not put it on the disk yet, or did not let us in) does not bring the record back.
//!
//! It names the newest copy that was removed. A copy with a higher counter was made after it, and stays.

use super::envelope::{self, Unsealable};
use super::keys;
use super::shelf::{Shelf, ShelfFault};
use super::slot;
use super::tally::Tally;
use crate::base::instant::Instant;

/// After so many milliseconds no home still has the copies, if both have the mark.
const LASTS_MS: i64 = 24 * 3_600_000;

/// The mark of a removal, sealed as a record is: its body is the moment.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct GoneMark {
    /// The counter of the newest copy that was removed.
    pub(super) counter: u64,
    /// When.
    pub(super) at: Instant,
}

impl GoneMark {
    /// Nothing when the text is no such mark, or damaged.
    fn parse(text: &str) -> Option<Self> {
        let opened = envelope::open(text).ok()?;
        Some(Self {
            counter: opened.counter,
            at: Instant(opened.body.parse().ok()?),
        })
    }

    pub(super) fn text(self, build: u64) -> Result<String, Unsealable> {
        let sealed = envelope::seal_body(
            &self.at.0.to_string(),
            self.counter,
            build,
            &Tally::default(),
        )?;
        Ok(sealed.text)
    }

    /// Whether it has told everyone by `now`. A clock that was set back keeps it for longer.
    pub(super) fn is_told(self, now: Instant) -> bool {
        now.ms_since(self.at) > LASTS_MS
    }
}

/// The mark on a shelf, if there is a whole one.
pub(super) fn read(
    shelf: &dyn Shelf,
    kind: &str,
    id: &str,
) -> Result<Option<GoneMark>, ShelfFault> {
    let text = shelf.get(&keys::gone(kind, id))?;
    Ok(text.as_deref().and_then(GoneMark::parse))
}

/// The counter of the newest copy that was removed; nought where none was.
pub(super) fn last_counter(shelf: &dyn Shelf, kind: &str, id: &str) -> u64 {
    let text = shelf.get(&keys::gone(kind, id)).ok().flatten();
    let opened = text.as_deref().map(envelope::open);
    opened.map_or(0, |opened| opened.map_or(0, |opened| opened.counter))
}

/// Puts a mark on a shelf. Returns whether it stands there.
pub(super) fn put(shelf: &dyn Shelf, kind: &str, id: &str, mark: GoneMark, build: u64) -> bool {
    let text = mark.text(build);
    text.is_ok_and(|text| slot::put_and_check(shelf, &keys::gone(kind, id), &text).is_ok())
}
