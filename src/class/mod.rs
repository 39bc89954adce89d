//! Many results side by side: what a class tells, and what a tutor says back. Pure.
//!
//! A class is only codes: everything is worked out again from the readings in them.

pub mod answer;
pub mod board;
pub mod cell;
pub mod class_list;
pub mod differs;
pub mod dots;
pub mod feedback;
pub mod filleted;
pub mod flags;
pub mod group;
pub mod intake;
pub mod lesson;
pub mod limits;
pub mod measured;
pub mod over_time;
mod refusals;
pub mod result;
pub mod roll;
pub mod settled;
pub mod sheet_csv;
pub mod slips;
pub mod spread;
pub mod standing;
pub mod wall;
pub mod why;
