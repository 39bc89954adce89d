//! The tutor's classes.

mod answers;
pub mod board;
pub mod list;
mod lots;

use leptos::prelude::*;

use crate::place::Place;
use crate::session::drawer::Drawer;

/// One class on the board, or the list of them.
pub fn screen(place: &Place) -> AnyView {
    let classes = Drawer::here();
    match place {
        Place::Class(id) => board::screen(classes, id),
        _ => list::screen(classes),
    }
}
