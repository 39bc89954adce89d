//! From the mise en place to the pass.

pub mod alarm;
pub mod heat;
pub mod pass;
pub mod plan;
pub mod prepare;
pub mod probe;
pub mod service;
pub mod steps;

use leptos::prelude::*;

use super::home;
use crate::place::{Place, Stage};
use crate::session::bench::Bench;
use crate::session::hand::Hand;

/// The screen of a stage that cooks.
pub fn screen(bench: Bench, place: &Place) -> AnyView {
    let Place::Fish(id, stage) = place else {
        return home::screen(bench);
    };
    let Some(hand) = Hand::of(bench, id) else {
        return home::not_found();
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
