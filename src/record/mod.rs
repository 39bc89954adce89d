//! What is kept, and how a tap changes it. Pure: the store writes through a trait.

pub mod action;
pub mod carried;
pub mod class_list;
pub mod demo;
pub mod entry;
pub mod envelope;
pub mod estimate;
pub mod fish;
pub mod heat_card;
pub mod keys;
pub mod outcome;
pub mod pan;
pub mod progress;
pub mod serving;
pub mod settings;
pub mod shelf;
pub mod slip;
mod slot;
pub mod standing;
pub mod store;
mod waiting;
pub mod weighing;
