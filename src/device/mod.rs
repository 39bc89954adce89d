//! The browser, one thin file a facility. Nothing here decides anything about fish.

pub mod address;
pub mod bell;
pub mod build;
pub mod camera;
pub mod clock;
mod database;
pub mod download;
pub mod focus;
pub mod ledger;
mod named;
pub mod paste;
pub mod photo;
pub mod photos;
mod refusals;
pub mod room;
pub mod send;
pub mod storage;
pub mod tabs;
pub mod text_file;
pub mod turns;
pub mod update;
pub mod voice;
pub mod wake;
pub mod width;
pub mod worker;
pub mod written;
