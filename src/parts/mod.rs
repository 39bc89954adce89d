//! Pieces of screen used by several screens.

pub mod bench;
pub mod board_table;
pub mod choice;
pub mod cold;
pub mod compared;
pub mod desk;
pub mod entry_field;
pub mod intake;
pub mod kept;
pub mod keypad;
pub mod market_list;
pub mod measure;
pub mod page;
pub mod parcel;
pub mod picture;
pub mod plot;
pub mod qr;
pub mod range;
pub mod result;
pub mod spreads;
pub mod student;
pub mod tests_file;
pub mod timer;
pub mod typed;
pub mod words;
