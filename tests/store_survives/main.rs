//! What can happen to stored entries on a phone, and what is lost: nothing, or at most the last tap.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::indexing_slicing,
    clippy::panic,
    clippy::string_slice,
    missing_docs
)]

mod aside;
mod bench;
mod bin;
mod browser;
mod builds;
mod caches;
mod full;
mod homes;
mod homes_cases;
mod hostile;
mod keeping;
mod known;
mod marks;
mod replay;
mod replayed_taps;
mod tabs;
mod tears;
