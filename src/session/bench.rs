//! What all screens share: the fish, the present moment, and the one way for a tap.

mod elsewhere;
mod preferences;

use std::collections::BTreeMap;

use leptos::prelude::*;

use super::notice::Notice;
use super::removal::{self, Whereto};
use crate::base::id;
use crate::base::instant::Instant;
use crate::base::refusal::Refusal;
use crate::device::storage::LocalShelf;
use crate::device::wake::Wake;
use crate::device::{address, build, clock};
use crate::fish::action::Action;
use crate::fish::record::Fish;
use crate::fish::settings::Settings;
use crate::keep::bin::{Bin, Unbinned};
use crate::place::{Place, Stage};
use crate::store::outcome::{Fault, Held, Outcome};
use crate::store::records::Store;
use crate::store::standing::Standing;

/// The settings are one record under this name.
const MINE: &str = "mine";

/// One fish in memory, and how far its stored copy has got.
struct InHand {
    signal: ArcRwSignal<Fish>,
    counter: u64,
}

/// What all screens share. Copied freely: it holds only handles.
#[derive(Clone, Copy)]
pub struct Bench {
    /// The screen that is shown.
    pub place: RwSignal<Place>,
    /// The present moment, moved on while a clock is shown or a timer runs.
    pub now: RwSignal<Instant>,
    /// The identities of all fish, the latest first.
    pub roll: RwSignal<Vec<String>>,
    /// The fish whose timers may still ring.
    pub cooking: RwSignal<Vec<String>>,
    /// The preferences of this phone.
    pub settings: RwSignal<Settings>,
    /// What the cook has to know.
    pub notice: RwSignal<Option<Notice>>,
    /// Whether a newer build waits.
    pub update_ready: RwSignal<bool>,
    /// Whether a timer's end can be heard: not before the page has been touched.
    pub armed: RwSignal<bool>,
    /// Whether the screen is kept awake.
    pub wake: RwSignal<Wake>,
    fish: StoredValue<BTreeMap<String, InHand>>,
    store: StoredValue<Store<Fish>>,
    preferences: StoredValue<(Store<Settings>, u64)>,
}

impl Bench {
    /// A bench with nothing on it.
    #[must_use]
    pub fn empty() -> Self {
        Self {
            place: RwSignal::new(address::place()),
            now: RwSignal::new(clock::now()),
            roll: RwSignal::new(Vec::new()),
            cooking: RwSignal::new(Vec::new()),
            settings: RwSignal::new(Settings::default()),
            notice: RwSignal::new(None),
            update_ready: RwSignal::new(false),
            armed: RwSignal::new(false),
            wake: RwSignal::new(Wake::Dropped),
            fish: StoredValue::new(BTreeMap::new()),
            store: StoredValue::new(Store::new("fish", build::number())),
            preferences: StoredValue::new((Store::new("settings", build::number()), 0)),
        }
    }

    /// The bench of this page, which `screens::mount` provides before any screen is built.
    #[must_use]
    pub fn here() -> Self {
        use_context::<Self>().unwrap_or_else(Self::empty)
    }

    /// Reads everything that is kept on this phone. What can't be read is set aside and told of.
    pub fn load(self) {
        let now = clock::now();
        let loaded = self
            .store
            .try_update_value(|store| store.load_all(&LocalShelf, now));
        let preferences = self
            .preferences
            .try_update_value(|(store, _)| store.load_all(&LocalShelf, now));
        let (Some(loaded), Some(preferences)) = (loaded, preferences) else {
            return;
        };
        for held in preferences
            .records
            .into_iter()
            .filter(|held| held.id == MINE)
        {
            self.settings.set(held.record);
            self.preferences
                .update_value(|(_, counter)| *counter = held.counter);
        }
        for held in loaded.records {
            self.put_in_hand(held);
        }
        self.sort_roll();
        removal::sweep_photos(Bin::new(build::number()).empty_old(&LocalShelf, now));
        let aside = loaded.aside.len().saturating_add(preferences.aside.len());
        if let Some(fault) = loaded.faults.into_iter().chain(preferences.faults).next() {
            self.tell_fault(&fault);
        } else if let Standing::ReadOnly { why } = loaded.standing {
            self.tell_fault(&Fault::ReadOnly(why));
        } else if aside > 0 {
            self.notice.set(Some(Notice::Told(format!(
                "{} on this phone could not be read. It was set aside whole, and nothing else was touched.",
                if aside == 1 { "One stored copy".to_owned() } else { format!("{aside} stored copies") }
            ))));
        }
    }

