//! The records of one kind on a shelf: a thin edge over [`Texts`], which does the keeping.

use std::collections::VecDeque;
use std::sync::{Arc, Mutex, PoisonError};

use serde::Serialize;
use serde::de::DeserializeOwned;

use super::envelope::Unsealable;
use super::keys;
use super::outcome::{Fault, Held, Loaded, Outcome};
use super::shelf::Shelf;
use super::texts::{InHand, Texts};
use crate::base::instant::Instant;
use crate::base::refusal::Refusal;

/// What can be kept.
pub trait Keepable: Clone + Serialize + DeserializeOwned + Send + Sync + 'static {}

impl<T: Clone + Serialize + DeserializeOwned + Send + Sync + 'static> Keepable for T {}

/// How many records are remembered as they were read, at most: the two copies of one.
const MOST_READ: usize = 2;

/// Keeps records of one kind on a shelf. In memory it holds only the changes that are not kept yet, and the records
/// and texts it met last.
pub struct Store<T> {
    texts: Texts,
    bodies: Arc<Bodies<T>>,
}

impl<T: Keepable> Store<T> {
    /// A store for records under `scaleside/<format>/<kind>/`, written by `build`, a number that grows with
    /// every deployment.
    #[must_use]
    pub fn new(kind: &'static str, build: u64) -> Self {
        let bodies = Arc::new(Bodies::<T>::none());
        let read = bodies.clone();
        Self {
            texts: Texts::new(kind, build, Box::new(move |body| read.read(body).is_ok())),
            bodies,
        }
    }

    /// The same, in the tab of this number, which no other that is open may have.
    #[must_use]
    pub fn signed(mut self, tab: u32) -> Self {
        self.texts.sign(tab);
        self
    }

    /// The kind of record it keeps.
    #[must_use]
    pub fn kind(&self) -> &'static str {
        self.texts.kind
    }

    /// Reads every record of this kind. Never fails: what can't be read is moved aside whole and noted, or
    /// left where it is when that is not possible or when a newer build owns the shelf.
    pub fn load_all(&mut self, shelf: &dyn Shelf, now: Instant) -> Loaded<T> {
        self.texts
            .load_all(shelf, now)
            .map(|held| self.of_text(held))
    }

    /// As [`Store::load_all`], for one record: no other is looked at.
    pub fn load(&mut self, shelf: &dyn Shelf, id: &str, now: Instant) -> Loaded<T> {
        self.texts
            .load(shelf, id, now)
            .map(|held| self.of_text(held))
    }

    /// The record as it stands now, with the changes that are waiting to be kept: for when another tab has
    /// changed it. Nothing when no copy on the shelf opens.
    ///
    /// # Errors
    /// [`Fault::Shelf`] when the shelf can't be read.
    pub fn reread(&self, shelf: &dyn Shelf, id: &str) -> Result<Option<Held<T>>, Fault> {
        let found = self.texts.reread(shelf, id)?;
        Ok(found.and_then(|held| self.of_text(held)))
    }

    /// The id of the record that `key` belongs to, when it is one of this kind.
    #[must_use]
    pub fn id_of<'k>(&self, key: &'k str) -> Option<&'k str> {
        keys::id_of(self.texts.kind, key)
    }

    /// Stores a new record.
    pub fn create(&mut self, shelf: &dyn Shelf, id: &str, record: T, now: Instant) -> Outcome<T> {
        let held = Held::from_elsewhere(id, record, 0);
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
        let bodies = self.bodies.clone();
        let change = Box::new(move |body: &str| write(&change(&*bodies.read(body)?)?));
        self.with(held, |texts, held| texts.commit(shelf, held, now, change))
    }

    /// What it keeps, as texts: what is joined knows no kinds.
    #[must_use]
    pub fn texts(&self) -> &Texts {
        &self.texts
    }

    /// Forgets the changes of a record that another tab has taken away.
    pub fn forget(&mut self, id: &str) {
        self.texts.forget(id);
    }

    /// Makes the changes of this tab again that another tab, writing in the same instant, wrote over; nothing
    /// when they are all there.
    pub fn mend(&mut self, shelf: &dyn Shelf, held: &Held<T>, now: Instant) -> Option<Outcome<T>> {
        let text = || write(&held.record);
        let outcome = self.texts.mend(shelf, &in_hand(held, &text), now)?;
        Some(self.of_outcome(outcome))
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
        work: impl FnOnce(&mut Texts, &InHand<'_>) -> Outcome<String>,
    ) -> Outcome<T> {
        let text = || write(&held.record);
        let outcome = work(&mut self.texts, &in_hand(held, &text));
        self.of_outcome(outcome)
    }

    fn of_text(&self, held: Held<String>) -> Option<Held<T>> {
        let record = self.bodies.read(&held.record).ok()?;
        Some(held.with(T::clone(&record)))
    }

    fn of_outcome(&self, outcome: Outcome<String>) -> Outcome<T> {
        let unread = || Outcome::Refused(Unsealable::NoText.into());
        match outcome {
            Outcome::Kept {
                held,
                merged,
                left_out,
            } => self
                .of_text(held)
                .map_or_else(unread, |held| Outcome::Kept {
                    held,
                    merged,
                    left_out,
                }),
            Outcome::NotKept { held, fault } => self
                .of_text(held)
                .map_or_else(unread, |held| Outcome::NotKept { held, fault }),
            Outcome::Refused(refusal) => Outcome::Refused(refusal),
        }
    }
}

/// The bodies that were read last and what they hold, the latest last: a tap reads the same one several times.
struct Bodies<T>(Mutex<VecDeque<(String, Arc<T>)>>);

impl<T: DeserializeOwned> Bodies<T> {
    fn none() -> Self {
        Self(Mutex::new(VecDeque::new()))
    }

    /// One copy for each kind: it is called from many places, and reading a kind takes much code.
    #[inline(never)]
    fn read(&self, body: &str) -> Result<Arc<T>, Refusal> {
        let mut read = self.0.lock().unwrap_or_else(PoisonError::into_inner);
        if let Some((_, record)) = read.iter().rev().find(|(known, _)| known == body) {
            return Ok(record.clone());
        }
        let record: Arc<T> = Arc::new(serde_json::from_str(body).map_err(|_| Unsealable::NoText)?);
        if read.len() >= MOST_READ {
            read.pop_front();
        }
        read.push_back((body.to_owned(), record.clone()));
        Ok(record)
    }
}

/// One copy for each kind, as of reading.
#[inline(never)]
fn write<T: Serialize>(record: &T) -> Result<String, Refusal> {
    serde_json::to_string(record).map_err(|_| Unsealable::NoText.into())
}

fn in_hand<'a, T>(held: &'a Held<T>, text: &'a dyn Fn() -> Result<String, Refusal>) -> InHand<'a> {
    InHand {
        id: &held.id,
        counter: held.counter,
        tally: &held.tally,
        text,
    }
}
