//! The changes of this tab that may have to be made again: those that are not on the shelf yet, and those of the
//! last moments, which another tab that wrote in the same instant may have written over.

use std::collections::{BTreeMap, VecDeque};

use super::envelope::{next, writes};
use super::known::Whole;
use super::slot::Pair;
use super::tally::Tally;
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

/// The changes of every record, by id.
pub(super) struct Waiting {
    /// The number of this tab.
    tab: u32,
    lines: BTreeMap<String, Untaken>,
}

/// The changes of one record, oldest first.
#[derive(Default)]
struct Untaken {
    changes: VecDeque<(Instant, Box<TextChange>)>,
    /// How many changes of this tab were there before the first of them: of a record that was taken away since or begun
    /// anew, and those that are in for long enough.
    gone: usize,
    /// How many changes, from the first one on, have been in a copy that may have arrived.
    placed: usize,
    /// The counter of the last copy that this tab wrote.
    wrote: u64,
    /// The counter of the newest copy that was there before the first change, and how many were gone by then; nothing
    /// before that.
    met: Option<(u64, usize)>,
}

/// The record that a change is made on.
pub(super) struct ChangeBase {
    pub(super) body: String,
    /// The counter of the copy it was read from, or of the one in hand.
    pub(super) counter: u64,
    /// How many changes of each tab are in it.
    pub(super) tally: Tally,
    pub(super) merged: bool,
    pub(super) left_out: Vec<Refusal>,
}

impl ChangeBase {
    /// The record in hand, as it is.
    pub(super) fn in_hand(held: &InHand<'_>) -> Result<Self, Refusal> {
        Ok(Self {
            body: (held.text)()?,
            counter: held.counter,
            tally: held.tally.clone(),
            merged: false,
            left_out: Vec::new(),
        })
    }
}

impl Waiting {
    /// None yet, of the tab of this number.
    pub(super) fn of(tab: u32) -> Self {
        Self {
            tab,
            lines: BTreeMap::new(),
        }
    }

    pub(super) fn push(&mut self, id: &str, change: Box<TextChange>, now: Instant) {
        self.line(id).changes.push_back((now, change));
    }

    /// The counter of a copy that this tab makes on one with `counter`.
    pub(super) fn next(&self, counter: u64) -> u64 {
        next(counter, self.tab)
    }

    /// What is in a copy that holds every change of this tab, and `more` that are not noted yet.
    pub(super) fn tally(&self, id: &str, base: &Tally, more: usize) -> Tally {
        let count = self.lines.get(id).map_or(0, Untaken::count);
        base.with(self.tab, count.saturating_add(more))
    }

    /// Notes a copy that was written.
    pub(super) fn wrote(&mut self, id: &str, whole: &Whole) {
        let tab = self.tab;
        let line = self.line(id);
        line.placed = whole.tally.of(tab, line.placed);
        line.wrote = whole.counter;
    }

    /// Whether the changes of this tab began with a copy older than that with `counter`, as long as all of them can be
    /// made again.
    pub(super) fn began_before(&self, id: &str, counter: u64) -> bool {
        self.lines.get(id).is_some_and(|line| {
            let (met, gone) = line.met.unwrap_or((u64::MAX, 0));
            !line.changes.is_empty() && line.gone == gone && writes(counter) > writes(met)
        })
    }

    /// Forgets a record's changes: it is gone. They are counted on, so that what is made of the record later is told
    /// from what was.
    pub(super) fn clear(&mut self, id: &str) {
        let line = self.line(id);
        line.gone = line.count();
        line.changes.clear();
        line.met = None;
    }

    /// A record begins: that counts as a change, which nobody needs to make again.
    pub(super) fn begin(&mut self, id: &str) {
        self.clear(id);
        let line = self.line(id);
        line.gone = line.gone.saturating_add(1);
    }

    /// The shelf's newest copy with the changes made on it that are not in it; nothing when no copy that
    /// opens is as new as `known`.
    pub(super) fn rebase(&self, id: &str, known: u64, pair: &Pair) -> Option<ChangeBase> {
        let newest = pair.newest();
        let newest = newest.filter(|newest| writes(newest.counter) >= writes(known))?;
        let wrote = self.lines.get(id).map_or(0, |line| line.wrote);
        let mut start = ChangeBase {
            body: newest.body.clone(),
            counter: newest.counter,
            tally: newest.tally.clone(),
            merged: ![known, wrote].contains(&newest.counter),
            left_out: Vec::new(),
        };
        for change in self.missing(id, newest) {
            match change(&start.body) {
                Ok(body) => start.body = body,
                Err(refusal) => start.left_out.push(refusal),
            }
            start.tally = self.tally(id, &newest.tally, 0);
        }
        Some(start)
    }

    /// Whether a change of this tab is not in the newest copy.
    pub(super) fn is_missing(&self, id: &str, pair: &Pair) -> bool {
        let newest = pair.newest();
        newest.is_some_and(|newest| self.missing(id, newest).next().is_some())
    }

    /// Forgets the changes that are in the newest copy for long enough.
    pub(super) fn settle(&mut self, id: &str, pair: &Pair, now: Instant) {
        let tab = self.tab;
        let line = self.line(id);
        let newest = pair.newest();
        let met = newest.map_or(0, |newest| newest.counter);
        line.met.get_or_insert((met, line.gone));
        let covered = newest.map_or(0, |newest| newest.tally.of(tab, line.placed));
        while line.gone < covered
            && let Some((made, _)) = line.changes.front()
            && (line.changes.len() > MOST_FRESH || now.ms_since(*made) > FRESH_MS)
        {
            line.changes.pop_front();
            line.gone = line.gone.saturating_add(1);
        }
    }

    /// The changes that are not in a copy.
    fn missing<'a>(&'a self, id: &str, copy: &Whole) -> impl Iterator<Item = &'a TextChange> {
        let line = self.lines.get(id).into_iter();
        let missing = line.flat_map(move |line| {
            let covered = copy.tally.of(self.tab, line.placed);
            line.changes.iter().skip(covered.saturating_sub(line.gone))
        });
        missing.map(|(_, change)| change.as_ref())
    }

    fn line(&mut self, id: &str) -> &mut Untaken {
        self.lines.entry(id.to_owned()).or_default()
    }
}

impl Untaken {
    fn count(&self) -> usize {
        self.gone.saturating_add(self.changes.len())
    }
}
