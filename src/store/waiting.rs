//! The changes of this tab that may have to be made again: those that are not on the shelf yet, and those of the
//! last moments, which another tab that wrote in the same instant may have written over.

use std::collections::{BTreeMap, VecDeque};

use super::envelope::{is_child, next, writes};
use super::slot::Pair;
use super::texts::InHand;
use crate::base::instant::Instant;
use crate::base::refusal::Refusal;

/// A change of a record's text, or why it can't be made. Pure, since it may be made more than once.
pub(super) type TextChange = dyn Fn(&str) -> Result<String, Refusal> + Send + Sync;

/// How long a change that is on the shelf is remembered, in milliseconds: by then every tab has heard of it, and the
/// second home has told what it has.
const FRESH_MS: i64 = 60_000;
/// How many of them are, at most.
const MOST_FRESH: usize = 64;
/// How many copies of this tab, and of all tabs, are remembered, at most.
const MOST_COPIES: usize = 64;

/// The changes of every record, by id.
pub(super) struct Waiting(BTreeMap<String, Untaken>);

/// The changes of one record, oldest first.
struct Untaken {
    changes: VecDeque<(Instant, Box<TextChange>)>,
    /// How many changes were there before the first of them.
    forgotten: usize,
    copies: VecDeque<Copied>,
    /// The counters and sums of the copies that were seen, of whichever tab.
    seen: VecDeque<(u64, String)>,
    /// The counter of the newest copy that was there before the first change; nothing before that.
    met: Option<u64>,
    /// The sums of copies that were made before this page began, and came later than its first change.
    strangers: VecDeque<String>,
}

/// A copy that this tab wrote, and that may have arrived.
struct Copied {
    counter: u64,
    sum: String,
    /// How many changes are in it, the forgotten ones counted.
    covers: usize,
}

/// The record that a change is made on.
pub(super) struct ChangeBase {
    pub(super) body: String,
    /// The counter of the copy it was read from, or of the one in hand.
    pub(super) counter: u64,
    /// The sum of that copy; nothing when it is the one in hand.
    pub(super) sum: Option<String>,
    pub(super) merged: bool,
    pub(super) left_out: Vec<Refusal>,
}

impl ChangeBase {
    /// The record in hand, as it is.
    pub(super) fn in_hand(held: &InHand<'_>) -> Result<Self, Refusal> {
        Ok(Self {
            body: (held.text)()?,
            counter: held.counter,
            sum: None,
            merged: false,
            left_out: Vec::new(),
        })
    }

    /// The counter of a copy made on this.
    pub(super) fn next(&self) -> u64 {
        next(self.counter, self.sum.as_deref().unwrap_or_default())
    }
}

impl Waiting {
    pub(super) fn none() -> Self {
        Self(BTreeMap::new())
    }

    pub(super) fn push(&mut self, id: &str, change: Box<TextChange>, now: Instant) {
        self.line(id).changes.push_back((now, change));
    }

    /// Notes a copy that was written: every change is in it, and `more` that are not noted yet.
    pub(super) fn wrote(&mut self, id: &str, counter: u64, sum: &str, more: usize) {
        let line = self.line(id);
        line.see(counter, sum);
        let covers = line.count().saturating_add(more);
        line.copies.push_back(Copied {
            counter,
            sum: sum.to_owned(),
            covers,
        });
        if line.copies.len() > MOST_COPIES {
            line.copies.pop_front();
        }
    }

    /// Notes a copy that was seen, even before this tab has changed the record: it may be written over by an older
    /// one before the first change here, and only it tells later what that change is not in.
    pub(super) fn see(&mut self, id: &str, counter: u64, sum: &str) {
        self.line(id).see(counter, sum);
    }

    /// As [`Waiting::see`], of a copy that no change of this tab can be in.
    pub(super) fn see_stranger(&mut self, id: &str, counter: u64, sum: &str) {
        let line = self.line(id);
        line.see(counter, sum);
        line.strangers.push_back(sum.to_owned());
        if line.strangers.len() > MOST_COPIES {
            line.strangers.pop_front();
        }
    }

    /// Whether a copy was made after the one that the changes of this tab began with, and none of them saw it; as long
    /// as all of them can be made again.
    pub(super) fn is_stranger(&self, id: &str, counter: u64, sum: &str) -> bool {
        self.0.get(id).is_some_and(|line| {
            line.forgotten == 0
                && !line.changes.is_empty()
                && line.met.is_some_and(|met| writes(counter) > writes(met))
                && !line.seen.iter().any(|(_, seen)| seen == sum)
        })
    }

