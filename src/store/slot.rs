//! The two copies of one record, and what may be written over.

use std::sync::Arc;

use super::envelope::Unreadable;
use super::keys::{self, SlotSide};
use super::known::{KnownTexts, Whole};
use super::outcome::Fault;
use super::shelf::{Shelf, ShelfFault};
use crate::base::instant::Instant;

/// How many asides of one key there may be within as many milliseconds.
const ASIDES_AT_ONCE: i64 = 1000;

/// What is in one slot.
pub(super) enum StoredSlot {
    Empty,
    Good(Arc<Whole>),
    Bad { text: String, reason: Unreadable },
}

impl StoredSlot {
    pub(super) fn read(
        shelf: &dyn Shelf,
        key: &str,
        known: &KnownTexts,
    ) -> Result<Self, ShelfFault> {
        let Some(text) = shelf.get(key)? else {
            return Ok(Self::Empty);
        };
        Ok(match known.open(text) {
            Ok(whole) => Self::Good(whole),
            Err((text, reason)) => Self::Bad { text, reason },
        })
    }

    pub(super) fn whole(&self) -> Option<&Whole> {
        match self {
            Self::Good(whole) => Some(whole),
            Self::Empty | Self::Bad { .. } => None,
        }
    }
}

/// Both slots of one record.
pub(super) struct Pair {
    a: StoredSlot,
    b: StoredSlot,
}

impl Pair {
    pub(super) fn read(
        shelf: &dyn Shelf,
        kind: &str,
        id: &str,
        known: &KnownTexts,
    ) -> Result<Self, ShelfFault> {
        let [a, b] =
            SlotSide::BOTH.map(|side| StoredSlot::read(shelf, &keys::slot(kind, id, side), known));
        Ok(Self { a: a?, b: b? })
    }

    pub(super) fn at(&self, side: SlotSide) -> &StoredSlot {
        match side {
            SlotSide::A => &self.a,
            SlotSide::B => &self.b,
        }
    }

    /// The slot that holds the newest copy that opens.
    pub(super) fn newest_side(&self) -> Option<SlotSide> {
        match (self.a.whole(), self.b.whole()) {
            (Some(a), Some(b)) if b.counter > a.counter => Some(SlotSide::B),
            (None, Some(_)) => Some(SlotSide::B),
            (Some(_), _) => Some(SlotSide::A),
            (None, None) => None,
        }
    }

    pub(super) fn into_newest(self) -> Option<Arc<Whole>> {
        let newest = match self.newest_side()? {
            SlotSide::A => self.a,
            SlotSide::B => self.b,
        };
        match newest {
            StoredSlot::Good(whole) => Some(whole),
            StoredSlot::Empty | StoredSlot::Bad { .. } => None,
        }
    }

    pub(super) fn newest(&self) -> Option<&Whole> {
        self.newest_side().and_then(|side| self.at(side).whole())
    }

    /// The slot to write to: never the one with the newest good copy, and an unreadable one only when
    /// there is no other.
    pub(super) fn target(&self) -> SlotSide {
        match self.newest_side() {
            Some(side) => side.other(),
            None if matches!(self.b, StoredSlot::Empty) && !matches!(self.a, StoredSlot::Empty) => {
                SlotSide::B
            }
            None => SlotSide::A,
        }
    }

    /// The counters and sums of the copies that open.
    pub(super) fn marks(&self) -> impl Iterator<Item = (u64, &str)> {
        let whole = [&self.a, &self.b].into_iter().filter_map(StoredSlot::whole);
        whole.map(|whole| (whole.counter, whole.sum.as_str()))
    }

    /// The newer format one of the slots is in, if any.
    pub(super) fn future(&self) -> Option<u32> {
        [&self.a, &self.b].iter().find_map(|slot| match slot {
            StoredSlot::Bad {
                reason: Unreadable::FutureFormat(format),
                ..
            } => Some(*format),
            _ => None,
        })
    }
}

/// Writes, and goes by what is read back, whatever the shelf said.
pub(super) fn put_and_check(shelf: &dyn Shelf, key: &str, text: &str) -> Result<(), Fault> {
    let said = shelf.put(key, text);
    if shelf.get(key)?.as_deref() == Some(text) {
        return Ok(());
    }
    said?;
    Err(Fault::NotReadBack)
}

/// Takes away, and looks that it is gone.
pub(super) fn remove_and_check(shelf: &dyn Shelf, key: &str) -> Result<(), Fault> {
    shelf.remove(key)?;
    if shelf.get(key)?.is_none() {
        Ok(())
    } else {
        Err(Fault::NotReadBack)
    }
}

/// Copies a text that can't be read to a key of its own, whole: only then may its place be written over.
/// Returns that key.
pub(super) fn set_aside(
    shelf: &dyn Shelf,
    key: &str,
    text: &str,
    now: Instant,
) -> Result<String, Fault> {
    for later in 0..ASIDES_AT_ONCE {
        let aside = keys::aside(now.plus_ms(later), key);
        match shelf.get(&aside)? {
            Some(earlier) if earlier == text => return Ok(aside),
            Some(_) => {}
            None => return put_and_check(shelf, &aside, text).map(|()| aside),
        }
    }
    Err(Fault::NotReadBack)
}

/// Sets an unreadable text aside and frees its place. Returns where it is now; nothing when another tab has
/// dealt with it already: it is looked at afresh, since a good copy may stand there by now.
pub(super) fn move_aside(
    shelf: &dyn Shelf,
    key: &str,
    known: &KnownTexts,
    now: Instant,
) -> Result<Option<String>, Fault> {
    let StoredSlot::Bad { text, .. } = StoredSlot::read(shelf, key, known)? else {
        return Ok(None);
    };
    let aside = set_aside(shelf, key, &text, now)?;
    if shelf.get(key)?.as_deref() == Some(&text) {
        remove_and_check(shelf, key)?;
    }
    Ok(Some(aside))
}
