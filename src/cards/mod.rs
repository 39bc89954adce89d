//! What a kitchen writes on cards: dishes and parts made ahead, prices of fish, pans. A card keeps what was typed;
//! `larder` reads it. Pure.

mod allergens;
pub mod demo_dish;
pub mod exchange;
pub mod following;
pub mod ingredient;
pub mod larder;
pub mod pan;
pub mod purchase;
pub mod quote;
pub mod recipe;
mod refusals;
