//! From the mise en place to the pass, but for the service itself.

pub mod all_steps;
mod alongside;
mod by_eye;
mod cooked_into;
pub mod heat;
pub mod pass;
pub mod plan;
pub mod prepare;
mod refusals;
pub mod steps;
mod timing;

use leptos::prelude::*;

use crate::device::clock;
use crate::parts::missing;
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
    // While nothing cooks no clock runs: it stands where the last screen that had one left it.
    bench.now.set(clock::now());
    match stage {
        Stage::Heat => heat::screen(hand),
        Stage::Plan => plan::screen(hand),
        Stage::Steps => steps::screen(hand),
        Stage::AllSteps => all_steps::screen(hand),
        Stage::Pass => pass::screen(hand),
        _ => prepare::screen(hand),
    }
}
