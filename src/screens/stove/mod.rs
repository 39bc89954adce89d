//! The service as it is cooked, and the timers, which ring whatever screen is shown.

pub mod alarm;
pub mod drawn;
pub mod due;
mod follows;
pub mod hours;
mod large;
pub mod probe;
pub mod service;
mod strip;
pub mod taps;

use leptos::prelude::*;

use self::service::Around;

use crate::base::refusal::Refusal;
use crate::device::{bell, clock};
use crate::parts::missing;
use crate::parts::page::{Page, back_to};
use crate::parts::planned::ShownPlan;
use crate::place::{Place, Stage};
use crate::service::timetable::face::{self, Face};
use crate::session::bench::Bench;
use crate::session::hand::Hand;

/// The service of a fish.
pub fn screen(bench: Bench, place: &Place, around: Around) -> AnyView {
    let hand = place.fish().and_then(|id| Hand::of(bench, id));
    let Some(hand) = hand else {
        return missing::fish();
    };
    // While nothing cooks no clock runs: it stands where the last screen that had one left it.
    bench.now.set(clock::now());
    service::screen(hand, around)
}

/// A fish whose dish this build does not carry: everything else of it can still be read.
pub fn no_dish(hand: Hand, refusal: &Refusal) -> AnyView {
    let sentence = refusal.to_string();
    view! {
        <Page title="This dish is not here" above=hand.name() demo=hand.demo() dock=move || back_to(&hand.at(Stage::Summary))>
            <p class="fault">{sentence}</p>
        </Page>
    }
    .into_any()
}

/// Every step as it stands, what is still to come at the hour the plan gives it.
pub fn faces(hand: Hand, planned: ShownPlan) -> Memo<Vec<Face>> {
    Memo::new(move |_| {
        let now = hand.bench.now.get();
        hand.fish.with(|fish| match (&fish.run, fish.dish()) {
            (Some(run), Ok(dish)) => {
                planned.with(|planned| face::faces(dish, &fish.slip.missing, run, planned, now))
            }
            _ => Vec::new(),
        })
    })
}

/// What is shown where a service can't be: its dish is not here, or it has not begun. Nothing where it can.
pub fn not_cooking(hand: Hand) -> Option<AnyView> {
    let (dish, has_begun) = hand
        .fish
        .with_untracked(|fish| (fish.dish().map(|_| ()), fish.run.is_some()));
    match dish {
        Err(refusal) => Some(no_dish(hand, &refusal)),
        Ok(()) if !has_begun => Some(not_started(hand)),
        Ok(()) => None,
    }
}

/// The service of a fish that has none yet.
fn not_started(hand: Hand) -> AnyView {
    view! {
        <Page title="Service" above=hand.name() at=Stage::Service demo=hand.demo() dock=move || back_to(&hand.at(Stage::Prepare))>
            <p>"The service starts from the mise en place: go back one screen."</p>
        </Page>
    }
    .into_any()
}

/// That line, on the screens that show the timers.
pub fn mute_line(bench: Bench) -> AnyView {
    let said = Memo::new(move |_| mute(bench));
    view! { {move || said.get().map(|said| view! { <p class="care small">{said}</p> })} }.into_any()
}

/// What keeps the alarms from being heard, where anything does: they are turned off, the page was not touched yet, the
/// phone keeps its sound back, or this browser makes none.
fn mute(bench: Bench) -> Option<&'static str> {
    let (sound, buzz) = bench
        .settings
        .with(|settings| (settings.sound, settings.buzz));
    let armed = bench.armed.get();
    match (sound, buzz) {
        (false, false) => Some("Sound and vibration are off: alarms are only shown."),
        (false, true) => Some("Sound is off: alarms are shown and felt, not heard."),
        (true, _) if armed => None,
        // It is asked again with every tick of the clock.
        (true, _) => Some(match bell::why_mute(bench.now.get()) {
            bell::Mute::Untouched => "Touch the screen once, so that the alarms can be heard.",
            bell::Mute::HeldBack => {
                "The phone keeps its sound back, as under a call: alarms are only shown. Touch the screen to try again."
            }
            bell::Mute::Refused => "This browser makes no sound: alarms are only shown.",
        }),
    }
}