    /// Forgets a record's changes: it is gone.
    pub(super) fn clear(&mut self, id: &str) {
        self.0.remove(id);
    }

    /// The shelf's newest copy with the changes made on it that are not in it; nothing when no copy that
    /// opens is as new as `known`.
    pub(super) fn rebase(&self, id: &str, known: u64, pair: &Pair) -> Option<ChangeBase> {
        let newest = pair.newest();
        let newest = newest.filter(|newest| writes(newest.counter) >= writes(known))?;
        let line = self.0.get(id);
        let arrived = line.and_then(|line| line.arrived(pair));
        let own = arrived.map_or(known, |copy| copy.counter.max(known));
        let mut start = ChangeBase {
            body: newest.body.clone(),
            counter: newest.counter,
            sum: Some(newest.sum.clone()),
            merged: newest.counter > own,
            left_out: Vec::new(),
        };
        for change in line.into_iter().flat_map(|line| line.missing(pair)) {
            match change(&start.body) {
                Ok(body) => start.body = body,
                Err(refusal) => start.left_out.push(refusal),
            }
        }
        Some(start)
    }

    /// Whether a change of this tab is not in the newest copy.
    pub(super) fn is_missing(&self, id: &str, pair: &Pair) -> bool {
        let line = self.0.get(id);
        line.is_some_and(|line| line.missing(pair).next().is_some())
    }

    /// Forgets the changes that are in the newest copy for long enough.
    pub(super) fn settle(&mut self, id: &str, pair: &Pair, now: Instant) {
        let line = self.line(id);
        for (counter, sum) in pair.marks() {
            line.see(counter, sum);
        }
        let newest = pair.newest().map_or(0, |newest| newest.counter);
        line.met.get_or_insert(newest);
        let covered = line.arrived(pair).map_or(0, |copy| copy.covers);
        while line.forgotten < covered
            && let Some((made, _)) = line.changes.front()
            && (line.changes.len() > MOST_FRESH || now.ms_since(*made) > FRESH_MS)
        {
            line.changes.pop_front();
            line.forgotten = line.forgotten.saturating_add(1);
        }
    }

    fn line(&mut self, id: &str) -> &mut Untaken {
        self.0.entry(id.to_owned()).or_insert_with(|| Untaken {
            changes: VecDeque::new(),
            forgotten: 0,
            copies: VecDeque::new(),
            seen: VecDeque::new(),
            met: None,
            strangers: VecDeque::new(),
        })
    }
}

impl Untaken {
    fn count(&self) -> usize {
        self.forgotten.saturating_add(self.changes.len())
    }

    fn see(&mut self, counter: u64, sum: &str) {
        if self.seen.iter().any(|(_, seen)| seen == sum) {
            return;
        }
        self.seen.push_back((counter, sum.to_owned()));
        if self.seen.len() > MOST_COPIES {
            self.seen.pop_front();
        }
    }

    /// The latest copy of this tab that is in the newest one.
    fn arrived(&self, pair: &Pair) -> Option<&Copied> {
        let newest = pair.newest()?;
        let mut copies = self.copies.iter().rev();
        copies.find(|copy| self.is_in(copy, newest.counter, &newest.sum, pair))
    }

    /// Whether the copy with this counter and sum is `copy`, or was made on it, as far as that can be told:
    /// where the copies in between were never seen, it is taken to be so.
    fn is_in(&self, copy: &Copied, counter: u64, sum: &str, pair: &Pair) -> bool {
        let (mut counter, mut sum) = (counter, sum);
        loop {
            if sum == copy.sum {
                return true;
            }
            if self.strangers.iter().any(|stranger| stranger == sum) {
                return false;
            }
            if writes(counter) <= writes(copy.counter) {
                return false;
            }
            let seen = self
                .seen
                .iter()
                .map(|(counter, sum)| (*counter, sum.as_str()));
            let parent = pair.marks().chain(seen).find(|(older, its_sum)| {
                writes(*older).saturating_add(1) == writes(counter) && is_child(counter, its_sum)
            });
            match parent {
                Some(older) => (counter, sum) = older,
                None if writes(counter) == writes(copy.counter).saturating_add(1) => return false,
                None => return true,
            }
        }
    }

    /// The changes that are not in the newest copy.
    fn missing<'a>(&'a self, pair: &Pair) -> impl Iterator<Item = &'a TextChange> {
        let covered = self.arrived(pair).map_or(0, |copy| copy.covers);
        let there = covered.saturating_sub(self.forgotten);
        let missing = self.changes.iter().skip(there);
        missing.map(|(_, change)| change.as_ref())
    }
}
