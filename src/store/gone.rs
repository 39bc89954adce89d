//! That a record was removed is a write too: it stands beside the records for a while, so that a home which has not
//! heard of it (the browser had not put it on the disk yet, or did not let us in) does not bring the record back.
//!
//! It names the newest copy that was removed. A copy with a higher counter was made after it, and stays.

use super::keys;
use super::shelf::{Shelf, ShelfFault};
use crate::base::crc;
use crate::base::instant::Instant;

/// After so many milliseconds no home still has the copies, if both have the mark.
const LASTS_MS: i64 = 24 * 3_600_000;

/// The mark of a removal.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct GoneMark {
    /// The counter of the newest copy that was removed.
    pub(super) counter: u64,
    /// When.
    pub(super) at: Instant,
}

impl GoneMark {
    /// A text with its checksum; nothing when it is no such mark, or damaged.
    pub(super) fn parse(text: &str) -> Option<Self> {
        let (marks, sum) = text.rsplit_once(' ')?;
        let (counter, at) = marks.split_once(' ')?;
        let mark = Self {
            counter: counter.parse().ok()?,
            at: Instant(at.parse().ok()?),
        };
        (sum == sum_of(marks)).then_some(mark)
    }

    pub(super) fn text(self) -> String {
        let marks = format!("{} {}", self.counter, self.at.0);
        let sum = sum_of(&marks);
        format!("{marks} {sum}")
    }

    /// Whether it has told everyone by `now`. A clock that was set back keeps it for longer.
    pub(super) fn is_told(self, now: Instant) -> bool {
        now.ms_since(self.at) > LASTS_MS
    }
}

fn sum_of(marks: &str) -> String {
    format!("{:08x}", crc::of(marks.as_bytes()))
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

/// Marks the removal of all copies up to `counter`. Returns whether it stands there.
pub(super) fn mark(shelf: &dyn Shelf, kind: &str, id: &str, counter: u64, now: Instant) -> bool {
    let mark = GoneMark { counter, at: now };
    super::slot::put_and_check(shelf, &keys::gone(kind, id), &mark.text()).is_ok()
}
