//! The day of a result: a date at the bench, without hours or a time zone.

use crate::base::instant::Instant;
use std::fmt;

const MS_PER_DAY: i64 = 86_400_000;
/// 2020-01-01 in days since 1970-01-01.
const EPOCH: i64 = 18_262;

/// Days since 2020-01-01, up to 2064-11-08 (14 bits).
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Day(u16);

impl Day {
    /// The last day a code can carry.
    pub const LAST: Self = Self(16_383);

    /// `days` after 2020-01-01; `None` past [`Day::LAST`].
    #[must_use]
    pub fn new(days: u16) -> Option<Self> {
        (days <= Self::LAST.0).then_some(Self(days))
    }

    /// The date at `now` where the clock is `offset_minutes` ahead of UTC; `None` outside 2020 to 2064.
    #[must_use]
    pub fn at(now: Instant, offset_minutes: i32) -> Option<Self> {
        let local = now.plus_secs(i64::from(offset_minutes) * 60);
        let days = local.0.div_euclid(MS_PER_DAY) - EPOCH;
        Self::new(u16::try_from(days).ok()?)
    }

    /// Days since 2020-01-01.
    #[must_use]
    pub fn number(self) -> u16 {
        self.0
    }

    /// Year, month and day of the month. Every fourth year from 2020 to 2064 is a leap year, so no
    /// century rule is needed.
    #[must_use]
    pub fn civil(self) -> (u16, u16, u16) {
        let mut left = self.0;
        let mut year = 2020;
        loop {
            let months = [
                31,
                28 + u16::from(year % 4 == 0),
                31,
                30,
                31,
                30,
                31,
                31,
                30,
                31,
                30,
                31,
            ];
            for (month, length) in (1..).zip(months) {
                if left < length {
                    return (year, month, left + 1);
                }
                left -= length;
            }
            year += 1;
        }
    }
}

/// Written as ISO 8601 asks: `2026-03-09`.
impl fmt::Display for Day {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let (year, month, day) = self.civil();
        write!(f, "{year:04}-{month:02}-{day:02}")
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_date_is_that_of_the_bench() {
        let midnight = Instant(1_773_014_400_000); // 2026-03-09T00:00:00Z
        for (now, offset, date) in [
            (midnight, 0, Some("2026-03-09")),
            (midnight.plus_ms(-1), 0, Some("2026-03-08")),
            (midnight.plus_ms(-1), 60, Some("2026-03-09")),
            (midnight, -300, Some("2026-03-08")),
            (Instant(1_577_836_800_000), 0, Some("2020-01-01")),
            (Instant(1_577_836_800_000), -1, None),
            (Instant(2_993_414_399_999), 0, Some("2064-11-08")),
            (Instant(2_993_414_400_000), 0, None),
            (Instant(i64::MAX), 0, None),
            (Instant(i64::MIN), 0, None),
        ] {
            let day = Day::at(now, offset).map(|day| day.to_string());
            assert_eq!(day.as_deref(), date, "{now:?} {offset}");
        }
    }
}
