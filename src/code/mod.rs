//! A result as a short code, and back: read aloud, typed, pasted or sent as a link. Pure.

pub mod alphabet;
pub mod bits;
mod galois;
pub mod mend;
