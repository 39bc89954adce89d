//! The backup as a file: read by other programs, read again whole, and refused with a sentence when it is hostile.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::indexing_slicing,
    clippy::panic,
    clippy::string_slice,
    missing_docs
)]

mod hostile;
mod merging;
mod others;
mod sample;
