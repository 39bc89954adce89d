//! A whole dish: what its lines cost a cover, what it sells for, how it scales, and what to buy for it.

pub mod allergens;
pub mod chance;
pub mod invoice;
pub mod line;
pub mod order;
pub mod percentage;
#[expect(clippy::module_inception, reason = "a plate is a plate")]
pub mod plate;
pub mod price;
mod refusals;
pub mod scaled;
pub mod trims;
pub mod units;
