//! What was taken away or replaced stays for thirty days, and can be put back. A bin without room is no reason to
//! keep what a cook wants gone: that is said, and the cook may remove it for good.
//!
//! The copy in the bin is written before the record is touched. Its name is made of what is in it, so that
//! a removal that was cut off and is made again leaves one copy, not two.

use serde::{Deserialize, Serialize};

use super::kind::{Kind, Raw};
use super::refusals::NoReturn;
use crate::base::crc;
use crate::base::instant::Instant;
use crate::base::refusal::Refusal;
use crate::store::envelope::{Unsealable, brought};
use crate::store::outcome::{Fault, Held, Loaded, Outcome};
use crate::store::records::{Keepable, Store};
use crate::store::shelf::{Shelf, ShelfFault};

const DAY_MS: i64 = 24 * 3_600_000;
/// How long a record stays, in days.
pub const DAYS: i64 = 30;

/// How a record came into the bin.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Cause {
    /// The cook removed it.
    Removed,
    /// Another copy took its place: from a backup, or from the bin.
    Replaced,
}

/// A record in the bin.
#[derive(Clone, Debug, Serialize, Deserialize)]
pub struct Binned {
    /// The kind it is of.
    pub kind: String,
    /// Its identity among its kind.
    pub id: String,
    /// What it was called in its list.
    pub title: String,
    /// When it came here.
    pub removed: Instant,
    /// Why.
    pub cause: Cause,
    /// The count of writes it had.
    pub counter: u64,
    /// When it was first found to have been here for long enough.
    #[serde(default)]
    pub due_since: Option<Instant>,
    /// The record.
    pub body: Raw,
}

impl Binned {
    /// When it may go for good.
    #[must_use]
    pub fn until(&self) -> Instant {
        self.removed.plus_ms(DAYS * DAY_MS)
    }
}

/// The bin of a shelf.
pub struct Bin {
    build: u64,
    store: Store<Binned>,
}

impl Bin {
    /// The bin as `build` writes it.
    #[must_use]
    pub fn new(build: u64) -> Self {
        Self {
            build,
            store: Store::new("bin", build),
        }
    }

    /// Everything in the bin, the latest first.
    pub fn list(&mut self, shelf: &dyn Shelf, now: Instant) -> Loaded<Binned> {
        let mut loaded = self.store.load_all(shelf, now);
        loaded
            .records
            .sort_by(|a, b| (b.record.removed, &b.id).cmp(&(a.record.removed, &a.id)));
        loaded
    }

    /// Takes for good what has been here for thirty days. A clock that is wrong for one start must cost
    /// nothing, so it has to be found too old twice, a day apart. Returns what went, as kind and id.
    pub fn empty_old(&mut self, shelf: &dyn Shelf, now: Instant) -> Vec<(String, String)> {
        let mut gone = Vec::new();
        for held in self.store.load_all(shelf, now).records {
            let old = now >= held.record.until();
            match held.record.due_since {
                Some(since) if old && now.ms_since(since) >= DAY_MS => {
                    if self.store.remove(shelf, &held, now).is_ok() {
                        gone.push((held.record.kind, held.record.id));
                    }
                }
                Some(since) if old && now >= since => {}
                None if !old => {}
                _ => {
                    let mark = old.then_some(now);
                    self.store.commit(shelf, &held, now, move |binned| {
                        let due_since = mark;
                        Ok(Binned {
                            due_since,
                            ..binned.clone()
                        })
                    });
                }
            }
        }
        gone
    }

    /// Takes a record off the shelf, once a copy of it is in the bin. Returns the name of that copy.
    ///
    /// # Errors
    /// Why the record has to stay, and does.
    pub fn remove<T: Keepable>(
        &mut self,
        shelf: &dyn Shelf,
        store: &mut Store<T>,
        held: &Held<T>,
        now: Instant,
    ) -> Result<String, Unbinned> {
        let body = serde_json::value::to_raw_value(&held.record)
            .map_err(|_| Unbinned::Refused(Unsealable::NoText.into()))?;
        let Held { id, counter, .. } = held;
        let copy = binned(store.kind(), id, *counter, body, Cause::Removed, now);
        let mut kept = self.put(shelf, copy.clone(), now);
        if kept == Err(Unbinned::NoRoom) && store.settle(shelf, id).is_ok() {
            kept = self.put(shelf, copy, now);
        }
        let name = kept?;
        match store.remove(shelf, held, now) {
            Ok(()) => Ok(name),
            Err(fault) => {
                // It stays where it was, so it is not in the bin.
                let _ = self.take_out(shelf, &name, now);
                Err(Unbinned::Refused(fault.into()))
            }
        }
    }

