//! A card from what is typed to what is costed: each field's sentence, parts made ahead, fish, and the way
//! between kitchens.
#![cfg(not(target_arch = "wasm32"))]
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::indexing_slicing,
    clippy::panic,
    missing_docs
)]

mod chance;
mod exchange;
mod fields;
mod phone;
mod sources;
