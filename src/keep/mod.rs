//! What treats every kind of record alike: the bin, and the backup. Pure.

pub mod backup;
pub mod bin;
pub mod home_screen;
pub mod kind;
mod refusals;
pub mod reminder;