    /// Puts a record back in its place. One that stands there by now goes into the bin. Returns its kind
    /// and id.
    ///
    /// # Errors
    /// The sentence for a record that stays in the bin.
    pub fn put_back(
        &mut self,
        shelf: &dyn Shelf,
        name: &str,
        now: Instant,
    ) -> Result<(String, String), Refusal> {
        let held = self.store.reread(shelf, name)?;
        let Some(Held { record, .. }) = held else {
            return Err(NoReturn::Gone.into());
        };
        let kind = Kind::named(&record.kind).ok_or(NoReturn::UnknownKind)?;
        self.replace(shelf, kind, &record.id, &record.body, record.counter, now)?;
        self.take_out(shelf, name, now)?;
        Ok((record.kind, record.id))
    }

    /// Puts `body` in the place of a record, which goes into the bin when it is another; with a counter above
    /// `least`. Returns the name of the copy in the bin, if one went there.
    ///
    /// # Errors
    /// The sentence for what could not be written. The record before is still there then.
    pub fn replace(
        &mut self,
        shelf: &dyn Shelf,
        kind: &Kind,
        id: &str,
        body: &Raw,
        least: u64,
        now: Instant,
    ) -> Result<Option<String>, Refusal> {
        let mut store = Store::<Raw>::new(kind.name, self.build).signed(as_a_tab(now));
        let before = store.reread(shelf, id)?;
        let copy = match &before {
            Some(before) if before.record.get() == body.get() => return Ok(None),
            Some(before) => Some(self.keep(shelf, kind.name, before, Cause::Replaced, now)?),
            None => None,
        };
        let counter = before.map_or(0, |before| before.counter);
        let held = Held::from_elsewhere(id, body.clone(), counter.max(brought(least)));
        let body = body.clone();
        match store.commit(shelf, &held, now, move |_| Ok(body.clone())) {
            Outcome::Kept { .. } => Ok(copy),
            Outcome::Refused(refusal) => Err(refusal),
            Outcome::NotKept { fault, .. } => Err(fault.into()),
        }
    }

    /// Puts a copy of a record in the bin, which stays where it is. Returns the name of the copy.
    ///
    /// # Errors
    /// The sentence for a bin without room.
    pub fn keep(
        &mut self,
        shelf: &dyn Shelf,
        kind: &str,
        held: &Held<Raw>,
        cause: Cause,
        now: Instant,
    ) -> Result<String, Refusal> {
        let Held {
            id,
            counter,
            record,
            ..
        } = held;
        let copy = binned(kind, id, *counter, record.clone(), cause, now);
        Ok(self.put(shelf, copy, now)?)
    }

    /// Takes one copy out of the bin for good.
    ///
    /// # Errors
    /// [`Fault`] says why it may still be there.
    pub fn take_out(&mut self, shelf: &dyn Shelf, name: &str, now: Instant) -> Result<(), Fault> {
        match self.store.reread(shelf, name)? {
            Some(held) => self.store.remove(shelf, &held, now),
            None => Ok(()),
        }
    }

    fn put(&mut self, shelf: &dyn Shelf, copy: Binned, now: Instant) -> Result<String, Unbinned> {
        let name = name(&copy.kind, &copy.id, &copy.body);
        let held = Held::from_elsewhere(&name, copy.clone(), 0);
        match self
            .store
            .commit(shelf, &held, now, move |_| Ok(copy.clone()))
        {
            Outcome::Kept { .. } => Ok(name),
            Outcome::Refused(refusal) => Err(Unbinned::Refused(refusal)),
            Outcome::NotKept {
                fault: Fault::Shelf(ShelfFault::Full),
                ..
            } => Err(Unbinned::NoRoom),
            Outcome::NotKept { fault, .. } => Err(Unbinned::Refused(fault.into())),
        }
    }
}

/// The name of a copy in the bin, made of what is in it.
#[must_use]
pub fn name(kind: &str, id: &str, body: &Raw) -> String {
    let sum = crc::of(body.get().as_bytes());
    format!("{kind}{id}{sum:08x}")
}

/// Why a record could not be put in the bin.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Unbinned {
    /// The phone has no room for the copy.
    NoRoom,
    /// Anything else.
    Refused(Refusal),
}

/// What stands for a tab where a record is replaced: each time another, since nobody counts on from it.
fn as_a_tab(now: Instant) -> u32 {
    u32::try_from(now.0.rem_euclid(1 << 32)).unwrap_or_default()
}

fn binned(kind: &str, id: &str, counter: u64, body: Raw, cause: Cause, now: Instant) -> Binned {
    let title = Kind::named(kind).and_then(|kind| kind.title(body.get()));
    Binned {
        kind: kind.to_owned(),
        id: id.to_owned(),
        title: title.unwrap_or_default(),
        removed: now,
        cause,
        counter,
        due_since: None,
        body,
    }
}
