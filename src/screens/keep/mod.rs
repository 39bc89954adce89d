//! What is kept on this phone: room, bin, backup.

pub mod about;
pub mod bin;
pub mod phone;
pub mod restore;

use leptos::prelude::*;

use super::{home, journal};
use crate::place::Place;
use crate::session::bench::Bench;
use crate::session::hand::Hand;

/// What is kept, and what the app says of itself.
pub fn screen(bench: Bench, place: &Place) -> AnyView {
    match place {
        Place::About => about::screen(),
        Place::Kept => phone::screen(bench),
        Place::Bin => bin::screen(),
        Place::Restore => restore::screen(),
        Place::Fish(id, _) => match Hand::of(bench, id) {
            None => home::not_found(),
            Some(hand) => journal::of_fish(hand),
        },
        _ => home::screen(bench),
    }
}
