//! The records of one kind on this phone, and the one way to read and change them, whatever the kind.
//!
//! Which there are is known from the start; each is read when it is first asked for.

use std::collections::BTreeMap;
use std::sync::Arc;

use leptos::prelude::*;

use super::bench::Bench;
use super::notice::Notices;
use super::refusals::NoRecord;
use super::register::Register;
use super::removal::{self, Whereto};
use crate::base::id;
use crate::base::instant::Instant;
use crate::base::refusal::Refusal;
use crate::device::storage::LocalShelf;
use crate::device::turns::Turn;
use crate::device::{build, clock, tabs};
use crate::keep::bin::Unbinned;
use crate::store::entry::Entry;
use crate::store::outcome::{Held, Outcome};
use crate::store::records::Store;
use crate::store::tally::Tally;

/// A name for a new record that no other has.
#[must_use]
pub fn identity(now: Instant) -> String {
    id::new_id(now, clock::chance())
}

/// One record in memory, and how far its stored copy has got.
pub(super) struct Copied<T: 'static> {
    pub(super) signal: ArcRwSignal<T>,
    counter: u64,
    tally: Tally,
}

/// All records of one kind. Copied freely: it holds only handles.
pub struct Drawer<T: Entry> {
    /// Which there are.
    pub(super) register: Register,
    /// Those that were read.
    pub(super) read: StoredValue<BTreeMap<String, Copied<T>>>,
    pub(super) store: StoredValue<Store<T>>,
    /// Whether all were read, and whether that has begun.
    pub(super) whole: RwSignal<bool>,
    pub(super) reading: StoredValue<bool>,
}

impl<T: Entry> Clone for Drawer<T> {
    fn clone(&self) -> Self {
        *self
    }
}

impl<T: Entry> Copy for Drawer<T> {}

impl<T: Entry> Drawer<T> {
    /// A drawer of which nothing was read; what can't be kept is told by `notices`, what cooks is listed in `cooking`.
    #[must_use]
    pub fn empty(
        notices: Notices,
        cooking: RwSignal<Vec<String>>,
        ids: RwSignal<Vec<String>>,
    ) -> Self {
        Self {
            register: Register::empty(T::KIND, T::NOUN, notices, T::COOKS.then_some(cooking), ids),
            read: StoredValue::new(BTreeMap::new()),
            store: StoredValue::new(Store::new(T::KIND, build::number()).signed(clock::chance())),
            whole: RwSignal::new(false),
            reading: StoredValue::new(false),
        }
    }

    /// That of this phone.
    #[must_use]
    pub fn here() -> Self {
        Bench::here().drawers.of()
    }

    /// The identities of all records, the latest first.
    #[must_use]
    pub fn ids(self) -> Vec<String> {
        self.register.ids.get()
    }

    /// One record, as a signal that changes with every tap; nothing when it is not on this phone.
    #[must_use]
    pub fn signal(self, id: &str) -> Option<ArcRwSignal<T>> {
        let read = self
            .read
            .try_with_value(|read| read.get(id).map(|copied| copied.signal.clone()))?;
        read.or_else(|| {
            let held = self.load(id)?;
            Some(self.hold(held))
        })
    }

    /// The record `id`, which begins as `first`.
    #[must_use]
    pub fn signal_or(self, id: &str, first: T) -> ArcRwSignal<T> {
        self.signal(id)
            .unwrap_or_else(|| self.hold(Held::from_elsewhere(id, first, 0)))
    }

    /// Reads one record and follows its changes, its removal among them.
    pub fn with<U>(self, id: &str, read: impl FnOnce(&T) -> U) -> Option<U> {
        self.register.ids.track();
        Some(self.signal(id)?.with(read))
    }

    /// Reads one record as it is now, without following its changes.
    pub fn with_untracked<U>(self, id: &str, read: impl FnOnce(&T) -> U) -> Option<U> {
        Some(self.signal(id)?.with_untracked(read))
    }

