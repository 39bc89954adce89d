//! How the records of a drawer are read: one when it is asked for, all in turns, the rest in idle time.

use std::time::Duration;

use leptos::prelude::*;

use super::drawer::Drawer;
use crate::base::id::is_id;
use crate::device::storage::LocalShelf;
use crate::device::{clock, turns};
use crate::store::entry::Entry;
use crate::store::outcome::{Fault, Held, Loaded};
use crate::store::standing::Standing;

impl<T: Entry> Drawer<T> {
    /// Reads one record off the shelf. What could not be read is told of once the screens are through with it.
    pub(super) fn load(self, id: &str) -> Option<Held<T>> {
        if !is_id(id) {
            return None;
        }
        let Loaded {
            mut records,
            aside,
            faults,
            standing,
        } = self
            .store
            .try_update_value(|store| store.load(&LocalShelf, id, clock::now()))?;
        let held = records.pop();
        let is_listed = || {
            self.ids
                .with_untracked(|ids| ids.iter().any(|other| other == id))
        };
        let is_gone = held.is_none() && faults.is_empty() && is_listed();
        if !aside.is_empty() || !faults.is_empty() || is_gone {
            let id = id.to_owned();
            let tell = move || {
                if let Some(fault) = faults.first() {
                    self.notices.fault(fault);
                } else if let (Standing::ReadOnly { why }, false) = (standing, aside.is_empty()) {
                    self.notices.fault(&Fault::ReadOnly(why));
                } else if !aside.is_empty() {
                    self.notices.set_aside(T::NOUN, aside.len());
                }
                if is_gone {
                    self.forget(&id);
                }
            };
            set_timeout(tell, Duration::ZERO);
        }
        held
    }

    /// Looks at a record that nothing has asked for yet: what can't be read is set aside and told of, and what cooks
    /// is taken up. Any other is not kept in memory for it.
    pub(super) fn look_over(self, id: &str) {
        let is_read = self.read.try_with_value(|read| read.contains_key(id));
        if is_read == Some(false)
            && let Some(held) = self.load(id)
            && held.record.is_cooking()
        {
            self.hold(held);
        }
    }

    /// Whether every record is in memory, followed; where they are not yet, they are read, some in each turn.
    #[must_use]
    pub fn read_all(self) -> bool {
        if self.whole.get() {
            return true;
        }
        if self.reading.get_value() {
            return false;
        }
        let mut left = self.ids.get_untracked().into_iter();
        let mut read = move || {
            left.next().is_some_and(|id| {
                let _ = self.signal(&id);
                true
            })
        };
        if !turns::within(&mut read) {
            // Nobody waits for it: whoever asks now is answered.
            *self.whole.write_untracked() = true;
            return true;
        }
        self.reading.set_value(true);
        turns::each(move || {
            let more = turns::within(&mut read);
            if !more {
                self.whole.set(true);
            }
            more
        });
        false
    }
}
