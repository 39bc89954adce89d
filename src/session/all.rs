//! All records of one kind read, for what is worked out of many: in turns, so that taps are answered meanwhile.

use leptos::prelude::*;

use super::drawer::Drawer;
use crate::device::turns;
use crate::store::entry::Entry;

impl<T: Entry> Drawer<T> {
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
