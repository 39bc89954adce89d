//! The browser, one thin file a facility.

pub mod storage;
pub mod tabs;
