//! What is kept on this phone: room, bin, backup.

pub mod bin;
pub mod phone;
pub mod restore;
