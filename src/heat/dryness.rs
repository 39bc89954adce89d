//! How much of the flesh gets dry, and for how long.

use serde::{Deserialize, Serialize};

/// From here flesh is dry: inside the 58 to 68 °C in which cod's actin comes apart (Skipnes et
/// al. 2008, *J. Food Eng.* 85:51-58).
pub const DRY_C: f64 = 65.0;
/// Shares that lie no further apart count as one: nobody tastes it (our choice).
const ALIKE: f64 = 0.01;

/// What of the thickness passes [`DRY_C`].
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Dryness {
    /// Share of the thickness that gets there, 0 to 1.
    pub share: f64,
    /// How long the flesh is there, in the mean over all the thickness, s.
    pub mean_secs: f64,
}

impl Dryness {
    /// Of peaks, °C, and seconds beyond, at depths that are evenly spaced, both faces included.
    #[must_use]
    pub fn of(depths: impl Iterator<Item = (f64, u32)> + Clone) -> Self {
        let pairs = depths.clone().zip(depths.skip(1));
        let (mut count, mut share, mut secs) = (0.0, 0.0, 0.0);
        for ((low, low_secs), (high, high_secs)) in pairs {
            let (cool, hot) = (low.min(high), low.max(high));
            share += if cool >= DRY_C {
                1.0
            } else if hot < DRY_C {
                0.0
            } else {
                (hot - DRY_C) / (hot - cool)
            };
            secs += f64::midpoint(f64::from(low_secs), f64::from(high_secs));
            count += 1.0;
        }
        Self {
            share: share / f64::max(count, 1.0),
            mean_secs: secs / f64::max(count, 1.0),
        }
    }

    /// Less dry: in a smaller share of the thickness or, where that is all one, for a shorter time.
    #[must_use]
    pub fn is_less_than(&self, other: &Self) -> bool {
        if (self.share - other.share).abs() > ALIKE {
            self.share < other.share
        } else {
            self.mean_secs < other.mean_secs
        }
    }
}
