//! The tutor's classes.

pub mod board;
pub mod list;
