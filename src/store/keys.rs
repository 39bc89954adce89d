//! Every key Scaleside uses, in one place: nothing else on the shelf is ever touched. A copy of the app in a folder of its
//! host has the folder before each.
//!
//! | key | holds |
//! | --- | --- |
//! | `scaleside/build` | the newest build that has written here, in decimal |
//! | `scaleside/<format>/<kind>/<id>/a` and `/b` | the two latest copies of one record, each sealed |
//! | `scaleside/cooking` | the fish whose timers may still ring, a hint: see [`super::cooking`] |
//! | `scaleside/gone/<kind>/<id>` | that a record was removed, and which copies of it: see [`super::gone`] |
//! | `scaleside/asked` | when the browser was asked to keep all this |
//! | `scaleside stuck/<kind>/<id>/<side>` | a record that was set aside because its screen stops the app, until the next start |
//! | `scaleside clock` | the time that is counted, of this browser alone: see `device/clock.rs` |
//! | `scaleside/settled` | when a copy in a folder took over what stands under the names of the top of its host |
//! | `scaleside/aside/<ms>/<key>` | a text that could not be read, as it was found under `<key>` |

use std::collections::{BTreeMap, BTreeSet};

use super::envelope::FORMAT;
use super::shelf::{Shelf, ShelfFault};
use crate::base::id::is_id;
use crate::base::instant::Instant;

/// The newest build that has written here.
pub const BUILD: &str = "scaleside/build";

/// The fish whose timers may still ring.
pub(super) const COOKING: &str = "scaleside/cooking";

/// When the browser was asked to keep all this.
pub const ASKED: &str = "scaleside/asked";

/// When a copy in a folder took over what stands under the names of the top of its host.
pub const SETTLED: &str = "scaleside/settled";

/// What the key of every removal begins with.
const GONE: &str = "scaleside/gone/";

/// What every key of ours begins with.
const OURS: &str = "scaleside/";

/// What every key of a text that was set aside begins with.
const ASIDE: &str = "scaleside/aside/";

/// Which of a record's two slots.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum SlotSide {
    A,
    B,
}

impl SlotSide {
    pub(super) const BOTH: [Self; 2] = [Self::A, Self::B];

    pub(super) fn other(self) -> Self {
        match self {
            Self::A => Self::B,
            Self::B => Self::A,
        }
    }
}

/// The key of one slot.
pub(super) fn slot(kind: &str, id: &str, side: SlotSide) -> String {
    let side = match side {
        SlotSide::A => 'a',
        SlotSide::B => 'b',
    };
    format!("{OURS}{FORMAT}/{kind}/{id}/{side}")
}

/// A key of a record, for those who go by the key that was written to.
#[must_use]
pub fn of(kind: &str, id: &str) -> String {
    slot(kind, id, SlotSide::A)
}

/// The id of the record whose slot `key` is, when it is a key of this kind and of this format.
#[must_use]
pub fn id_of<'k>(kind: &str, key: &'k str) -> Option<&'k str> {
    let id = key.split('/').nth(3).filter(|id| is_id(id))?;
    SlotSide::BOTH
        .iter()
        .any(|side| slot(kind, id, *side) == key)
        .then_some(id)
}

/// The key that tells of the removal of a record.
pub(super) fn gone(kind: &str, id: &str) -> String {
    format!("{GONE}{kind}/{id}")
}

/// Whether a key is one of ours.
#[must_use]
pub fn is_ours(key: &str) -> bool {
    key.starts_with(OURS)
}

/// The kind and the id of the record that `key` belongs to: of this format, or of a removal.
pub(super) fn record_of(key: &str) -> Option<(&str, &str)> {
    if let Some(rest) = key.strip_prefix(GONE) {
        return rest.split_once('/').filter(|(_, id)| is_id(id));
    }
    let kind = key.split('/').nth(2)?;
    Some((kind, id_of(kind, key)?))
}

/// The name under which two homes compare what belongs together: one for all keys of a record, any other key its own.
#[must_use]
pub fn name_of(key: &str) -> String {
    record_of(key).map_or_else(|| key.to_owned(), |(kind, id)| of(kind, id))
}

/// Every key that belongs to such a name.
#[must_use]
pub fn under(name: &str) -> Vec<String> {
    match record_of(name) {
        Some((kind, id)) => {
            let [a, b] = SlotSide::BOTH.map(|side| slot(kind, id, side));
            vec![a, b, gone(kind, id)]
        }
        None => vec![name.to_owned()],
    }
}

/// Every record among `keys`: the ids of each kind of this format.
pub(super) fn records(keys: &[String]) -> BTreeMap<String, BTreeSet<String>> {
    let mut found: BTreeMap<String, BTreeSet<String>> = BTreeMap::new();
    for key in keys {
        if let Some(kind) = key.split('/').nth(2)
            && let Some(id) = id_of(kind, key)
        {
            let ids = found.entry(kind.to_owned()).or_default();
            ids.insert(id.to_owned());
        }
    }
    found
}

/// The format of a record's key, of any kind; nothing for other keys.
pub(super) fn format_of(key: &str) -> Option<u32> {
    key.strip_prefix(OURS)?.split('/').next()?.parse().ok()
}

/// Where the text found under `key` is set aside at `now`.
pub(super) fn aside(now: Instant, key: &str) -> String {
    format!("{ASIDE}{}/{key}", now.0)
}

/// Every text that was set aside, under its key, the earliest first.
///
/// # Errors
/// [`ShelfFault`] when the shelf can't be read.
pub fn asides(shelf: &dyn Shelf) -> Result<BTreeMap<String, String>, ShelfFault> {
    let mut found = BTreeMap::new();
    for key in shelf.keys()? {
        if key.starts_with(ASIDE)
            && let Some(text) = shelf.get(&key)?
        {
            found.insert(key, text);
        }
    }
    Ok(found)
}

/// The room that keys and texts of ours take, in bytes as browsers count them: two for each UTF-16 unit.
///
/// # Errors
/// [`ShelfFault`] when the shelf can't be read.
pub fn used_bytes(shelf: &dyn Shelf) -> Result<u64, ShelfFault> {
    let mut units = 0;
    for key in shelf
        .keys()?
        .into_iter()
        .filter(|key| key.starts_with(OURS))
    {
        let text = shelf.get(&key)?.unwrap_or_default();
        units += key.encode_utf16().count() + text.encode_utf16().count();
    }
    Ok(2 * units as u64)
}
