//! Keeps records of any kind, so that nothing that can happen to a phone costs more than the last tap. It knows none
//! of them. Pure: the shelf is a trait.

pub mod cooking;
pub mod entry;
pub mod envelope;
mod gone;
pub mod homes;
pub mod keys;
mod known;
pub mod outcome;
mod reading;
pub mod records;
mod refusals;
pub mod shelf;
mod slot;
pub mod standing;
pub mod start;
pub mod tally;
pub mod texts;
mod waiting;
