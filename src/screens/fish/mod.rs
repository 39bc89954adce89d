//! One fish up to its yield: what the first visit needs.

pub mod delivery;
pub mod fillet;
pub mod weigh;
