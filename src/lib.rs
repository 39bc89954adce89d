//! Scaleside: one whole fish, from the scale to the plate.
//!
//! A room is a folder, and arrows between rooms go one way: the table in DEVELOPERS.md names each arrow, and
//! `tests/house.rs` reads them from the code. What a cook works out knows nothing of browsers, clocks or signals.

pub mod base;
pub mod cards;
pub mod class;
pub mod code;
pub mod compare;
pub mod fish;
pub mod heat;
pub mod journal;
pub mod keep;
pub mod place;
pub mod prep;
pub mod says;
pub mod service;
pub mod store;
pub mod trade;
pub mod work;

#[cfg(target_arch = "wasm32")]
pub mod device;
#[cfg(target_arch = "wasm32")]
pub mod errand;
#[cfg(all(target_arch = "wasm32", feature = "page"))]
pub mod parts;
#[cfg(all(target_arch = "wasm32", feature = "page"))]
pub mod screens;
#[cfg(all(target_arch = "wasm32", feature = "page"))]
pub mod session;
