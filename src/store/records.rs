//! The records of one kind on a shelf: a thin edge over [`Texts`], which does the keeping.

use std::marker::PhantomData;

use serde::Serialize;
use serde::de::DeserializeOwned;

use super::envelope::Unsealable;
use super::keys;
use super::outcome::{Fault, Held, Loaded, Outcome};
use super::shelf::Shelf;
use super::texts::Texts;
use crate::base::instant::Instant;
use crate::base::refusal::Refusal;

/// Keeps records of one kind on a shelf. In memory it holds only the changes that are not kept yet.
pub struct Store<T> {
    texts: Texts,
    kind: PhantomData<fn() -> T>,
}

impl<T: Serialize + DeserializeOwned> Store<T> {
    /// A store for records under `scaleside/<format>/<kind>/`, written by `build`, a number that grows with
    /// every deployment.
    #[must_use]
    pub fn new(kind: &'static str, build: u64) -> Self {
        Self {
            texts: Texts::new(kind, build, |body| read::<T>(body).is_ok()),
            kind: PhantomData,
        }
    }

    /// The kind of record it keeps.
    #[must_use]
    pub fn kind(&self) -> &'static str {
        self.texts.kind
    }

    /// Reads every record of this kind. Never fails: what can't be read is moved aside whole and noted, or
    /// left where it is when that is not possible or when a newer build owns the shelf.
    pub fn load_all(&mut self, shelf: &dyn Shelf, now: Instant) -> Loaded<T> {
        self.texts.load_all(shelf, now).map(of_text)
    }

    /// As [`Store::load_all`], for one record: no other is looked at.
    pub fn load(&mut self, shelf: &dyn Shelf, id: &str, now: Instant) -> Loaded<T> {
        self.texts.load(shelf, id, now).map(of_text)
    }

    /// The record as it stands now, with the changes that are waiting to be kept: for when another tab has
    /// changed it. Nothing when no copy on the shelf opens.
    ///
    /// # Errors
    /// [`Fault::Shelf`] when the shelf can't be read.
    pub fn reread(&self, shelf: &dyn Shelf, id: &str) -> Result<Option<Held<T>>, Fault> {
        Ok(self.texts.reread(shelf, id)?.and_then(of_text))
    }

    /// The id of the record that `key` belongs to, when it is one of this kind.
    #[must_use]
    pub fn id_of<'k>(&self, key: &'k str) -> Option<&'k str> {
        keys::id_of(self.texts.kind, key)
    }

    /// Stores a new record.
    pub fn create(&mut self, shelf: &dyn Shelf, id: &str, record: T, now: Instant) -> Outcome<T> {
        let held = Held {
            id: id.to_owned(),
            record,
            counter: 0,
        };
        self.with(&held, |texts, new| texts.create(shelf, new, now))
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
        let change = Box::new(move |body: &str| write(&change(&read(body)?)?));
        self.with(held, |texts, held| texts.commit(shelf, held, now, change))
    }

    /// Takes note of a text that another tab has just written for a record, even one that has been written over
    /// since: [`Store::mend`] goes by it.
    pub fn hear(&mut self, id: &str, text: &str) {
        self.texts.hear(id, text);
    }

    /// Makes the changes of this tab again that another tab, writing in the same instant, wrote over; nothing
    /// when they are all there.
    pub fn mend(&mut self, shelf: &dyn Shelf, held: &Held<T>, now: Instant) -> Option<Outcome<T>> {
        let held = to_text(held).ok()?;
        self.texts.mend(shelf, &held, now).map(of_outcome)
    }

    /// Stores what was not kept so far, without a change of its own.
    pub fn retry(&mut self, shelf: &dyn Shelf, held: &Held<T>, now: Instant) -> Outcome<T> {
        self.with(held, |texts, held| texts.retry(shelf, held, now))
    }

    /// Drops the older copy of a record that is finished, to halve its room. The next change is written
    /// beside the copy that is left, so a torn write still costs no more than itself; but with one copy,
    /// damage to it costs the record.
    ///
    /// # Errors
    /// [`Fault`] says why both copies may still be there.
    pub fn settle(&self, shelf: &dyn Shelf, id: &str) -> Result<(), Fault> {
        self.texts.settle(shelf, id)
    }

    /// Takes a record off the shelf, the newest copy last. A copy that can't be read is set aside.
    ///
    /// # Errors
    /// [`Fault::ChangedElsewhere`] when another tab has changed it since `held` was read; otherwise why it
    /// may still be there.
    pub fn remove(&mut self, shelf: &dyn Shelf, held: &Held<T>, now: Instant) -> Result<(), Fault> {
        self.texts.remove(shelf, &held.id, held.counter, now)
    }

    fn with(
        &mut self,
        held: &Held<T>,
        work: impl FnOnce(&mut Texts, &Held<String>) -> Outcome<String>,
    ) -> Outcome<T> {
        match to_text(held) {
            Ok(held) => of_outcome(work(&mut self.texts, &held)),
            Err(refusal) => Outcome::Refused(refusal),
        }
    }
}

/// One copy for each kind: it is called from many places, and reading a kind takes much code.
#[inline(never)]
fn read<T: DeserializeOwned>(body: &str) -> Result<T, Refusal> {
    serde_json::from_str(body).map_err(|_| Unsealable::NoText.into())
}

#[inline(never)]
fn write<T: Serialize>(record: &T) -> Result<String, Refusal> {
    serde_json::to_string(record).map_err(|_| Unsealable::NoText.into())
}

fn to_text<T: Serialize>(held: &Held<T>) -> Result<Held<String>, Refusal> {
    Ok(Held {
        id: held.id.clone(),
        record: write(&held.record)?,
        counter: held.counter,
    })
}

fn of_text<T: DeserializeOwned>(held: Held<String>) -> Option<Held<T>> {
    Some(Held {
        record: read(&held.record).ok()?,
        id: held.id,
        counter: held.counter,
    })
}

fn of_outcome<T: DeserializeOwned>(outcome: Outcome<String>) -> Outcome<T> {
    let unread = || Outcome::Refused(Unsealable::NoText.into());
    match outcome {
        Outcome::Kept {
            held,
            merged,
            left_out,
        } => of_text(held).map_or_else(unread, |held| Outcome::Kept {
            held,
            merged,
            left_out,
        }),
        Outcome::NotKept { held, fault } => {
            of_text(held).map_or_else(unread, |held| Outcome::NotKept { held, fault })
        }
        Outcome::Refused(refusal) => Outcome::Refused(refusal),
    }
}
