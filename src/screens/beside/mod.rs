//! A yield and what stands beside it: what a portion costs, what is published, the parts kept for another dish.

pub mod asked;
pub mod costing;
pub mod cut;
mod drawing;
mod kept;
