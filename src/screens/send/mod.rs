//! A result on its way to somebody, and one that came.

pub mod card;
pub mod received;
pub mod result_code;
pub mod shared;
mod whose;

use leptos::prelude::*;

use crate::device::address;
use crate::parts::missing;
use crate::place::{Place, Stage};
use crate::session::bench::Bench;
use crate::session::drawer::Drawer;
use crate::session::hand::Hand;

/// The code or the card of a fish, or a code that came.
pub fn screen(bench: Bench, place: &Place) -> AnyView {
    match place {
        Place::Code(letters) if letters.is_empty() && !address::shared().is_empty() => {
            shared::screen()
        }
        Place::Code(letters) => received::screen(Drawer::here(), letters),
        Place::Fish(id, stage) => match Hand::of(bench, id) {
            None => missing::fish(),
            Some(hand) if *stage == Stage::Card => card::screen(hand),
            Some(hand) => result_code::screen(hand),
        },
        _ => missing::fish(),
    }
}
