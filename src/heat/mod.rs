//! How a fillet cooks: heat through its thickness, from the pan, through the turn, to the end of the rest. Pure.
//!
//! It advises. A probe at the thickest part and the local food-safety code decide.

pub mod advice;
pub mod air;
pub mod band;
pub mod base;
pub mod bench;
pub mod cook;
pub mod course;
pub mod food;
pub mod history;
pub mod pan;
pub mod probe;
pub mod safety;
pub mod slab;
pub mod tridiagonal;
