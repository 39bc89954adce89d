//! A result on its way to somebody, and one that came.

pub mod card;
pub mod received;
pub mod result_code;
