//! When each thing happens: the steps of the filleting and of the dish, and a service being cooked. Pure.

pub mod dish;
pub mod filleting;
pub mod kit;
pub mod plan;
pub mod run;
pub mod step;