    /// What is read of each record as it is now, the latest first. See [`Drawer::read_all`].
    pub fn of_each<U>(self, read: impl Fn(&T) -> Option<U>) -> Vec<U> {
        let ids = self.register.ids.get_untracked();
        let each = |id: &String| self.with_untracked(id, &read).flatten();
        ids.iter().filter_map(each).collect()
    }

    /// Every record as it is now, by its identity. See [`Drawer::read_all`].
    #[must_use]
    pub fn by_id(self) -> BTreeMap<String, T> {
        let ids = self.register.ids.get_untracked().into_iter();
        ids.filter_map(|id| {
            let record = self.with_untracked(&id, Clone::clone)?;
            Some((id, record))
        })
        .collect()
    }

    /// Keeps a new record. Returns its identity.
    ///
    /// # Errors
    /// The sentence for a record that can't be begun.
    pub fn begin(
        self,
        make: impl FnOnce(Instant) -> Result<T, Refusal>,
    ) -> Result<String, Refusal> {
        let now = clock::now();
        let id = identity(now);
        self.put_in(&id, make(now)?)?;
        Ok(id)
    }

    /// Keeps a new record under `id`.
    ///
    /// # Errors
    /// The sentence for a record that can't be begun.
    pub fn put_in(self, id: &str, record: T) -> Result<(), Refusal> {
        let outcome = self
            .store
            .try_update_value(|store| store.create(&LocalShelf, id, record, clock::now()));
        self.settle(outcome)
    }

    /// Keeps records that come from elsewhere, each under the identity it brings. Returns how many are kept: all
    /// of them, unless the phone stops taking any more. What is here already stays as it is. In turns: a tap in the
    /// meantime is answered.
    pub async fn adopt(self, records: Vec<(String, T)>) -> usize {
        let now = clock::now();
        let mut turn = Turn::begin();
        let mut kept = Vec::new();
        for (id, record) in records {
            turn.pause().await;
            let outcome = self
                .store
                .try_update_value(|store| store.create(&LocalShelf, &id, record, now));
            match outcome {
                Some(Outcome::Refused(_)) => {}
                Some(Outcome::Kept { held, .. }) => kept.push(held),
                Some(Outcome::NotKept { .. }) | None => break,
            }
        }
        // The list changes once: what rests on all of them is worked out anew with each change of it.
        let ids = kept.iter().map(|held| held.id.clone()).collect();
        for held in kept {
            self.hold(held);
        }
        self.register.kept_all(ids)
    }

    /// Does what was tapped, and keeps it before the screen shows it.
    ///
    /// # Errors
    /// The sentence for what can't be done. Nothing is changed then.
    pub fn act(self, id: &str, action: T::Action) -> Result<(), Refusal> {
        self.act_by(id, action, T::apply)
    }

    /// As [`Drawer::act`], by a way of doing it that knows some actions only: the page as it comes first need not
    /// bring along the others.
    ///
    /// # Errors
    /// The sentence for what can't be done. Nothing is changed then.
    pub fn act_by(
        self,
        id: &str,
        action: T::Action,
        apply: fn(&T, &T::Action, Instant) -> Result<T, Refusal>,
    ) -> Result<(), Refusal> {
        let Some(held) = self.held(id) else {
            return Err(NoRecord::Gone(T::NOUN).into());
        };
        let now = clock::now();
        let outcome = self.store.try_update_value(|store| {
            store.commit(&LocalShelf, &held, now, move |record: &T| {
                apply(record, &action, now)
            })
        });
        self.look_again(id);
        self.settle(outcome)
    }

    /// Takes a record off the list.
    ///
    /// # Errors
    /// Why the record has to stay.
    pub fn remove(self, id: &str, whereto: Whereto) -> Result<(), Unbinned> {
        let Some(held) = self.held(id) else {
            return Ok(());
        };
        let removed = self.store.try_update_value(|store| {
            removal::remove(self.register.notices, store, &held, T::NOUN, whereto)
        });
        removed.unwrap_or(Ok(()))?;
        self.forget(id);
        Ok(())
    }

