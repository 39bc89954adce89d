//! Keeps records of one kind, so that nothing that can happen to a phone costs more than the last tap.
//!
//! - A tap writes one record, not the list: two slots a record, and a write goes to the slot that does not
//!   hold the newest good copy. A torn write leaves the copy before it.
//! - What can't be read is copied aside before its place is used again, and where that fails it stays.
//! - A change is a function, so that it can be made on top of what another tab has stored meanwhile, and
//!   made again when it could not be kept at first.
//!
//! Two tabs that write the same record in the very same moment: whoever reads back the other's text makes
//! the change again on top of it. Where each tab reads its own text at first, since browsers bring tabs
//! together only later, the counter of a copy names the copy it was made on: a tab looks again when it hears
//! of the other's write, and makes its change again if it is not in the newest copy ([`Store::mend`]).

use std::collections::BTreeSet;

use serde::Serialize;
use serde::de::DeserializeOwned;

use super::envelope::{self, Opened, Unsealable};
use super::keys::{self, Side};
use super::outcome::{AsideNote, Fault, Held, Loaded, Outcome};
use super::shelf::{Shelf, ShelfFault};
use super::slot::{self, Pair, Slot};
use super::standing::{self, Newer, Standing};
use super::waiting::{Change, Start, Waiting};
use crate::base::instant::Instant;
use crate::base::refusal::Refusal;

/// How often a change is made again when another tab writes in the same moment.
const ROUNDS: u32 = 4;

/// Keeps records of one kind on a shelf. In memory it holds only the changes that are not kept yet.
pub struct Store<T> {
    kind: &'static str,
    build: u64,
    /// The newer format that was found when loading: then nothing is written.
    barred: Option<u32>,
    waiting: Waiting<T>,
}

impl<T: Clone + Serialize + DeserializeOwned> Store<T> {
    /// A store for records under `scaleside/<format>/<kind>/`, written by `build`, a number that grows with
    /// every deployment.
    #[must_use]
    pub fn new(kind: &'static str, build: u64) -> Self {
        Self {
            kind,
            build,
            barred: None,
            waiting: Waiting::none(),
        }
    }