    /// Which of the student's tests of its species a fish is, 1 to 8.
    #[must_use]
    pub fn test_number(self, fish: &Fish) -> u8 {
        let all: Vec<Fish> = self.fish.with_value(|all| {
            let hands = all.values();
            hands.map(|hand| hand.signal.get_untracked()).collect()
        });
        fish.test_number(&all)
    }

    /// One fish, as a signal that changes with every tap.
    #[must_use]
    pub fn fish(self, id: &str) -> Option<RwSignal<Fish>> {
        self.signal(id).map(RwSignal::from)
    }

    /// Reads one fish without a handle of its own, for what looks many times a second.
    pub fn look<T>(self, id: &str, read: impl FnOnce(&Fish) -> T) -> Option<T> {
        let signal = self.signal(id)?;
        Some(signal.with_untracked(read))
    }

    /// Reads one fish and follows its changes.
    pub fn follow<T>(self, id: &str, read: impl FnOnce(&Fish) -> T) -> Option<T> {
        let signal = self.signal(id)?;
        Some(signal.with(read))
    }

    fn signal(self, id: &str) -> Option<ArcRwSignal<Fish>> {
        self.fish
            .with_value(|fish| fish.get(id).map(|hand| hand.signal.clone()))
    }

    /// Does what was tapped, and keeps it before the screen shows it.
    ///
    /// # Errors
    /// The sentence for a tap that can't be done. Nothing is changed then.
    pub fn act(self, id: &str, action: Action) -> Result<(), Refusal> {
        let Some(held) = self.held(id) else {
            return Err(Refusal::new("This fish is no longer on this phone."));
        };
        let now = clock::now();
        let outcome = self
            .store
            .try_update_value(|store| {
                store.commit(&LocalShelf, &held, now, move |fish: &Fish| {
                    fish.apply(&action, now)
                })
            })
            .ok_or_else(|| Refusal::new("The page is closing."))?;
        self.look_again(id);
        self.settle(outcome)
    }

    /// A new fish. Returns where its job begins.
    ///
    /// # Errors
    /// The sentence for a fish that can't be begun.
    pub fn begin(
        self,
        make: impl FnOnce(String, Instant, &Settings) -> Fish,
    ) -> Result<Place, Refusal> {
        let now = clock::now();
        let id = identity(now);
        let fish = self
            .settings
            .with_untracked(|settings| make(id.clone(), now, settings));
        let stage = fish.next_stage();
        let outcome = self
            .store
            .try_update_value(|store| store.create(&LocalShelf, &id, fish, now))
            .ok_or_else(|| Refusal::new("The page is closing."))?;
        self.settle(outcome)?;
        self.sort_roll();
        Ok(Place::Fish(id, stage))
    }

    /// Keeps fish that come from elsewhere, each under the identity it brings. Returns how many are kept: all
    /// of them, unless the phone stops taking any more.
    pub fn adopt(self, fish: Vec<Fish>) -> usize {
        let now = clock::now();
        let mut kept = 0_usize;
        for fish in fish {
            let id = fish.id.clone();
            let outcome = self
                .store
                .try_update_value(|store| store.create(&LocalShelf, &id, fish, now));
            match outcome {
                Some(Outcome::Kept { held, .. }) => {
                    self.put_in_hand(held);
                    kept = kept.saturating_add(1);
                }
                // There is one already: nothing that is here is changed.
                Some(Outcome::Refused(_)) => {}
                Some(Outcome::NotKept { .. }) | None => break,
            }
        }
        self.sort_roll();
        kept
    }

