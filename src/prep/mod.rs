//! Before the service: the steps of the filleting, and the clock of the time out of the fridge. Pure.

pub mod asked;
pub mod chill;
pub mod cuts;
pub mod filleting;
pub mod flat;
mod refusals;
