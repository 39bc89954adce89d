//! A whole dish: what its lines cost a cover, what it sells for, how it scales, and what to buy for it.

pub mod line;
pub mod units;
