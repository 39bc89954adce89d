//! What every other room leans on: moments, checksums, lengths of time in words, identities, texts, refusals, the kit of a bench,
//! how fillets were made. Pure.

pub mod crc;
pub mod filleted;
pub mod folded;
pub mod id;
pub mod instant;
pub mod kit;
pub mod part;
pub mod refusal;
pub(crate) mod refusals;
pub mod steady;
pub mod stretch;
pub mod text;
