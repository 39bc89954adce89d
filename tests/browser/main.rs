//! The release in dist/, in a real browser, as a cook would use it: run by `.ci/test`, after `.ci/build`.
//! Nothing is left out when a tool is missing: the test fails and says which.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::indexing_slicing,
    clippy::panic,
    clippy::string_slice,
    missing_docs
)]

mod bench;
mod chrome;
mod cook;
mod engine;
mod every_screen;
mod files;
mod hour;
mod judged;
mod photo_shelf;
mod site;
mod tabs;
mod touch;

mod abort;
mod backup;
mod beside;
mod chance;
mod class;
mod clock_set;
mod compare;
mod core_job;
mod cuts;
mod damaged;
mod demo;
mod dish;
mod dish_journal;
mod dish_service;
mod drawers;
mod due;
mod engines;
mod everyone;
mod faults;
mod filleted;
mod folders;
mod guest;
mod handing_over;
mod hands_free;
mod headers;
mod heard;
mod hostile;
mod hosts;
mod hour_of_timers;
mod how_long;
mod journal;
mod kept_promise;
mod keyboard;
mod killed;
mod killed_browser;
mod lesson;
mod looks;
mod mends;
mod moments;
mod mute;
mod named_fish;
mod numbers;
mod offline;
mod own_fish;
mod parts;
mod pictures;
mod plan;
#[path = "../qr_photos/mod.rs"]
mod qr_photos;
mod rescue;
mod says_who;
mod several;
mod shell;
mod still;
mod storage_faults;
mod stove;
mod tabs_apart;
mod three_tabs;
mod timers;
mod two_tabs;
mod update;
mod widths;
mod words;
