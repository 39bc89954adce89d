//! A cook's own fish side by side.

pub mod cheapest;
pub mod tests;

use leptos::prelude::*;

use crate::parts::missing;
use crate::place::Place;
use crate::session::bench::Bench;
use crate::session::drawer::Drawer;

/// The tests side by side, or what each fish costs to eat.
pub fn screen(bench: Bench, place: &Place) -> AnyView {
    match place {
        Place::Compare { demo } => tests::screen(bench, *demo),
        Place::Cheapest { demo } => cheapest::screen(bench, Drawer::here(), *demo),
        _ => missing::fish(),
    }
}
