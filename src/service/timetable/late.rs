//! How late a plate is. Said in one way wherever it is said.

use crate::base::instant::Instant;

const MINUTE_MS: i64 = 60_000;

/// By how many minutes a plate comes after the hour that was asked for, as the two hours beside it show it: what is
/// left of a minute that is not over is not counted. Nothing where both show the same minute, or the plate is early.
#[must_use]
pub fn minutes_late(asked: Instant, plate: Instant) -> Option<i64> {
    let late = minute(plate).saturating_sub(minute(asked));
    (late > 0).then_some(late)
}

fn minute(at: Instant) -> i64 {
    at.0.div_euclid(MINUTE_MS)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn it_is_what_the_two_hours_differ_by() {
        let asked = Instant(1_000 * MINUTE_MS);
        for (later_ms, late) in [
            (-MINUTE_MS, None),
            (0, None),
            (59_999, None),
            (MINUTE_MS, Some(1)),
            (4 * MINUTE_MS + 50_000, Some(4)),
        ] {
            assert_eq!(
                minutes_late(asked, asked.plus_ms(later_ms)),
                late,
                "{later_ms}"
            );
        }
        // An hour that was asked for to the second, as an old record may have it.
        let asked = asked.plus_secs(40);
        assert_eq!(minutes_late(asked, asked.plus_secs(30)), Some(1));
        assert_eq!(
            minutes_late(Instant(i64::MIN), Instant(i64::MAX)),
            Some(i64::MAX / MINUTE_MS * 2 + 1)
        );
    }
}
