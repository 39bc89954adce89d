//! The records of one kind on this phone, such as the tutor's classes, and the one way to change them.

use leptos::prelude::*;

use super::bench::{Bench, identity};
use super::removal::{self, Whereto};
use crate::base::instant::Instant;
use crate::base::refusal::Refusal;
use crate::device::storage::LocalShelf;
use crate::device::{build, clock, tabs};
use crate::keep::bin::Unbinned;
use crate::store::entry::Entry;
use crate::store::outcome::{Held, Outcome};
use crate::store::records::Store;

/// All records of one kind. Copied freely: it holds only handles.
pub struct Kept<T: Entry> {
    bench: Bench,
    /// The latest first.
    held: RwSignal<Vec<Held<T>>>,
    store: StoredValue<Store<T>>,
}

impl<T: Entry> Clone for Kept<T> {
    fn clone(&self) -> Self {
        *self
    }
}

impl<T: Entry> Copy for Kept<T> {}

impl<T: Entry> Kept<T> {
    /// No records yet; what can't be kept is told on `bench`.
    #[must_use]
    pub fn none(bench: Bench) -> Self {
        Self {
            bench,
            held: RwSignal::new(Vec::new()),
            store: StoredValue::new(Store::new(T::KIND, build::number())),
        }
    }

    /// Reads every record of this kind.
    pub fn load(self) {
        let now = clock::now();
        let loaded = self
            .store
            .try_update_value(|store| store.load_all(&LocalShelf, now));
        let Some(loaded) = loaded else { return };
        if let Some(fault) = loaded.faults.first() {
            self.bench.tell_fault(fault);
        }
        self.held.set(loaded.records);
        self.sort();
    }

    /// Those of this phone, which `screens::mount` provides before any screen is built.
    #[must_use]
    pub fn here() -> Self {
        use_context::<Self>().unwrap_or_else(|| Self::none(Bench::here()))
    }

    /// When each of the cook's own was begun.
    #[must_use]
    pub fn begun(self) -> Vec<Instant> {
        self.held.with(|held| {
            let own = held.iter().filter(|held| !held.record.is_demo());
            own.map(|held| held.record.begun()).collect()
        })
    }

    /// The identities of all records, the latest first.
    #[must_use]
    pub fn ids(self) -> Vec<String> {
        self.held
            .with(|held| held.iter().map(|held| held.id.clone()).collect())
    }

    /// Reads one record; nothing when it is not on this phone.
    pub fn with<U>(self, id: &str, read: impl FnOnce(&T) -> U) -> Option<U> {
        self.held.with(|held| {
            let held = held.iter().find(|held| held.id == id)?;
            Some(read(&held.record))
        })
    }

    /// Reads one record as it is now, without following its changes.
    pub fn with_untracked<U>(self, id: &str, read: impl FnOnce(&T) -> U) -> Option<U> {
        untrack(|| self.with(id, read))
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
        let (record, id) = (make(now)?, identity(now));
        let outcome = self
            .store
            .try_update_value(|store| store.create(&LocalShelf, &id, record, now));
        self.settle(outcome)?;
        Ok(id)
    }

    /// Does what was tapped, and keeps it.
    ///
    /// # Errors
    /// The sentence for what can't be done. Nothing is changed then.
    pub fn act(self, id: &str, action: T::Action) -> Result<(), Refusal> {
        let Some(held) = self.held_untracked(id) else {
            return Err(Refusal::new(format!(
                "This {} is no longer on this phone.",
                T::NOUN
            )));
        };
        let now = clock::now();
        let outcome = self.store.try_update_value(|store| {
            store.commit(&LocalShelf, &held, now, move |record: &T| {
                record.apply(&action, now)
            })
        });
        self.look_again(id);
        self.settle(outcome)
    }

    /// Looks, in turn with the other tabs, whether every tap of this tab is in, and makes it again if not.
    fn look_again(self, id: &str) {
        let record = id.to_owned();
        tabs::in_turn(id, move || {
            let mended = self.held_untracked(&record).and_then(|held| {
                let mend = |store: &mut Store<T>| store.mend(&LocalShelf, &held, clock::now());
                self.store.try_update_value(mend).flatten()
            });
            if mended.is_some() {
                // A tap that can no longer be made is told of.
                let _ = self.settle(mended);
            }
        });
    }

    /// Takes a record off the list.
    ///
    /// # Errors
    /// Why the record has to stay.
    pub fn remove(self, id: &str, whereto: Whereto) -> Result<(), Unbinned> {
        let Some(held) = self.held_untracked(id) else {
            return Ok(());
        };
        let removed = self
            .store
            .try_update_value(|store| removal::remove(self.bench, store, &held, T::NOUN, whereto));
        removed.unwrap_or(Ok(()))?;
        self.forget(id);
        Ok(())
    }

    /// What another tab has just stored under `key`, and its text.
    pub fn changed_elsewhere(self, key: Option<&str>, text: Option<&str>) {
        let found = self.store.try_update_value(|store| {
            let id = store.id_of(key?)?.to_owned();
            store.hear(&id, text.unwrap_or_default());
            let newest = store.reread(&LocalShelf, &id).ok()?;
            Some((id, newest))
        });
        match found.flatten() {
            Some((id, Some(held))) => {
                self.hold(held);
                self.look_again(&id);
            }
            Some((id, None)) => self.forget(&id),
            None => {}
        }
    }

    fn held_untracked(self, id: &str) -> Option<Held<T>> {
        self.held
            .with_untracked(|held| held.iter().find(|held| held.id == id).cloned())
    }

    fn settle(self, outcome: Option<Outcome<T>>) -> Result<(), Refusal> {
        match outcome {
            Some(Outcome::Kept { held, .. }) => self.hold(held),
            Some(Outcome::NotKept { held, fault }) => {
                self.hold(held);
                self.bench.tell_fault(&fault);
            }
            Some(Outcome::Refused(refusal)) => return Err(refusal),
            None => return Err(Refusal::new("The page is closing.")),
        }
        Ok(())
    }

    fn hold(self, new: Held<T>) {
        self.held.update(|held| {
            held.retain(|old| old.id != new.id);
            held.push(new);
        });
        self.sort();
    }

    fn forget(self, id: &str) {
        self.held.update(|held| held.retain(|old| old.id != id));
    }

    fn sort(self) {
        self.held.update(|held| {
            held.sort_by(|a, b| (b.record.begun(), &b.id).cmp(&(a.record.begun(), &a.id)))
        });
    }
}
