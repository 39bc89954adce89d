//! What is kept, and how a tap changes it. Pure: the store writes through a trait.

pub mod action;
pub mod bought;
pub mod carried;
pub mod class_list;
pub mod demo;
pub mod demo_dish;
pub mod entry;
pub mod envelope;
pub mod fish;
pub mod ingredient;
pub mod keys;
pub mod larder;
pub mod outcome;
pub mod progress;
pub mod purchase;
pub mod quote;
pub mod recipe;
pub mod recipe_ld;
pub mod settings;
pub mod shelf;
pub mod slip;
mod slot;
pub mod standing;
pub mod store;
mod waiting;
pub mod weighing;
