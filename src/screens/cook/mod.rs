//! From the mise en place to the pass.

pub mod alarm;
pub mod all_steps;
mod due;
mod follows;
pub mod heat;
mod hours;
mod large;
pub mod pass;
pub mod plan;
pub mod prepare;
pub mod probe;
mod refusals;
pub mod service;
pub mod steps;
mod strip;
mod taps;

use leptos::prelude::*;

use crate::base::refusal::Refusal;
use crate::parts::missing;
use crate::parts::page::{Page, back_to};
use crate::parts::planned::ShownPlan;
use crate::place::{Place, Stage};
use crate::service::timetable::face::{self, Face};
use crate::session::bench::Bench;
use crate::session::hand::Hand;

/// The screen of a stage that cooks.
pub fn screen(bench: Bench, place: &Place) -> AnyView {
    let Place::Fish(id, stage) = place else {
        return missing::fish();
    };
    let Some(hand) = Hand::of(bench, id) else {
        return missing::fish();
    };
    match stage {
        Stage::Heat => heat::screen(hand),
        Stage::Plan => plan::screen(hand),
        Stage::Steps => steps::screen(hand),
        Stage::Service => service::screen(hand),
        Stage::AllSteps => all_steps::screen(hand),
        Stage::Pass => pass::screen(hand),
        _ => prepare::screen(hand),
    }
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
fn faces(hand: Hand, planned: ShownPlan) -> Memo<Vec<Face>> {
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
fn not_cooking(hand: Hand) -> Option<AnyView> {
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

/// Whether the alarms can't be heard though the cook wants them to be: before the page is touched, and while the phone
/// keeps its sound back.
fn is_mute(hand: Hand) -> bool {
    let bench = hand.bench;
    !bench.armed.get() && bench.settings.with(|settings| settings.sound)
}
