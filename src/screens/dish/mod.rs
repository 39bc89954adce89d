//! The kitchen's own dishes.

pub mod allergens;
pub mod card;
pub mod fish;
pub mod journal;
pub mod line;
pub mod list;
pub mod order;
pub mod plate;
pub mod price;
pub mod scale;
pub mod serve;
pub mod taken_in;

use leptos::prelude::*;

use crate::parts::missing;
use crate::place::{DishSide, Place};
use crate::screens::cook::steps;
use crate::session::bench::Bench;
use crate::session::desk::Desk;
use crate::session::drawer::Drawer;

/// The list of dishes, one that comes from elsewhere, or a side of one.
pub fn screen(bench: Bench, place: &Place) -> AnyView {
    let recipes = Drawer::here();
    match place {
        Place::Dishes => list::screen(bench, recipes),
        Place::DishIn => taken_in::screen(bench, recipes),
        Place::Dish(id, _) if recipes.with_untracked(id, |_| ()).is_none() => list::not_found(),
        // A screen is built once; what is typed into it must not build it again.
        Place::Dish(id, side) => untrack(|| {
            let desk = Desk::of(bench, recipes, id);
            match side {
                DishSide::Card => card::screen(desk),
                DishSide::Line(at) => line::screen(desk, at),
                DishSide::Plate => plate::screen(desk),
                DishSide::Scale => scale::screen(desk),
                DishSide::Order => order::screen(desk),
                DishSide::Steps => steps::of_card(desk, move || serve::button_at_steps(desk)),
                DishSide::Allergens => allergens::screen(desk),
                DishSide::Journal => journal::screen(desk),
            }
        }),
        _ => missing::fish(),
    }
}
