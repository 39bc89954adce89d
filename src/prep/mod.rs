//! Before the service: the steps of the filleting as data, and the clock of the time out of the fridge. Pure.

pub mod chill;
pub mod filleting;
mod refusals;