    /// Looks, in turn with the other tabs, whether every tap of this tab is in, and makes it again if not.
    fn look_again(self, id: &str) {
        let record = id.to_owned();
        tabs::in_turn(&format!("{} {id}", T::KIND), move || {
            let mended = self.in_memory(&record).and_then(|held| {
                let mend = |store: &mut Store<T>| store.mend(&LocalShelf, &held, clock::now());
                self.store.try_update_value(mend).flatten()
            });
            if mended.is_some() {
                // A tap that can no longer be made is told of.
                let _ = self.settle(mended);
            }
        });
    }

    /// Another tab has just written under `key`, or taken away what stood there.
    pub(super) fn changed_elsewhere(self, key: &str) {
        let found = self.store.try_update_value(|store| {
            let id = store.id_of(key)?.to_owned();
            let newest = store.reread(&LocalShelf, &id).ok()?;
            if newest.is_none() {
                store.forget(&id);
            }
            Some((id, newest))
        });
        match found.flatten() {
            Some((id, Some(held))) => {
                self.hold(held);
                self.register.add(&id);
                self.look_again(&id);
            }
            Some((id, None)) => self.forget(&id),
            None => {}
        }
    }

    /// The record `id` with its counter, read if it was not.
    fn held(self, id: &str) -> Option<Held<T>> {
        self.signal(id)?;
        self.in_memory(id)
    }

    pub(super) fn in_memory(self, id: &str) -> Option<Held<T>> {
        self.read.try_with_value(|read| {
            read.get(id).map(|copied| Held {
                id: id.to_owned(),
                record: copied.signal.get_untracked(),
                counter: copied.counter,
                tally: copied.tally.clone(),
            })
        })?
    }

    fn settle(self, outcome: Option<Outcome<T>>) -> Result<(), Refusal> {
        match outcome {
            Some(Outcome::Kept { held, left_out, .. }) => {
                let id = held.id.clone();
                self.hold(held);
                self.register.kept(id, &left_out);
                Ok(())
            }
            Some(Outcome::NotKept { held, fault }) => {
                let id = held.id.clone();
                self.hold(held);
                self.register.add(&id);
                let name = (T::KIND, id.clone());
                let again = Arc::new(move || self.retry(&id));
                self.register.notices.not_kept(name, &fault, again);
                Ok(())
            }
            Some(Outcome::Refused(refusal)) => Err(refusal),
            None => Err(NoRecord::Closing.into()),
        }
    }

    fn retry(self, id: &str) {
        let Some(held) = self.in_memory(id) else {
            return;
        };
        let outcome = self
            .store
            .try_update_value(|store| store.retry(&LocalShelf, &held, clock::now()));
        // What is refused now was refused as a tap.
        let _ = self.settle(outcome);
    }

    /// Takes a record into memory, and shows it where it is new.
    pub(super) fn hold(self, held: Held<T>) -> ArcRwSignal<T> {
        let Held {
            id,
            record,
            counter,
            tally,
        } = held;
        self.register.cooks(&id, record.is_cooking());
        let signal = self.read.try_update_value(|read| {
            let copied = read.entry(id).or_insert_with(|| Copied {
                signal: ArcRwSignal::new(record.clone()),
                counter,
                tally: Tally::default(),
            });
            (copied.counter, copied.tally) = (counter, tally);
            copied.signal.clone()
        });
        let signal = signal.unwrap_or_else(|| ArcRwSignal::new(record.clone()));
        if signal.with_untracked(|old| *old != record) {
            signal.set(record);
        }
        signal
    }

    pub(super) fn forget(self, id: &str) {
        self.read.update_value(|read| {
            read.remove(id);
        });
        self.register.drop(id);
    }
}
