//! When each thing happens: the steps of the filleting and of the dish, and a service being cooked. Pure.

pub mod chill;
pub mod dish;
pub mod edit;
pub mod face;
pub mod filleting;
pub mod kit;
pub mod laid_out;
pub mod plan;
pub mod run;
pub mod step;
pub mod step_run;
pub mod stretch;
pub mod timetable;
