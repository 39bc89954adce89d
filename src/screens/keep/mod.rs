//! What is kept on this phone: a fish as a whole and its journal, the settings, room, bin, backup.

pub mod about;
pub mod bin;
pub mod journal;
pub mod phone;
mod refusals;
pub mod restore;
pub mod settings;
pub mod shortcut;
pub mod summary;

use leptos::prelude::*;

use crate::parts::missing;
use crate::place::{Place, Stage};
use crate::session::bench::Bench;
use crate::session::hand::Hand;

/// What is kept, and what the app says of itself.
pub fn screen(bench: Bench, place: &Place) -> AnyView {
    match place {
        Place::About => about::screen(),
        Place::Shortcut(shortcut) => shortcut::screen(bench, *shortcut),
        Place::Settings => settings::screen(bench),
        Place::Kept => phone::screen(bench),
        Place::Bin => bin::screen(),
        Place::Restore => restore::screen(),
        Place::Fish(id, stage) => match Hand::of(bench, id) {
            None => missing::fish(),
            Some(hand) if *stage == Stage::Journal => journal::screen(hand),
            Some(hand) => summary::screen(hand),
        },
        _ => missing::fish(),
    }
}
