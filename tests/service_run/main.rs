//! A service being cooked, tap by tap: what each tap changes, what it refuses, what survives a reload.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::indexing_slicing,
    clippy::panic,
    missing_docs
)]

mod script;
mod taps;
mod time;
