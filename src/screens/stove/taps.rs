//! What a thumb does to a running service, from whichever of its screens.

use leptos::prelude::*;

use crate::device::clock;
use crate::fish::action::Action;
use crate::fish::serving::PlanTap;
use crate::service::run::Tap;
use crate::session::hand::Hand;

/// The taps of one screen of a service. Copied freely: it holds only handles.
#[derive(Clone, Copy)]
pub struct Taps {
    /// The fish.
    pub hand: Hand,
    /// Why the last tap could not be done.
    pub refused: RwSignal<Option<String>>,
    /// The step that was tapped last, by its id: what can be taken back.
    pub last: RwSignal<Option<String>>,
}

impl Taps {
    /// Those of a screen that opens.
    pub fn of(hand: Hand) -> Self {
        Self {
            hand,
            refused: RwSignal::new(None),
            last: RwSignal::new(None),
        }
    }

    /// Does what was tapped.
    pub fn send(self, tap: Tap) {
        let last = match &tap {
            Tap::Begin(id) | Tap::Done(id) | Tap::AtAStroke(id) => Some(id.clone()),
            Tap::NotDone(_) => None,
            Tap::Hold(_) | Tap::Resume(_) | Tap::More(_) => self.last.get_untracked(),
        };
        self.hand.bench.now.set(clock::now());
        if self.hand.send(Action::Serve(tap), self.refused) {
            self.last.set(last);
        }
    }

    /// Does what was tapped of the plan.
    pub fn plan(self, tap: PlanTap) {
        self.hand.send(Action::Plan(tap), self.refused);
    }

    /// As a callback, for a card.
    pub fn callback(self) -> Callback<Tap> {
        Callback::new(move |tap| self.send(tap))
    }

    /// Why the last tap could not be done.
    pub fn fault(self) -> AnyView {
        view! {
            {move || self.refused.get().map(|sentence: String| view! { <p class="fault" role="alert">{sentence}</p> })}
        }
        .into_any()
    }
}
