//! Changes that are made on the screen and not yet on the shelf, and what they are made on again.

use std::collections::BTreeMap;

use super::outcome::Held;
use super::slot::Pair;
use crate::refusal::Refusal;

/// A change of a record, or why it can't be made. Pure, since it may be made more than once.
pub(super) type Change<T> = dyn Fn(&T) -> Result<T, Refusal> + Send + Sync;

/// The waiting changes of every record, by id.
pub(super) struct Waiting<T>(BTreeMap<String, Line<T>>);

/// The waiting changes of one record, oldest first.
struct Line<T> {
    changes: Vec<Box<Change<T>>>,
    doubtful: Option<Doubtful>,
}

/// A copy that was written before the shelf could no longer be read: it may have arrived after all, and the
/// changes in it must not be made twice.
struct Doubtful {
    counter: u64,
    sum: String,
    /// How many of the waiting changes are in it.
    covers: usize,
}

/// The record that a change is made on.
pub(super) struct Start<T> {
    pub(super) record: T,
    pub(super) counter: u64,
    pub(super) merged: bool,
    pub(super) left_out: Vec<Refusal>,
}

impl<T: Clone> Start<T> {
    /// The record in hand, as it is.
    pub(super) fn in_hand(held: &Held<T>) -> Self {
        let (record, counter) = (held.record.clone(), held.counter);
        Self {
            record,
            counter,
            merged: false,
            left_out: Vec::new(),
        }
    }
}

impl<T: Clone> Waiting<T> {
    pub(super) fn none() -> Self {
        Self(BTreeMap::new())
    }

    pub(super) fn push(&mut self, id: &str, change: Box<Change<T>>) {
        self.line(id).changes.push(change);
    }

    /// Notes a copy that may have arrived: every waiting change is in it, and `more` that are not waiting yet.
    pub(super) fn doubt(&mut self, id: &str, counter: u64, sum: &str, more: usize) {
        let line = self.line(id);
        let covers = line.changes.len().saturating_add(more);
        line.doubtful = Some(Doubtful {
            counter,
            sum: sum.to_owned(),
            covers,
        });
    }

    /// Forgets a record's waiting changes: they are kept, or the record is gone.
    pub(super) fn clear(&mut self, id: &str) {
        self.0.remove(id);
    }

    /// The shelf's newest copy with the waiting changes made on it; nothing when no copy that opens is as
    /// new as `known`.
    pub(super) fn rebase(&self, id: &str, known: u64, pair: &Pair<T>) -> Option<Start<T>> {
        let newest = pair.newest().filter(|newest| newest.counter >= known)?;
        let line = self.0.get(id);
        let arrived = line.and_then(|line| line.arrived(pair));
        let own = arrived.map_or(known, |copy| copy.counter.max(known));
        let covered = arrived.map_or(0, |copy| copy.covers);
        let mut start = Start {
            record: newest.record.clone(),
            counter: newest.counter,
            merged: newest.counter > own,
            left_out: Vec::new(),
        };
        for change in line
            .iter()
            .flat_map(|line| line.changes.iter().skip(covered))
        {
            match change(&start.record) {
                Ok(record) => start.record = record,
                Err(refusal) => start.left_out.push(refusal),
            }
        }
        Some(start)
    }

    /// Ends the doubt, now that the shelf can be read: drops the waiting changes that are on it.
    pub(super) fn resolve(&mut self, id: &str, pair: &Pair<T>) {
        let Some(line) = self.0.get_mut(id) else {
            return;
        };
        if let Some(covered) = line.arrived(pair).map(|copy| copy.covers) {
            line.changes.drain(..covered.min(line.changes.len()));
        }
        line.doubtful = None;
    }

    fn line(&mut self, id: &str) -> &mut Line<T> {
        self.0.entry(id.to_owned()).or_insert_with(|| Line {
            changes: Vec::new(),
            doubtful: None,
        })
    }
}

impl<T> Line<T> {
    fn arrived(&self, pair: &Pair<T>) -> Option<&Doubtful> {
        self.doubtful
            .as_ref()
            .filter(|copy| pair.holds(copy.counter, &copy.sum))
    }
}
