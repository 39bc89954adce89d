//! How late a plate is. Said in one way wherever it is said.

use crate::base::instant::Instant;
use crate::base::stretch::stretch;

const MINUTE_MS: i64 = 60_000;

/// How late a plate comes after the hour that was asked for, as the two hours beside it show it: what is left of a
/// minute that is not over is not counted. Nothing where both show the same minute, or the plate is early.
#[must_use]
pub fn how_late(asked: Instant, plate: Instant) -> Option<String> {
    let late = minute(plate).saturating_sub(minute(asked));
    (late > 0).then(|| stretch(late.saturating_mul(60)))
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
            (MINUTE_MS, Some("1 min")),
            (4 * MINUTE_MS + 50_000, Some("4 min")),
        ] {
            let said = how_late(asked, asked.plus_ms(later_ms));
            assert_eq!(said.as_deref(), late, "{later_ms}");
        }
        // An hour that was asked for to the second, as an old record may have it.
        let asked = asked.plus_secs(40);
        assert_eq!(
            how_late(asked, asked.plus_secs(30)).as_deref(),
            Some("1 min")
        );
        assert!(how_late(Instant(i64::MIN), Instant(i64::MAX)).is_some());
    }
}
