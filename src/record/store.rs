//! Keeps records of one kind, so that nothing that can happen to a phone costs more than the last tap.
//!
//! - A tap writes one record, not the list: two slots a record, and a write goes to the slot that does not
//!   hold the newest good copy. A torn write leaves the copy before it.
//! - What can't be read is copied aside before its place is used again, and where that fails it stays.
//! - A change is a function, so that it can be made on top of what another tab has stored meanwhile, and
//!   made again when it could not be kept at first.
//!
//! Two tabs that write the same record in the very same moment: whoever reads back the other's text makes
//! the change again on top of it. What is left is the instant between that reading and the next writing,
//! which no synchronous store can close; a lock held by the device around a commit does.

use std::collections::BTreeMap;

use serde::Serialize;
use serde::de::DeserializeOwned;

use super::envelope::{self, Unsealable};
use super::keys;
use super::outcome::{AsideNote, Fault, Held, Loaded, Outcome};
use super::shelf::Shelf;
use super::slot::{self, Pair, Slot};
use super::standing::{self, Newer, Standing};
use crate::instant::Instant;
use crate::refusal::Refusal;

/// How often a change is made again when another tab writes in the same moment.
const ROUNDS: u32 = 4;

type Change<T> = dyn Fn(&T) -> Result<T, Refusal> + Send + Sync;

/// Keeps records of one kind on a shelf. In memory it holds only the changes that are not kept yet.
pub struct Store<T> {
    kind: &'static str,
    build: u64,
    unkept: BTreeMap<String, Unkept<T>>,
}

/// Changes of one record that are made on the screen and not on the shelf.
struct Unkept<T> {
    changes: Vec<Box<Change<T>>>,
    /// The marks of a copy that was written and could not be read back: it may have arrived after all.
    tried: Option<(u64, String)>,
}

/// The record that a change is made on.
struct Start<T> {
    record: T,
    counter: u64,
    merged: bool,
    left_out: Vec<Refusal>,
}

impl<T: Clone + Serialize + DeserializeOwned> Store<T> {
    /// A store for records under `scaleside/<format>/<kind>/`, written by `build`, a number that grows with
    /// every deployment.
    #[must_use]
    pub fn new(kind: &'static str, build: u64) -> Self {
        Self {
            kind,
            build,
            unkept: BTreeMap::new(),
        }
    }

    /// Reads every record of this kind. Never fails: what can't be read is moved aside whole and noted, or
    /// left where it is when that is not possible or when a newer build owns the shelf.
    pub fn load_all(&self, shelf: &dyn Shelf, now: Instant) -> Loaded<T> {
        let mut loaded = Loaded {
            records: Vec::new(),
            aside: Vec::new(),
            faults: Vec::new(),
            standing: Standing::Writing,
        };
        let keys = match standing::standing(shelf, self.build).and_then(|standing| {
            loaded.standing = standing;
            shelf.keys()
        }) {
            Ok(keys) => keys,
            Err(fault) => {
                loaded.faults.push(fault.into());
                return loaded;
            }
        };
        let mut newest: BTreeMap<&str, Held<T>> = BTreeMap::new();
        let mut bad = Vec::new();
        for key in &keys {
            let Some((id, _)) = keys::read_slot(self.kind, key) else {
                continue;
            };
            match Slot::<T>::read(shelf, key) {
                Err(fault) => loaded.faults.push(fault.into()),
                Ok(Slot::Empty) => {}
                Ok(Slot::Bad { text, reason }) => bad.push((key, text, reason)),
                Ok(Slot::Good(whole)) => {
                    if newest
                        .get(id)
                        .is_none_or(|held| held.counter < whole.counter)
                    {
                        let (record, counter) = (whole.record, whole.counter);
                        newest.insert(
                            id,
                            Held {
                                id: id.to_owned(),
                                record,
                                counter,
                            },
                        );
                    }
                }
            }
        }
        loaded.records = newest.into_values().collect();
        for (key, text, reason) in bad {
            if let envelope::Unreadable::FutureFormat(format) = reason {
                loaded.standing = Standing::ReadOnly {
                    why: Newer::Format(format),
                };
            }
            let moved = match loaded.standing {
                Standing::ReadOnly { .. } => Ok(None),
                Standing::Writing => move_aside(shelf, key, &text, now).map(Some),
            };
            let moved_to = moved.unwrap_or_else(|fault| {
                loaded.faults.push(fault);
                None
            });
            loaded.aside.push(AsideNote {
                key: key.clone(),
                moved_to,
                reason,
            });
        }
        loaded
    }

