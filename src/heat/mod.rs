//! How a fillet cooks: heat through its thickness, from the pan, through the turn, to the end of the rest. Pure.
//!
//! # What is not modelled
//! - **The dried skin as a layer that holds heat back.** A wet face stays at the boiling point; a crust that has dried
//!   goes beyond it, and leads heat less well. What the middle gets passes the wet flesh above the crust, which is at
//!   the boiling point either way, so the middle knows little of a thin crust while the pan has heat to spare. When the
//!   skin has dried is told (`skin.rs`); how crisp it is, is left to the eye.
//! - **Heat from the sides**, which hastens the edge of a small or narrow fillet: the coldest part, in the middle of the
//!   thickest, sees little of it.
//! - **Fat that runs out, juice that is squeezed out, a fillet that curls:** all of them
//!   change the contact, and are left to its band and to the probe.
//!
//! It advises. A probe at the thickest part and the local food-safety code decide.

pub mod advice;
pub mod air;
pub mod band;
pub mod base;
pub mod cook;
pub mod course;
pub mod dryness;
pub mod food;
pub mod history;
pub mod pan;
pub mod probe;
pub mod reasons;
mod refusals;
pub use refusals::NoSetup;
pub mod safety;
pub mod skin;
pub mod slab;
pub mod stove;
pub mod tridiagonal;
