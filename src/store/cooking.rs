//! Which fish may still ring, written down beside them, so that a page that starts need not read all fish for it.
//!
//! It is a hint and no record: a phone that was killed between a fish and the hint has one too few or one too many.
//! So every fish is looked at in idle time after the start, and a fish that is read speaks for itself.

use super::keys;
use super::shelf::Shelf;
use super::standing;
use crate::base::id::is_id;

/// More fish than this don't cook at once; a text that says so was damaged.
const MOST: usize = 64;

/// The fish that are written down. Nothing where the shelf can't be read.
#[must_use]
pub fn hinted(shelf: &dyn Shelf) -> Vec<String> {
    let text = shelf.get(keys::COOKING).ok().flatten().unwrap_or_default();
    let ids = text.split(' ').filter(|id| is_id(id));
    ids.take(MOST).map(str::to_owned).collect()
}

/// Writes down, as `build`, that a fish cooks, or does no longer. A shelf that does not take it costs nothing but time
/// at the next start.
pub fn hint(shelf: &dyn Shelf, build: u64, id: &str, cooks: bool) {
    let mut ids = hinted(shelf);
    let is_known = ids.iter().any(|known| known == id);
    if is_known == cooks || standing::may_write(shelf, build).is_err() {
        return;
    }
    ids.retain(|known| known != id);
    if cooks {
        ids.push(id.to_owned());
    }
    let _ = if ids.is_empty() {
        shelf.remove(keys::COOKING)
    } else {
        shelf.put(keys::COOKING, &ids.join(" "))
    };
}