    /// The record as it stands now, with the changes that are waiting to be kept: for when another tab has
    /// changed it. Nothing when there is none on the shelf.
    ///
    /// # Errors
    /// [`Fault::Shelf`] when the shelf can't be read.
    pub fn reread(&self, shelf: &dyn Shelf, id: &str) -> Result<Option<Held<T>>, Fault> {
        let pair = Pair::read(shelf, self.kind, id)?;
        Ok(self.rebase(id, 0, &pair).map(|start| Held {
            id: id.to_owned(),
            record: start.record,
            counter: start.counter,
        }))
    }

    /// The id of the record that `key` belongs to, when it is one of this kind.
    #[must_use]
    pub fn id_of<'k>(&self, key: &'k str) -> Option<&'k str> {
        keys::read_slot(self.kind, key).map(|(id, _)| id)
    }

    /// Stores a new record.
    pub fn create(&mut self, shelf: &dyn Shelf, id: &str, record: T, now: Instant) -> Outcome<T> {
        let held = Held {
            id: id.to_owned(),
            record,
            counter: 0,
        };
        let taken = Pair::<T>::read(shelf, self.kind, id).is_ok_and(|pair| pair.newest().is_some());
        if taken {
            return Outcome::Refused(Refusal::new("There is already an entry with this number."));
        }
        self.retry(shelf, &held, now)
    }

    /// Makes `change` on the newest state of a record and stores it.
    ///
    /// `change` must be pure: it is made again on top of another tab's work, or when it was not kept.
    pub fn commit(
        &mut self,
        shelf: &dyn Shelf,
        held: &Held<T>,
        now: Instant,
        change: impl Fn(&T) -> Result<T, Refusal> + Send + Sync + 'static,
    ) -> Outcome<T> {
        let outcome = self.write(shelf, held, now, &change);
        if matches!(outcome, Outcome::NotKept { .. }) {
            self.waiting(&held.id).changes.push(Box::new(change));
        }
        outcome
    }

    /// Stores what was not kept so far, without a change of its own.
    pub fn retry(&mut self, shelf: &dyn Shelf, held: &Held<T>, now: Instant) -> Outcome<T> {
        self.write(shelf, held, now, &|record| Ok(record.clone()))
    }

    /// Drops the older copy of a record that is finished, to halve its room. The next change is written
    /// beside the copy that is left, so a torn write still costs no more than itself.
    ///
    /// # Errors
    /// [`Fault`] says why both copies may still be there.
    pub fn settle(&self, shelf: &dyn Shelf, id: &str) -> Result<(), Fault> {
        standing::may_write(shelf, self.build)?;
        let pair = Pair::<T>::read(shelf, self.kind, id)?;
        match (pair.newest_side(), &pair.a, &pair.b) {
            (Some(newest), Slot::Good(_), Slot::Good(_)) => {
                slot::remove_and_check(shelf, &keys::slot(self.kind, id, newest.other()))
            }
            _ => Ok(()),
        }
    }

    /// Takes a record off the shelf. A copy that can't be read is set aside first.
    ///
    /// # Errors
    /// [`Fault::ChangedElsewhere`] when another tab has changed it since `held` was read; otherwise why it
    /// may still be there. The newest copy goes last.
    pub fn remove(&mut self, shelf: &dyn Shelf, held: &Held<T>, now: Instant) -> Result<(), Fault> {
        standing::may_write(shelf, self.build)?;
        let pair = Pair::read(shelf, self.kind, &held.id)?;
        if let Some(format) = pair.future() {
            return Err(Fault::ReadOnly(Newer::Format(format)));
        }
        if self
            .rebase(&held.id, held.counter, &pair)
            .is_some_and(|start| start.merged)
        {
            return Err(Fault::ChangedElsewhere);
        }
        for side in [pair.target(), pair.target().other()] {
            let key = keys::slot(self.kind, &held.id, side);
            match pair.at(side) {
                Slot::Empty => {}
                Slot::Good(_) => slot::remove_and_check(shelf, &key)?,
                Slot::Bad { text, .. } => {
                    move_aside(shelf, &key, text, now)?;
                }
            }
        }
        self.unkept.remove(&held.id);
        Ok(())
    }

    fn write(
        &mut self,
        shelf: &dyn Shelf,
        held: &Held<T>,
        now: Instant,
        change: &dyn Fn(&T) -> Result<T, Refusal>,
    ) -> Outcome<T> {
        if !keys::is_id(&held.id) {
            return Outcome::Refused(Refusal::new("An entry can't be kept under this name."));
        }
        let mut fault = Fault::ChangedElsewhere;
        let mut latest = held.clone();
        for _ in 0..ROUNDS {
            let pair = Pair::read(shelf, self.kind, &held.id);
            let start = match &pair {
                Ok(pair) => self.start(held, pair),
                Err(_) => Start::unchanged(held),
            };
            let record = match change(&start.record) {
                Ok(record) => record,
                Err(refusal) => return Outcome::Refused(refusal),
            };
            latest = Held {
                id: held.id.clone(),
                record,
                counter: start.counter,
            };
            let counter = start.counter.saturating_add(1);
            let text = match envelope::seal(&latest.record, counter, self.build) {
                Ok(text) => text,
                Err(why) => return Outcome::Refused(refusal(why)),
            };
            match pair
                .map_err(Fault::from)
                .and_then(|pair| self.place(shelf, held, &pair, &text, now))
            {
                Ok(()) => {
                    self.unkept.remove(&held.id);
                    let held = Held { counter, ..latest };
                    let Start {
                        merged, left_out, ..
                    } = start;
                    return Outcome::Kept {
                        held,
                        merged,
                        left_out,
                    };
                }
                Err(Fault::ChangedElsewhere) => {}
                Err(other) => {
                    fault = other;
                    break;
                }
            }
        }
        Outcome::NotKept {
            held: latest,
            fault,
        }
    }

    /// Puts a sealed text where it destroys nothing, and reads it back.
    fn place(
        &mut self,
        shelf: &dyn Shelf,
        held: &Held<T>,
        pair: &Pair<T>,
        text: &str,
        now: Instant,
    ) -> Result<(), Fault> {
        if let Some(format) = pair.future() {
            return Err(Fault::ReadOnly(Newer::Format(format)));
        }
        standing::claim(shelf, self.build, now)?;
        let target = pair.target();
        let key = keys::slot(self.kind, &held.id, target);
        if let Slot::Bad {
            text: unreadable, ..
        } = pair.at(target)
        {
            slot::set_aside(shelf, &key, unreadable, now)?;
        }
        if let Ok(opened) = envelope::open(text) {
            self.waiting(&held.id).tried = Some((opened.counter, opened.sum.to_owned()));
        }
        match slot::put_and_check(shelf, &key, text) {
            Err(Fault::NotReadBack) if Slot::<T>::read(shelf, &key)?.whole().is_some() => {
                Err(Fault::ChangedElsewhere)
            }
            other => other,
        }
    }

    /// What the next change of `held` is made on: the shelf's newest copy and the changes waiting to be
    /// kept; or the record in hand, when it is newer than anything that opens.
    fn start(&mut self, held: &Held<T>, pair: &Pair<T>) -> Start<T> {
        let start = self.rebase(&held.id, held.counter, pair);
        if self.arrived(&held.id, pair).is_some() {
            self.unkept.remove(&held.id);
        }
        start.unwrap_or_else(|| Start::unchanged(held))
    }

    fn rebase(&self, id: &str, known: u64, pair: &Pair<T>) -> Option<Start<T>> {
        let newest = pair.newest().filter(|newest| newest.counter >= known)?;
        let arrived = self.arrived(id, pair);
        let mut start = Start {
            record: newest.record.clone(),
            counter: newest.counter,
            merged: newest.counter > known.max(arrived.unwrap_or(0)),
            left_out: Vec::new(),
        };
        let waiting = self.unkept.get(id).filter(|_| arrived.is_none());
        for change in waiting.iter().flat_map(|unkept| &unkept.changes) {
            match change(&start.record) {
                Ok(record) => start.record = record,
                Err(refusal) => start.left_out.push(refusal),
            }
        }
        Some(start)
    }

    /// The count of the copy that was written without being read back, when it has arrived after all. The
    /// changes that were waiting are then in it, and must not be made twice.
    fn arrived(&self, id: &str, pair: &Pair<T>) -> Option<u64> {
        let (counter, sum) = self.unkept.get(id)?.tried.as_ref()?;
        pair.holds(*counter, sum).then_some(*counter)
    }

    fn waiting(&mut self, id: &str) -> &mut Unkept<T> {
        self.unkept.entry(id.to_owned()).or_insert_with(|| Unkept {
            changes: Vec::new(),
            tried: None,
        })
    }
}

impl<T: Clone> Start<T> {
    fn unchanged(held: &Held<T>) -> Self {
        let (record, counter) = (held.record.clone(), held.counter);
        Self {
            record,
            counter,
            merged: false,
            left_out: Vec::new(),
        }
    }
}

fn move_aside(shelf: &dyn Shelf, key: &str, text: &str, now: Instant) -> Result<String, Fault> {
    let aside = slot::set_aside(shelf, key, text, now)?;
    slot::remove_and_check(shelf, key)?;
    Ok(aside)
}

fn refusal(why: Unsealable) -> Refusal {
    Refusal::new(match why {
        Unsealable::TooLong => "This entry has grown too long to keep: shorten its notes.",
        Unsealable::NoText => "This can't be written down: check the figures in it.",
    })
}
