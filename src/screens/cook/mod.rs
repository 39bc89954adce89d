//! From the mise en place to the pass.

pub mod heat;
pub mod pass;
pub mod plan;
pub mod prepare;
pub mod probe;
pub mod service;
pub mod steps;
