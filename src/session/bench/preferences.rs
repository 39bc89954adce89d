//! The preferences of this phone: one record, changed as any other.

use leptos::prelude::*;

use super::{Bench, MINE};
use crate::device::storage::LocalShelf;
use crate::device::{clock, tabs};
use crate::fish::settings::Settings;
use crate::store::outcome::{Held, Outcome};

impl Bench {
    /// Changes the preferences.
    pub fn prefer(self, change: impl Fn(&mut Settings) + Send + Sync + 'static) {
        let now = clock::now();
        let outcome = self.preferences.try_update_value(|(store, counter)| {
            let held = Held {
                id: MINE.to_owned(),
                record: self.settings.get_untracked(),
                counter: *counter,
            };
            store.commit(&LocalShelf, &held, now, move |settings: &Settings| {
                let mut settings = settings.clone();
                change(&mut settings);
                Ok(settings)
            })
        });
        match outcome {
            Some(Outcome::Kept { held, .. }) => self.hold_settings(held),
            Some(Outcome::NotKept { held, fault }) => {
                self.hold_settings(held);
                self.tell_fault(&fault);
            }
            Some(Outcome::Refused(_)) | None => {}
        }
        self.look_again_at_preferences();
    }

    /// As [`Bench::changed_elsewhere`], for the preferences.
    pub(super) fn preferred_elsewhere(self, key: &str, text: Option<&str>) {
        let preferred = self.preferences.try_update_value(|(store, _)| {
            store.id_of(key)?;
            store.hear(MINE, text.unwrap_or_default());
            store.reread(&LocalShelf, MINE).ok().flatten()
        });
        if let Some(held) = preferred.flatten() {
            self.hold_settings(held);
            self.look_again_at_preferences();
        }
    }

    fn look_again_at_preferences(self) {
        tabs::in_turn("preferences", move || {
            let mended = self.preferences.try_update_value(|(store, counter)| {
                let held = Held {
                    id: MINE.to_owned(),
                    record: self.settings.get_untracked(),
                    counter: *counter,
                };
                store.mend(&LocalShelf, &held, clock::now())
            });
            if let Some(Outcome::Kept { held, .. }) = mended.flatten() {
                self.hold_settings(held);
            }
        });
    }

    pub(super) fn hold_settings(self, held: Held<Settings>) {
        self.preferences
            .update_value(|(_, counter)| *counter = held.counter);
        self.settings.set(held.record);
    }
}
