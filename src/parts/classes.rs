//! The tutor's classes on this phone, and the one way to change them.

use leptos::prelude::*;

use super::bench::{Bench, identity};
use crate::device::storage::LocalShelf;
use crate::device::{build, clock};
use crate::record::class_list::{Class, ClassAction};
use crate::record::outcome::{Held, Outcome};
use crate::record::store::Store;
use crate::refusal::Refusal;

/// All classes. Copied freely: it holds only handles.
#[derive(Clone, Copy)]
pub struct Classes {
    bench: Bench,
    /// The latest first.
    held: RwSignal<Vec<Held<Class>>>,
    store: StoredValue<Store<Class>>,
}

impl Classes {
    /// No classes yet; what can't be kept is told on `bench`.
    #[must_use]
    pub fn none(bench: Bench) -> Self {
        Self {
            bench,
            held: RwSignal::new(Vec::new()),
            store: StoredValue::new(Store::new("class", build::number())),
        }
    }

    /// Reads every class that is kept on this phone.
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

    /// The identities of all classes, the latest first.
    #[must_use]
    pub fn ids(self) -> Vec<String> {
        self.held
            .with(|held| held.iter().map(|held| held.id.clone()).collect())
    }

    /// Reads one class; nothing when it is not on this phone.
    pub fn with<T>(self, id: &str, read: impl FnOnce(&Class) -> T) -> Option<T> {
        self.held.with(|held| {
            let held = held.iter().find(|held| held.id == id)?;
            Some(read(&held.record))
        })
    }

    /// Reads one class as it is now, without following its changes.
    pub fn with_untracked<T>(self, id: &str, read: impl FnOnce(&Class) -> T) -> Option<T> {
        untrack(|| self.with(id, read))
    }

    /// A new class. Returns its identity.
    ///
    /// # Errors
    /// The sentence for a name that can't be taken.
    pub fn begin(self, name: &str) -> Result<String, Refusal> {
        let now = clock::now();
        let (class, id) = (Class::new(name, now)?, identity(now));
        let outcome = self
            .store
            .try_update_value(|store| store.create(&LocalShelf, &id, class, now));
        self.settle(outcome)?;
        Ok(id)
    }

    /// Does what was tapped, and keeps it.
    ///
    /// # Errors
    /// The sentence for what can't be done. Nothing is changed then.
    pub fn act(self, id: &str, action: ClassAction) -> Result<(), Refusal> {
        let Some(held) = self.held_untracked(id) else {
            return Err(Refusal::new("This class is no longer on this phone."));
        };
        let outcome = self.store.try_update_value(|store| {
            store.commit(&LocalShelf, &held, clock::now(), move |class: &Class| {
                class.apply(&action)
            })
        });
        self.settle(outcome)
    }

    /// Takes a class off this phone.
    ///
    /// # Errors
    /// The sentence for a class that has to stay.
    pub fn remove(self, id: &str) -> Result<(), Refusal> {
        let Some(held) = self.held_untracked(id) else {
            return Ok(());
        };
        self.store
            .try_update_value(|store| store.remove(&LocalShelf, &held, clock::now()))
            .unwrap_or(Ok(()))
            .map_err(|fault| Refusal::new(fault.to_string()))?;
        self.forget(id);
        Ok(())
    }

    /// What another tab has just stored under `key`.
    pub fn changed_elsewhere(self, key: Option<&str>) {
        let found = self.store.with_value(|store| {
            let id = store.id_of(key?)?.to_owned();
            let newest = store.reread(&LocalShelf, &id).ok()?;
            Some((id, newest))
        });
        match found {
            Some((_, Some(held))) => self.hold(held),
            Some((id, None)) => self.forget(&id),
            None => {}
        }
    }

    fn held_untracked(self, id: &str) -> Option<Held<Class>> {
        self.held
            .with_untracked(|held| held.iter().find(|held| held.id == id).cloned())
    }

    fn settle(self, outcome: Option<Outcome<Class>>) -> Result<(), Refusal> {
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

    fn hold(self, new: Held<Class>) {
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
            held.sort_by(|a, b| (b.record.begun, &b.id).cmp(&(a.record.begun, &a.id)))
        });
    }
}
