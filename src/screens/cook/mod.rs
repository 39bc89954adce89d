//! From the mise en place to the pass.

pub mod alarm;
mod due;
pub mod heat;
pub mod pass;
pub mod plan;
pub mod prepare;
pub mod probe;
mod refusals;
pub mod service;
pub mod steps;

use leptos::prelude::*;

use crate::base::refusal::Refusal;
use crate::parts::missing;
use crate::parts::page::{Page, back_to};
use crate::place::{Place, Stage};
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
