//! A cook's own fish side by side.

pub mod cheapest;
pub mod tests;
