//! One fish from the delivery slip to the plate, the taps that change it, and the settings that it begins with. Pure.

pub mod action;
pub mod alongside;
pub mod bought;
pub mod carried;
pub mod credit;
pub mod demo;
pub mod estimate;
pub mod filleted;
pub mod heat_card;
pub mod in_the_pan;
mod judged;
pub mod pan_reading;
mod plan_taps;
pub mod progress;
pub mod read_out;
pub mod record;
mod refusals;
pub mod serving;
pub mod settings;
pub mod slip;
pub mod told;
pub mod weighing;
