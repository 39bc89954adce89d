//! How many changes of each tab are in a copy of a record: a version vector (Parker and others, Detection of mutual
//! inconsistency in distributed systems, IEEE Transactions on Software Engineering, 1983; from memory). It stands in the
//! copy itself, so that a tab need not have met the copies in between to know whether a change of its own is in one.

use serde::{Deserialize, Serialize};

/// The tabs that are remembered, at most: each start of the page is one, and those that wrote last stay.
const MOST_TABS: usize = 16;

/// Tabs by their number and how many changes each has made, who wrote last standing last.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(transparent)]
pub struct Tally(Vec<(u32, u32)>);

impl Tally {
    /// Whether it says nothing: builds before this one wrote none, and a file brings none along.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.0.is_empty()
    }

    /// How many changes of a tab are in the copy, of which `placed` were in one on the shelf. Where as many tabs are
    /// remembered as can be, a tab that is not among them may have been forgotten.
    pub(super) fn of(&self, tab: u32, placed: usize) -> usize {
        let known = self.0.iter().find(|(known, _)| *known == tab);
        match known {
            Some((_, count)) => usize::try_from(*count).unwrap_or(usize::MAX),
            None if self.0.len() >= MOST_TABS => placed,
            None => 0,
        }
    }

    /// The same where a tab has written last, with so many changes of its own.
    pub(super) fn with(&self, tab: u32, count: usize) -> Self {
        let others = self.0.iter().filter(|(known, _)| *known != tab).copied();
        let mut all: Vec<(u32, u32)> = others.collect();
        all.push((tab, u32::try_from(count).unwrap_or(u32::MAX)));
        let forgotten = all.len().saturating_sub(MOST_TABS);
        all.drain(..forgotten);
        Self(all)
    }

    /// Whether every change of the other is in this one as well, as far as that can be told.
    pub(super) fn holds_all_of(&self, other: &Self) -> bool {
        let held = |(tab, count): &(u32, u32)| {
            self.0
                .iter()
                .any(|(known, held)| known == tab && held >= count)
        };
        !other.is_empty() && other.0.iter().all(held)
    }

    /// What the checksum covers of it: a line for each tab.
    pub(super) fn lines(&self) -> String {
        let line = |(tab, count): &(u32, u32)| format!("{tab} {count}\n");
        self.0.iter().map(line).collect()
    }
}

#[cfg(test)]
mod tests {
    use super::{MOST_TABS, Tally};

    #[test]
    fn who_wrote_last_is_remembered_and_the_first_is_forgotten() {
        let tabs =
            |from: u32, to: u32| (from..to).fold(Tally::default(), |tally, tab| tally.with(tab, 5));
        let full = tabs(0, 16);
        assert_eq!(full.lines().lines().count(), MOST_TABS);
        let later = full.with(3, 6).with(16, 1);
        // The tab that was not heard of for longest is forgotten, so nobody knows how much of it is in.
        assert_eq!(later.of(0, 4), 4);
        assert_eq!((later.of(3, 0), later.of(16, 0)), (6, 1));
        // Where there is room, a tab that is not there has nothing in it.
        assert_eq!(tabs(0, 3).of(9, 4), 0);
    }

    #[test]
    fn one_copy_holds_another_where_no_tab_has_more_in_that() {
        let first = Tally::default().with(1, 2).with(2, 3);
        assert!(first.with(1, 3).holds_all_of(&first));
        assert!(!first.holds_all_of(&first.with(1, 3)));
        assert!(
            !first.holds_all_of(&first.with(9, 0)),
            "a tab that has written"
        );
        // What says nothing may hold anything.
        assert!(!first.holds_all_of(&Tally::default()));
    }
}
