//! A cook's own tests side by side: what many fish tell that one can't. Pure.
//!
//! Tests of different species or delivery forms are never taken together: a gutted fish starts lighter,
//! so its yield is of something else.

pub mod group;
pub mod market;
mod refusals;
mod row;
pub mod table;
pub mod taken;
pub mod test;
mod written_day;
mod written_price;
