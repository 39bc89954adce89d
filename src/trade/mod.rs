//! What a cook works out: mass, money, yield and cost. Pure: no browser, no clock.

pub mod breakdown;
pub mod mass;
pub mod money;
pub mod published;
pub mod yields;