    /// The kind of record it keeps.
    #[must_use]
    pub fn kind(&self) -> &'static str {
        self.kind
    }

    /// Reads every record of this kind. Never fails: what can't be read is moved aside whole and noted, or
    /// left where it is when that is not possible or when a newer build owns the shelf.
    pub fn load_all(&mut self, shelf: &dyn Shelf, now: Instant) -> Loaded<T> {
        let mut loaded = Loaded {
            records: Vec::new(),
            aside: Vec::new(),
            faults: Vec::new(),
            standing: Standing::Writing,
        };
        if let Err(fault) = self.read_into(&mut loaded, shelf) {
            loaded.faults.push(fault.into());
        }
        self.barred = match loaded.standing {
            Standing::ReadOnly {
                why: Newer::Format(format),
            } => Some(format),
            _ => None,
        };
        if loaded.standing == Standing::Writing {
            for note in &mut loaded.aside {
                match slot::move_aside::<T>(shelf, &note.key, now) {
                    Ok(moved_to) => note.moved_to = moved_to,
                    Err(fault) => loaded.faults.push(fault),
                }
            }
        }
        loaded
    }

    fn read_into(&self, loaded: &mut Loaded<T>, shelf: &dyn Shelf) -> Result<(), ShelfFault> {
        loaded.standing = standing::standing(shelf, self.build)?;
        let keys = shelf.keys()?;
        let ids: BTreeSet<&str> = keys.iter().filter_map(|key| self.id_of(key)).collect();
        for id in ids {
            let pair = Pair::read(shelf, self.kind, id)?;
            if let Some(format) = pair.future() {
                loaded.standing = Standing::ReadOnly {
                    why: Newer::Format(format),
                };
            }
            for side in Side::BOTH {
                if let Slot::Bad { reason, .. } = pair.at(side) {
                    let key = keys::slot(self.kind, id, side);
                    loaded.aside.push(AsideNote {
                        key,
                        moved_to: None,
                        reason: *reason,
                    });
                }
            }
            if let Some(newest) = pair.into_newest() {
                let (record, counter) = (newest.record, newest.counter);
                loaded.records.push(Held {
                    id: id.to_owned(),
                    record,
                    counter,
                });
            }
        }
        Ok(())
    }

    /// The record as it stands now, with the changes that are waiting to be kept: for when another tab has
    /// changed it. Nothing when no copy on the shelf opens.
    ///
    /// # Errors
    /// [`Fault::Shelf`] when the shelf can't be read.
    pub fn reread(&self, shelf: &dyn Shelf, id: &str) -> Result<Option<Held<T>>, Fault> {
        let pair = Pair::read(shelf, self.kind, id)?;
        Ok(self.waiting.rebase(id, 0, &pair).map(|start| Held {
            id: id.to_owned(),
            record: start.record,
            counter: start.counter,
        }))
    }

    /// The id of the record that `key` belongs to, when it is one of this kind.
    #[must_use]
    pub fn id_of<'k>(&self, key: &'k str) -> Option<&'k str> {
        keys::id_of(self.kind, key)
    }

    /// Stores a new record.
    pub fn create(&mut self, shelf: &dyn Shelf, id: &str, record: T, now: Instant) -> Outcome<T> {
        let taken = Pair::<T>::read(shelf, self.kind, id).is_ok_and(|pair| pair.newest().is_some());
        if taken {
            return Outcome::Refused(Refusal::new("There is already an entry with this number."));
        }
        self.retry(
            shelf,
            &Held {
                id: id.to_owned(),
                record,
                counter: 0,
            },
            now,
        )
    }

    /// Makes `change` on the newest state of a record and stores it. A record that another tab has taken
    /// away meanwhile is stored again: a tap on it says that it is wanted.
    ///
    /// `change` must be pure: it is made again on top of another tab's work, or when it was not kept.
    pub fn commit(
        &mut self,
        shelf: &dyn Shelf,
        held: &Held<T>,
        now: Instant,
        change: impl Fn(&T) -> Result<T, Refusal> + Send + Sync + 'static,
    ) -> Outcome<T> {
        let outcome = self.write(shelf, held, now, Some(&change));
        if !matches!(outcome, Outcome::Refused(_)) {
            self.waiting.push(&held.id, Box::new(change), now);
        }
        outcome
    }

    /// Takes note of a text that another tab has just written for a record, even one that has been written over
    /// since: [`Store::mend`] goes by it.
    pub fn hear(&mut self, id: &str, text: &str) {
        if let Ok(opened) = envelope::open(text) {
            self.waiting.see(id, opened.counter, opened.sum);
        }
    }

    /// Makes the changes of this tab again that another tab, writing in the same instant, wrote over; nothing
    /// when they are all there.
    pub fn mend(&mut self, shelf: &dyn Shelf, held: &Held<T>, now: Instant) -> Option<Outcome<T>> {
        let pair = Pair::read(shelf, self.kind, &held.id).ok()?;
        let missing = pair.newest().is_some() && self.waiting.is_missing(&held.id, &pair);
        missing.then(|| self.retry(shelf, held, now))
    }

    /// Stores what was not kept so far, without a change of its own.
    pub fn retry(&mut self, shelf: &dyn Shelf, held: &Held<T>, now: Instant) -> Outcome<T> {
        self.write(shelf, held, now, None)
    }

    /// Drops the older copy of a record that is finished, to halve its room. The next change is written
    /// beside the copy that is left, so a torn write still costs no more than itself; but with one copy,
    /// damage to it costs the record.
    ///
    /// # Errors
    /// [`Fault`] says why both copies may still be there.
    pub fn settle(&self, shelf: &dyn Shelf, id: &str) -> Result<(), Fault> {
        let pair = Pair::<T>::read(shelf, self.kind, id)?;
        self.may_write(shelf, &pair)?;
        match (pair.newest_side(), pair.at(Side::A), pair.at(Side::B)) {
            (Some(newest), Slot::Good(_), Slot::Good(_)) => {
                slot::remove_and_check(shelf, &keys::slot(self.kind, id, newest.other()))
            }
            _ => Ok(()),
        }
    }

    /// Takes a record off the shelf, the newest copy last. A copy that can't be read is set aside.
    ///
    /// # Errors
    /// [`Fault::ChangedElsewhere`] when another tab has changed it since `held` was read; otherwise why it
    /// may still be there.
    pub fn remove(&mut self, shelf: &dyn Shelf, held: &Held<T>, now: Instant) -> Result<(), Fault> {
        let pair = Pair::read(shelf, self.kind, &held.id)?;
        self.may_write(shelf, &pair)?;
        let newest = self.waiting.rebase(&held.id, held.counter, &pair);
        if newest.is_some_and(|newest| newest.merged) {
            return Err(Fault::ChangedElsewhere);
        }
        for side in [pair.target(), pair.target().other()] {
            let key = keys::slot(self.kind, &held.id, side);
            match pair.at(side) {
                Slot::Empty => {}
                Slot::Good(_) => slot::remove_and_check(shelf, &key)?,
                Slot::Bad { .. } => {
                    slot::move_aside::<T>(shelf, &key, now)?;
                }
            }
        }
        self.waiting.clear(&held.id);
        Ok(())
    }

    fn write(
        &mut self,
        shelf: &dyn Shelf,
        held: &Held<T>,
        now: Instant,
        change: Option<&Change<T>>,
    ) -> Outcome<T> {
        if !crate::base::id::is_id(&held.id) {
            return Outcome::Refused(Refusal::new("An entry can't be kept under this name."));
        }
        let mut latest = held.clone();
        for _ in 0..ROUNDS {
            let pair = Pair::read(shelf, self.kind, &held.id);
            let start = pair
                .as_ref()
                .ok()
                .and_then(|pair| self.rebase(held, pair, now));
            let start = start.unwrap_or_else(|| Start::in_hand(held));
            let record = match change.map_or(Ok(start.record.clone()), |f| f(&start.record)) {
                Ok(record) => record,
                Err(refusal) => return Outcome::Refused(refusal),
            };
            let counter = start.next();
            let text = match envelope::seal(&record, counter, self.build) {
                Ok(text) => text,
                Err(why) => return Outcome::Refused(refusal(why)),
            };
            latest = Held {
                id: held.id.clone(),
                record,
                counter: start.counter,
            };
            let more = usize::from(change.is_some());
            let placed = pair
                .map_err(Fault::from)
                .and_then(|pair| self.place(shelf, &held.id, &pair, &text, more, now));
            match placed {
                Ok(()) => {
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
                Err(fault) => {
                    return Outcome::NotKept {
                        held: latest,
                        fault,
                    };
                }
            }
        }
        Outcome::NotKept {
            held: latest,
            fault: Fault::ChangedElsewhere,
        }
    }

    fn rebase(&mut self, held: &Held<T>, pair: &Pair<T>, now: Instant) -> Option<Start<T>> {
        let start = self.waiting.rebase(&held.id, held.counter, pair);
        self.waiting.settle(&held.id, pair, now);
        start
    }

    /// Puts a sealed text where it destroys nothing, and reads it back.
    fn place(
        &mut self,
        shelf: &dyn Shelf,
        id: &str,
        pair: &Pair<T>,
        text: &str,
        more: usize,
        now: Instant,
    ) -> Result<(), Fault> {
        self.may_write(shelf, pair)?;
        standing::claim(shelf, self.build, now)?;
        let side = pair.target();
        let key = keys::slot(self.kind, id, side);
        if let Slot::Bad {
            text: unreadable, ..
        } = pair.at(side)
        {
            slot::set_aside(shelf, &key, unreadable, now)?;
        }
        let Opened { counter, sum, .. } = envelope::open(text).map_err(|_| Fault::NotReadBack)?;
        let Err(fault) = slot::put_and_check(shelf, &key, text) else {
            self.waiting.wrote(id, counter, sum, more);
            return Ok(());
        };
        match Slot::<T>::read(shelf, &key) {
            Err(_) => {
                // It may have arrived all the same.
                self.waiting.wrote(id, counter, sum, more);
                Err(fault)
            }
            Ok(Slot::Good(found)) if found.counter == counter && found.sum == sum => {
                self.waiting.wrote(id, counter, sum, more);
                Ok(())
            }
            Ok(Slot::Good(found))
                if envelope::writes(found.counter) >= envelope::writes(counter) =>
            {
                Err(Fault::ChangedElsewhere)
            }
            Ok(_) => Err(fault),
        }
    }

    /// Stops an older build. Reads one short key, not all of them: a build that first writes a newer format
    /// has raised the number before.
    fn may_write(&self, shelf: &dyn Shelf, pair: &Pair<T>) -> Result<(), Fault> {
        if let Some(format) = self.barred.or(pair.future()) {
            return Err(Fault::ReadOnly(Newer::Format(format)));
        }
        standing::may_write(shelf, self.build)
    }
}

fn refusal(why: Unsealable) -> Refusal {
    Refusal::new(match why {
        Unsealable::TooLong => "This entry has grown too long to keep: shorten its notes.",
        Unsealable::NoText => "This can't be written down: check the figures in it.",
    })
}
