//! What is kept, and how a tap changes it. Pure: the store writes through a trait.

pub mod action;
pub mod envelope;
pub mod fish;
pub mod settings;
pub mod shelf;
pub mod store;
