//! What is in memory while the page is open: the records of each kind, the preferences, what the cook is told, the
//! screen that is shown.

pub mod asked;
pub mod bench;
pub mod clock_watch;
pub mod desk;
pub mod drawer;
pub mod drawers;
pub mod gathered;
pub mod hand;
pub mod ledger;
pub mod notice;
mod reading;
mod refusals;
mod register;
pub mod removal;
mod settled;
