//! The tap that is due, in the dock: under the thumb, whatever stands above.

use std::time::Duration;

use leptos::prelude::*;

use super::taps::Taps;
use crate::device::keys;
use crate::parts::page::back_to;
use crate::place::Stage;
use crate::service::run::Tap;
use crate::service::timetable::due::{DueTap, due};
use crate::service::timetable::face::Face;
use crate::session::hand::Hand;

/// How long the button rests after a tap: a second tap of the same thumb was not meant for what is due next.
const REST: Duration = Duration::from_millis(700);

/// What the button says and does.
#[derive(Clone, PartialEq)]
struct DueButton {
    id: String,
    title: String,
    words: String,
    tap: Tap,
    rings: bool,
}

/// What the dock offers beside the way back.
#[derive(Clone, PartialEq)]
enum Offer {
    /// Timers run, and nothing else.
    Nothing,
    Tap(DueButton),
    /// The plate is looked at before the last tap sends it away.
    CheckPlate,
}

/// The dock of a service, and what does the same without it. Copied freely: it holds only handles.
#[derive(Clone, Copy)]
pub struct DueDock {
    taps: Taps,
    /// Whether the button rests.
    rests: RwSignal<bool>,
    shown: Memo<Offer>,
}

impl DueDock {
    /// What is due of the service of `taps`.
    pub fn of(taps: Taps, faces: Memo<Vec<Face>>, over: Memo<bool>) -> Self {
        let hand = taps.hand;
        // What is due hangs on the clock as well: the faces may stand still while an hour comes.
        let what = Memo::new(move |_| {
            let now = hand.bench.now.get();
            faces.with(|faces| due(faces, now))
        });
        // One memo for all that the dock shows: a view that read two of them, of which one read the other, was not drawn
        // again when both had changed.
        let shown = Memo::new(move |_| {
            if over.get() {
                return Offer::CheckPlate;
            }
            match what.get().and_then(|(id, what)| button(hand, id, what)) {
                Some(due) if is_last(hand, &due) => Offer::CheckPlate,
                Some(due) => Offer::Tap(due),
                None => Offer::Nothing,
            }
        });
        Self {
            taps,
            rests: RwSignal::new(false),
            shown,
        }
    }

    fn send(self, due: DueButton) {
        if self.rests.get_untracked() {
            return;
        }
        self.rests.set(true);
        let rests = self.rests;
        set_timeout(
            move || {
                rests.try_set(false);
                keys::hold_focus();
            },
            REST,
        );
        self.taps.send(due.tap);
    }

    /// Does what is due, and nothing where nothing is: for hands that can't aim. Two of them in a row do one thing, since
    /// the button rests after the first.
    pub fn without_aiming(self) {
        if let Offer::Tap(due) = self.shown.get_untracked() {
            self.send(due);
        }
    }

    /// The dock: what is due, and the way back from the last tap, or else to the screen `before`. The plate is checked
    /// once all is done.
    pub fn view(self, before: Stage) -> impl IntoView + use<> {
        let (taps, hand) = (self.taps, self.taps.hand);
        view! {
            {move || match taps.last.get() {
                Some(id) => view! {
                    <button class="btn plain tall back" on:click=move |_| taps.send(Tap::NotDone(id.clone()))>"Undo"</button>
                }.into_any(),
                None => back_to(&hand.at(before)).into_any(),
            }}
            {move || match self.shown.get() {
                Offer::Nothing => None,
                Offer::CheckPlate => Some(view! { <a class="btn main tall next" href=hand.at(Stage::Pass).to_string()>"Check the plate"</a> }.into_any()),
                Offer::Tap(due) => {
                    let class = if due.rings { "btn hot tall next due" } else { "btn main tall next due" };
                    let (title, words) = (due.title.clone(), due.words.clone());
                    Some(view! {
                        <button class=class disabled=move || self.rests.get() on:click=move |_| self.send(due.clone())>
                            <small>{title}</small>
                            <span>{words}</span>
                        </button>
                    }.into_any())
                }
            }}
        }
    }
}

/// Whether nothing but this is left to be done, and a question about the plate is open.
fn is_last(hand: Hand, due: &DueButton) -> bool {
    hand.fish.with(|fish| {
        let (Some(run), Ok(dish)) = (&fish.run, fish.dish()) else {
            return false;
        };
        let last = run.last_open(dish).is_some_and(|step| step.id == due.id);
        last && dish
            .plate_check
            .iter()
            .any(|check| !fish.plate.contains_key(&check.id))
    })
}

fn button(hand: Hand, id: String, what: DueTap) -> Option<DueButton> {
    hand.fish.with_untracked(|fish| {
        let step = fish.dish().ok()?.step(&id)?;
        let (words, tap) = match what {
            DueTap::End => (step.done_word.clone(), Tap::Done(id.clone())),
            // A step of the hand is begun and done in one tap.
            DueTap::Begin if step.lasts.is_none() => {
                (step.done_word.clone(), Tap::AtAStroke(id.clone()))
            }
            DueTap::Begin => ("Begin".to_owned(), Tap::Begin(id.clone())),
        };
        Some(DueButton {
            id,
            title: step.title.clone(),
            words,
            rings: what == DueTap::End && step.lasts.is_some(),
            tap,
        })
    })
}
