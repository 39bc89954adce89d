//! A moment, as stored: so that a locked phone, a reload or another time zone changes nothing.

use serde::{Deserialize, Serialize};

/// Milliseconds since 1970-01-01T00:00:00Z.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(transparent)]
pub struct Instant(pub i64);

impl Instant {
    /// The moment `seconds` later (earlier when negative); saturates at the ends of the range.
    #[must_use]
    pub fn plus_secs(self, seconds: i64) -> Self {
        self.plus_ms(seconds.saturating_mul(1000))
    }

    /// The moment `ms` milliseconds later (earlier when negative); saturates at the ends of the range.
    #[must_use]
    pub fn plus_ms(self, ms: i64) -> Self {
        Self(self.0.saturating_add(ms))
    }

    /// Milliseconds from `earlier` to this moment, negative when this one is the earlier.
    #[must_use]
    pub fn ms_since(self, earlier: Self) -> i64 {
        self.0.saturating_sub(earlier.0)
    }
}

#[cfg(test)]
mod tests {
    use super::Instant;

    #[test]
    fn the_ends_of_the_range_saturate() {
        assert_eq!(Instant(i64::MAX).plus_secs(1), Instant(i64::MAX));
        assert_eq!(Instant(0).ms_since(Instant(i64::MIN)), i64::MAX);
        assert_eq!(Instant(5_000).ms_since(Instant(0).plus_secs(3)), 2_000);
    }
}
