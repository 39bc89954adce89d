//! Pieces of screen used by several screens.

pub mod bench;
pub mod choice;
pub mod cold;
pub mod keypad;
pub mod page;
pub mod picture;
pub mod range;
pub mod timer;
pub mod words;
