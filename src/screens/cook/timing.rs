//! What the timers of a fish go by: its thickness, or the dish's own times.

use leptos::prelude::*;

use crate::fish::action::Action;
use crate::fish::serving::PlanTap;
use crate::parts::estimated::Told;
use crate::parts::words;
use crate::place::Stage;
use crate::service::dish::Dish;
use crate::service::dish::laid_out::FishTimes;
use crate::service::dish::shipped::{self, FIXED_TIMES_FIT_MM};
use crate::service::dish::step::OfFish;
use crate::session::hand::Hand;

/// What the timers of the fish go by.
#[derive(Clone, Copy, PartialEq, Eq)]
enum TimedBy {
    Thickness,
    Dish,
    /// The service has begun: nothing is chosen here any more.
    Begun,
}

/// The choice of what the timers go by. Copied freely: it holds only handles.
#[derive(Clone, Copy)]
pub(super) struct Timing {
    hand: Hand,
    refused: RwSignal<Option<String>>,
    /// The times of the newest estimate.
    times: Memo<Option<FishTimes>>,
    by: Memo<TimedBy>,
}

impl Timing {
    /// The timers come from the thickness as soon as there is an estimate, until the cook chooses the dish's own times.
    pub(super) fn of(hand: Hand, told: RwSignal<Told>, refused: RwSignal<Option<String>>) -> Self {
        let fish = hand.fish;
        let times = Memo::new(move |_| {
            told.with(|told| match told {
                Told::Estimate(estimate) => Some(FishTimes::from(&estimate.advice)),
                _ => None,
            })
        });
        let by = Memo::new(move |_| {
            fish.with(|fish| match (fish.run.is_some(), fish.serving().is_fixed) {
                (true, _) => TimedBy::Begun,
                (false, true) => TimedBy::Dish,
                (false, false) => TimedBy::Thickness,
            })
        });
        let timing = Self {
            hand,
            refused,
            times,
            by,
        };
        Effect::new(move |_| {
            if let (Some(times), TimedBy::Thickness) = (times.get(), by.get())
                && fish.with_untracked(|fish| fish.serving().times != Some(times))
            {
                timing.take(Some(times));
            }
        });
        timing
    }

    fn take(self, times: Option<FishTimes>) -> bool {
        let tap = PlanTap::Times(times);
        self.hand.send(Action::Plan(tap), self.refused)
    }

    fn take_and_go(self, times: Option<FishTimes>) {
        if self.take(times) {
            self.hand.go(Stage::Prepare);
        }
    }

    /// The button that is due.
    pub(super) fn due(self) -> AnyView {
        view! {
            {move || match (self.times.get(), self.by.get()) {
                (_, TimedBy::Begun) | (None, _) => ().into_any(),
                (times, _) => view! {
                    <button class="btn main tall next" on:click=move |_| self.take_and_go(times)>"Cook it by this"</button>
                }.into_any(),
            }}
        }
        .into_any()
    }

    /// The other choice, and for what it fits: open until the fillet is measured, then folded.
    pub(super) fn or_the_dish(self) -> AnyView {
        let fish = self.hand.fish;
        let said = Memo::new(move |_| fish.with(|fish| fish.dish().ok().and_then(fixed_times)));
        let unmeasured = Memo::new(move |_| fish.with(|fish| !fish.heat().is_measured()));
        let choice = move |said: String| {
            view! {
                <div class="field">
                    <button class="btn plain" aria-describedby="own-times" on:click=move |_| self.take_and_go(None)>"Use the dish's own times"</button>
                    <p class="hint" id="own-times" data-says="heat">{said}</p>
                </div>
            }
        };
        view! {
            {move || match (self.by.get(), said.get()) {
                (TimedBy::Begun, _) | (_, None) => ().into_any(),
                (TimedBy::Dish, Some(said)) => view! { <p class="notice">"It cooks by the dish's own times. "{said}</p> }.into_any(),
                (TimedBy::Thickness, Some(said)) if unmeasured.get() => choice(said).into_any(),
                (TimedBy::Thickness, Some(said)) => view! {
                    <details><summary>"The dish's own times"</summary>{choice(said)}</details>
                }.into_any(),
            }}
        }
        .into_any()
    }
}

/// The times that a dish has of itself, and for what they are.
fn fixed_times(dish: &Dish) -> Option<String> {
    let secs = |part| {
        let step = dish.steps.iter().find(|step| step.of_fish == Some(part))?;
        step.lasts
    };
    let (skin, finish) = (secs(OfFish::SkinSide)?, secs(OfFish::Finish)?);
    let face = |secs: u32| words::face(i64::from(secs) * 1000);
    let fits = match shipped::by_id(&dish.id) {
        Ok(as_shipped) if as_shipped == dish => {
            format!("For up to {FIXED_TIMES_FIT_MM} mm: ")
        }
        _ => String::new(),
    };
    Some(format!(
        "{fits}{}, then {} turned.",
        face(skin),
        face(finish)
    ))
}
