//! When each thing happens: a dish as data, a service being cooked, the exact plan, the timetable that joins them, and the
//! menu of what can be served.
//! Pure.

pub mod dish;
pub mod menu;
pub mod plan;
pub mod run;
pub mod timetable;
