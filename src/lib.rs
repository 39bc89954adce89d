//! Scaleside: one whole fish, from the scale to the plate.
//!
//! Arrows go one way: `screens → parts → compare → record → class, code, heat, service, trade`, and `screens → device`.
//! What a cook works out knows nothing of browsers, clocks or signals.

pub mod class;
pub mod code;
pub mod compare;
pub mod heat;
pub mod instant;
pub mod place;
pub mod record;
pub mod refusal;
pub mod service;
pub mod trade;

#[cfg(target_arch = "wasm32")]
pub mod device;
#[cfg(target_arch = "wasm32")]
pub mod parts;
#[cfg(target_arch = "wasm32")]
pub mod screens;