    /// What is read of each fish as it is now, the latest first.
    pub fn of_each<T>(self, read: impl Fn(&Fish) -> Option<T>) -> Vec<T> {
        self.roll.with_untracked(|roll| {
            roll.iter()
                .filter_map(|id| self.look(id, &read).flatten())
                .collect()
        })
    }

    /// Takes a fish off the list.
    ///
    /// # Errors
    /// Why the fish has to stay.
    pub fn remove(self, id: &str, whereto: Whereto) -> Result<(), Unbinned> {
        let Some(held) = self.held(id) else {
            return Ok(());
        };
        let removed = self
            .store
            .try_update_value(|store| removal::remove(self, store, &held, "fish", whereto));
        removed.unwrap_or(Ok(()))?;
        self.drop_from_hand(id);
        Ok(())
    }

    /// Goes to a stage of a fish.
    pub fn go(self, id: &str, stage: Stage) {
        address::go(&Place::Fish(id.to_owned(), stage));
    }

    fn held(self, id: &str) -> Option<Held<Fish>> {
        self.fish.with_value(|fish| {
            fish.get(id).map(|hand| Held {
                id: id.to_owned(),
                record: hand.signal.get_untracked(),
                counter: hand.counter,
            })
        })
    }

    fn settle(self, outcome: Outcome<Fish>) -> Result<(), Refusal> {
        match outcome {
            Outcome::Kept { held, left_out, .. } => {
                self.put_in_hand(held);
                if let Some(refusal) = left_out.first() {
                    self.notice.set(Some(Notice::Told(format!(
                        "Another tab changed this fish first, so one of your taps could not be kept: {refusal}"
                    ))));
                } else if matches!(self.notice.get_untracked(), Some(Notice::NotKept(_))) {
                    self.notice.set(None);
                }
                Ok(())
            }
            Outcome::Refused(refusal) => Err(refusal),
            Outcome::NotKept { held, fault } => {
                self.put_in_hand(held);
                self.tell_fault(&fault);
                Ok(())
            }
        }
    }

    /// Says what could not be kept or read.
    pub fn tell_fault(self, fault: &Fault) {
        self.notice.set(Some(match fault {
            Fault::ReadOnly(_) => Notice::OlderBuild(fault.to_string()),
            _ => Notice::NotKept(format!(
                "{fault} Your entries stay on this screen until it is closed, and are tried again with every tap."
            )),
        }));
    }

    fn put_in_hand(self, held: Held<Fish>) {
        let Held {
            id,
            record,
            counter,
        } = held;
        let cooks = record.is_cooking();
        self.cooking.update(|cooking| {
            cooking.retain(|other| *other != id);
            if cooks {
                cooking.push(id.clone());
            }
        });
        let signal = self.fish.try_update_value(|fish| {
            let hand = fish.entry(id).or_insert_with(|| InHand {
                signal: ArcRwSignal::new(record.clone()),
                counter,
            });
            hand.counter = counter;
            hand.signal.clone()
        });
        if let Some(signal) = signal
            && signal.with_untracked(|old| *old != record)
        {
            signal.set(record);
        }
    }

    fn drop_from_hand(self, id: &str) {
        self.fish.update_value(|fish| {
            fish.remove(id);
        });
        self.cooking
            .update(|cooking| cooking.retain(|other| other != id));
        self.roll.update(|roll| roll.retain(|other| other != id));
    }

    fn sort_roll(self) {
        let mut roll: Vec<(Instant, String)> = self.fish.with_value(|fish| {
            fish.iter()
                .map(|(id, hand)| (hand.signal.with_untracked(|fish| fish.begun), id.clone()))
                .collect()
        });
        roll.sort_unstable_by(|a, b| b.cmp(a));
        self.roll.set(roll.into_iter().map(|(_, id)| id).collect());
    }
}

/// A name for a new record that no other has.
#[must_use]
pub fn identity(now: Instant) -> String {
    id::new_id(now, clock::chance())
}
