//! When a backup is worth a gentle word.

use crate::base::id;
use crate::base::instant::Instant;

/// As many entries without a backup are worth a word.
pub const ENTRIES: usize = 10;

/// No more entries of a kind than the latest so many are read for a word: a phone may be full of demonstrations.
pub const LOOKED_AT: usize = 20;

/// Whether an entry may have been begun since the last backup, by its identity: if not, it need not be read for it.
#[must_use]
pub fn may_be_since(last: Option<Instant>, id: &str) -> bool {
    let both = id::begun(id).zip(last);
    both.is_none_or(|(begun, last)| begun > last)
}

/// Whether so many entries were begun since the last backup, if there was one, that a word is due.
pub fn is_due(last: Option<Instant>, begun: impl IntoIterator<Item = Instant>) -> bool {
    let since = begun
        .into_iter()
        .filter(|begun| last.is_none_or(|last| *begun > last));
    since.take(ENTRIES).count() >= ENTRIES
}

#[cfg(test)]
mod tests {
    use super::{ENTRIES, is_due};
    use crate::base::instant::Instant;

    #[test]
    fn a_word_is_due_after_ten_entries_without_a_backup() {
        let begun = |count: i64| (1..=count).map(|nth| Instant(nth * 1000));
        for (last, entries, due) in [
            (None, 0, false),
            (None, 9, false),
            (None, 10, true),
            (Some(0), 10, true),
            (Some(1000), 10, false),
            (Some(1000), 11, true),
            (Some(999_999), 500, false),
            // A clock that was ahead when the backup was made and is right again stays silent: a word too few.
            (Some(i64::MAX), 500, false),
        ] {
            let said = is_due(last.map(Instant), begun(entries));
            assert_eq!(said, due, "{entries} entries, last {last:?}");
        }
        assert_eq!(ENTRIES, 10);
    }
}
