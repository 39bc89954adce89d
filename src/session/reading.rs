//! How the records of a drawer are read: one when it is asked for, all in turns, the rest in idle time.

use leptos::prelude::*;
use wasm_bindgen_futures::spawn_local;

use super::drawer::Drawer;
use crate::base::id::is_id;
use crate::device::clock;
use crate::device::storage::LocalShelf;
use crate::device::turns::Turn;
use crate::store::entry::Entry;
use crate::store::outcome::{Held, Loaded};

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
        let own = id.to_owned();
        let forget: Option<Box<dyn FnOnce()>> = match &held {
            Some(_) => None,
            None => Some(Box::new(move || self.forget(&own))),
        };
        self.register.tell(id, &aside, faults, standing, forget);
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
        let mut left = self.register.ids.get_untracked().into_iter().peekable();
        let mut turn = Turn::begin();
        while !turn.is_over()
            && let Some(id) = left.next()
        {
            let _ = self.signal(&id);
        }
        if left.peek().is_none() {
            // Nobody waits for it: whoever asks now is answered.
            *self.whole.write_untracked() = true;
            return true;
        }
        self.reading.set_value(true);
        spawn_local(async move {
            turn.pause().await;
            for id in left {
                let _ = self.signal(&id);
                turn.pause().await;
            }
            self.whole.set(true);
        });
        false
    }
}
