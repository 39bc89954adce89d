//! One fish as its screens work on it.

use leptos::prelude::*;

use super::bench::Bench;
use crate::base::refusal::Refusal;
use crate::fish::action::Action;
use crate::fish::record::Fish;
use crate::place::{Place, Stage};

/// The fish a screen is about, and the way to send what was tapped.
#[derive(Clone, Copy)]
pub struct Hand {
    /// What all screens share.
    pub bench: Bench,
    /// The fish, changing with every tap.
    pub fish: RwSignal<Fish>,
    id: StoredValue<String>,
}

impl Hand {
    /// The fish `id` in hand; nothing when it is not on this phone.
    #[must_use]
    pub fn of(bench: Bench, id: &str) -> Option<Self> {
        Some(Self {
            bench,
            fish: bench.fish.signal(id)?.into(),
            id: StoredValue::new(id.to_owned()),
        })
    }

    /// The identity of the fish.
    #[must_use]
    pub fn id(self) -> String {
        self.id.get_value()
    }

    /// Does what was tapped, of any kind.
    ///
    /// # Errors
    /// The sentence for what can't be done. Nothing is changed then.
    pub fn act(self, action: Action) -> Result<(), Refusal> {
        self.bench.fish.act(&self.id.get_value(), action)
    }

    /// Sends a tap of any kind; what can't be done is said in `refused`.
    pub fn send(self, action: Action, refused: RwSignal<Option<String>>) -> bool {
        told(self.act(action), refused)
    }

    /// As [`Hand::send`], for a tap that needs nothing of what cooks: see [`Fish::weigh`].
    pub fn weigh(self, action: Action, refused: RwSignal<Option<String>>) -> bool {
        let fish = self.bench.fish;
        let done = fish.act_by(&self.id.get_value(), action, Fish::weigh);
        told(done, refused)
    }

    /// The address of a stage of this fish.
    #[must_use]
    pub fn at(self, stage: Stage) -> Place {
        Place::Fish(self.id.get_value(), stage)
    }

    /// Goes to a stage of this fish.
    pub fn go(self, stage: Stage) {
        self.bench.go(&self.id.get_value(), stage);
    }

    /// Whether this fish is the demonstration.
    #[must_use]
    pub fn demo(self) -> Signal<bool> {
        let fish = self.fish;
        Signal::derive(move || fish.with(|fish| fish.demo))
    }

    /// The name of this fish.
    #[must_use]
    pub fn name(self) -> Signal<String> {
        let fish = self.fish;
        Signal::derive(move || fish.with(Fish::name))
    }
}

/// Whether it was done; if not, `refused` says why.
fn told(done: Result<(), Refusal>, refused: RwSignal<Option<String>>) -> bool {
    let is_done = done.is_ok();
    refused.set(done.err().map(|refusal| refusal.to_string()));
    is_done
}
