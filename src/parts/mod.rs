//! Pieces of screen used by several screens.

pub mod bench;
pub mod board_table;
pub mod choice;
pub mod cold;
pub mod curve;
pub mod estimated;
pub mod intake;
pub mod kept;
pub mod keypad;
pub mod lanes;
pub mod measure;
pub mod page;
pub mod parcel;
pub mod picture;
pub mod planned;
pub mod plot;
pub mod qr;
pub mod range;
pub mod result;
pub mod spreads;
pub mod student;
pub mod timer;
pub mod typed;
pub mod words;
