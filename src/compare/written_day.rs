//! A day as people write it in a table, in the usual orders.

use time::{Date, Month};

use super::refusals::NoTest;
use crate::base::instant::Instant;

/// Which figure stands first in the days of a column that parts them by strokes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum DayOrder {
    /// The day, or the days don't contradict it and none says otherwise.
    DayFirst,
    /// The month.
    MonthFirst,
    /// Nothing in the column tells.
    Untold,
}

impl DayOrder {
    /// What the days of a column tell together: a figure over twelve is no month.
    pub(super) fn of<'a>(column: impl Iterator<Item = &'a str>) -> Self {
        let mut told = (false, false);
        for text in column {
            if let Some((first, second, _)) = by_strokes(text.trim()) {
                told.0 |= first > 12;
                told.1 |= second > 12;
            }
        }
        match told {
            (true, false) => Self::DayFirst,
            (false, true) => Self::MonthFirst,
            // A column of both orders says nothing of a day that fits either.
            _ => Self::Untold,
        }
    }
}

/// The day that a text names, at noon.
///
/// # Errors
/// The sentence for a text that names none, or that may name two.
pub(super) fn read(text: &str, order: DayOrder) -> Result<Instant, NoTest> {
    let text = text.trim();
    let none = || NoTest::NoDate(text.to_owned());
    if let Some((first, second, year)) = by_strokes(text) {
        let (day, month) = match order {
            _ if first > 12 => (first, second),
            _ if second > 12 => (second, first),
            _ if first == second => (first, second),
            DayOrder::DayFirst => (first, second),
            DayOrder::MonthFirst => (second, first),
            DayOrder::Untold => return Err(NoTest::EitherDay(text.to_owned())),
        };
        return noon(year, month, day).ok_or_else(none);
    }
    let marks = |c: char| matches!(c, '.' | '-' | '/' | ' ' | ',');
    let parts: Vec<&str> = text.split(marks).filter(|part| !part.is_empty()).collect();
    let [first, second, third] = parts[..] else {
        return Err(none());
    };
    let number = |text: &str| text.parse::<i32>().ok();
    let found = match (number(first), number(second), number(third)) {
        // 2026-03-09, 2026/3/9, 2026.03.09
        (Some(year), Some(month), Some(day)) if first.len() == 4 => noon(year, month, day),
        // 9.3.2026
        (Some(day), Some(month), Some(_)) => full_year(third).and_then(|y| noon(y, month, day)),
        // 9 March 2026
        (Some(day), None, Some(_)) => {
            full_year(third).and_then(|year| noon(year, named(second)?, day))
        }
        // March 9, 2026
        (None, Some(day), Some(_)) => {
            full_year(third).and_then(|year| noon(year, named(first)?, day))
        }
        _ => None,
    };
    found.ok_or_else(none)
}

/// Three figures parted by strokes, or by hyphens where no year stands first: day or month first, as the country has it.
fn by_strokes(text: &str) -> Option<(i32, i32, i32)> {
    let parts: Vec<&str> = match text.contains('/') {
        true => text.split('/').collect(),
        false => text.split('-').collect(),
    };
    let [first, second, year] = parts[..] else {
        return None;
    };
    if first.trim().len() > 2 {
        return None;
    }
    let number = |text: &str| text.trim().parse::<i32>().ok().filter(|figure| *figure > 0);
    Some((number(first)?, number(second)?, full_year(year.trim())?))
}

/// A year of four figures, or of two in this century.
fn full_year(text: &str) -> Option<i32> {
    let year: i32 = text.parse().ok()?;
    match text.len() {
        2 => year.checked_add(2000),
        4 => Some(year),
        _ => None,
    }
}

fn named(month: &str) -> Option<i32> {
    const NAMES: [&str; 12] = [
        "january",
        "february",
        "march",
        "april",
        "may",
        "june",
        "july",
        "august",
        "september",
        "october",
        "november",
        "december",
    ];
    let month = month.to_lowercase();
    let short = month.len() >= 3;
    let at = NAMES
        .iter()
        .position(|name| short && name.starts_with(&month));
    i32::try_from(at?.checked_add(1)?).ok()
}

fn noon(year: i32, month: i32, day: i32) -> Option<Instant> {
    let month = Month::try_from(u8::try_from(month).ok()?).ok()?;
    let date = Date::from_calendar_date(year, month, u8::try_from(day).ok()?).ok()?;
    let noon = date.with_hms(12, 0, 0).ok()?.assume_utc();
    let at = i64::try_from(noon.unix_timestamp_nanos().div_euclid(1_000_000)).ok()?;
    (year >= 1970).then_some(Instant(at))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Noon of 2026-03-09 in UTC, as `date -d 2026-03-09T12:00Z +%s` gives it.
    const NINTH_OF_MARCH: Instant = Instant(1_773_057_600_000);

    #[test]
    fn a_day_is_read_in_the_usual_orders() {
        for text in [
            "2026-03-09",
            "2026/3/9",
            "2026.03.09",
            "9.3.2026",
            "09.03.26",
            "9 March 2026",
            "9 Mar 2026",
            "March 9, 2026",
            "mar 9 2026",
        ] {
            assert_eq!(read(text, DayOrder::Untold), Ok(NINTH_OF_MARCH), "{text}");
        }
        assert_eq!(read("9/3/2026", DayOrder::DayFirst), Ok(NINTH_OF_MARCH));
        assert_eq!(read("03/09/2026", DayOrder::MonthFirst), Ok(NINTH_OF_MARCH));
        assert_eq!(
            read("9/3/2026", DayOrder::Untold),
            Err(NoTest::EitherDay("9/3/2026".to_owned()))
        );
        for text in [
            "",
            "soon",
            "31.2.2026",
            "9.3.",
            "0/0/2026",
            "2026-13-01",
            "9/3/99999",
        ] {
            assert!(read(text, DayOrder::DayFirst).is_err(), "{text}");
        }
    }

    #[test]
    fn a_column_tells_its_order() {
        let told = |days: &[&str]| DayOrder::of(days.iter().copied());
        assert_eq!(told(&["3/4/2026", "25/4/2026"]), DayOrder::DayFirst);
        assert_eq!(told(&["3/4/2026", "4/25/2026"]), DayOrder::MonthFirst);
        assert_eq!(told(&["3/4/2026", "2026-03-09", ""]), DayOrder::Untold);
        assert_eq!(told(&["25/4/2026", "4/25/2026"]), DayOrder::Untold);
    }
}
