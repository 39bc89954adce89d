//! What a cook works out: mass, money, yield and cost. Pure: no browser, no clock.

pub mod breakdown;
mod figure;
pub mod mass;
pub mod money;
pub mod plausible;
pub mod pooled;
pub mod published;
pub mod reading;
pub mod rounding;
pub mod species;
pub mod yields;
