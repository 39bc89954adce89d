//! Pieces of screen used by several screens.

pub mod backup;
pub mod bench;
pub mod board_table;
pub mod choice;
pub mod cold;
pub mod desk;
pub mod entry_field;
pub mod intake;
pub mod kept;
pub mod keypad;
pub mod measure;
pub mod notice;
pub mod page;
pub mod parcel;
pub mod photos;
pub mod picture;
pub mod plot;
pub mod qr;
pub mod range;
pub mod result;
pub mod spreads;
pub mod student;
pub mod timer;
pub mod typed;
pub mod words;
