//! What a cook works out: mass, money, yield and cost. Pure: no browser, no clock.

pub mod breakdown;
mod currency;
pub(crate) mod figure;
pub mod mass;
pub mod moments;
pub mod money;
pub mod odd_price;
pub mod outlook;
pub mod plate;
pub mod plausible;
pub mod pooled;
pub mod published;
pub mod reading;
mod refusals;
pub mod rounding;
mod scale;
pub mod species;
pub mod trend;
pub mod yield_sheet;
pub mod yields;
