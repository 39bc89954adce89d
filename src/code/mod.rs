//! A result as a short code, and back: read aloud, typed, pasted or sent as a link. Pure.
//!
//! The code carries the readings, not the answers: whoever opens it works everything out again.

pub mod alphabet;
mod answers;
pub mod bits;
pub mod day;
pub mod find;
pub mod fish;
mod galois;
pub mod grain;
mod heads;
pub mod layout;
pub mod letters;
pub mod link;
pub mod mend;
mod near;
pub mod one_off;
pub mod opening;
mod others;
pub mod picture;
pub mod pieces;
pub mod price;
pub mod reading;
mod refusals;
mod running;
pub mod sheet;
mod spelling;
pub mod unopened;
mod version;
mod views;
