//! The kitchen's own dishes.

pub mod card;
pub mod fish;
pub mod line;
pub mod list;
pub mod order;
pub mod plate;
pub mod price;
pub mod scale;
pub mod taken_in;
