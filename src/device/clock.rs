//! The clock: the only place where the present moment is read.
//!
//! The moment goes by a counter that nobody can set: whoever sets the phone's clock moves no timer by it. What the
//! counter misses while the phone sleeps is made up for by whoever watches both, see [`crate::base::steady`].

use std::cell::Cell;

use leptos::prelude::document;

use super::storage::{self, LocalShelf};
use crate::base::instant::Instant;
use crate::store::shelf::Shelf;

/// Where the time that is counted is kept for the next page: what it is ahead of the clock, and when. It belongs to this
/// browser alone and to no record, so its name is none of those that are told to the second home.
const KEPT: &str = "scaleside clock";

/// Moments this near to the present, in milliseconds, are shown by the clock as it is set now.
const NEAR_MS: i64 = 36 * 3_600_000;

thread_local! {
    /// The moment at which the counter stood at nought.
    static NOUGHT: Cell<Option<i64>> = const { Cell::new(None) };
}

const MONTHS: [&str; 12] = [
    "Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec",
];

/// The present moment; it only goes forward.
#[must_use]
pub fn now() -> Instant {
    let nought = NOUGHT.get().unwrap_or_else(begin);
    Instant(nought.saturating_add(counter()))
}

/// The last page kept what it was ahead of the clock, and its last moment: no page begins before that one.
fn begin() -> i64 {
    let kept = kept().unwrap_or_default();
    // What is no number counts as nought.
    #[allow(clippy::cast_possible_truncation)]
    let number = |text| js_sys::parse_int(text, 10) as i64;
    let (ahead, last) = kept.split_once(' ').unwrap_or_default();
    set_ahead(number(ahead).max(number(last).saturating_sub(wall())))
}

/// From now on the present moment is so many milliseconds ahead of the phone's clock.
pub fn set_ahead(ms: i64) -> i64 {
    let nought = wall().saturating_sub(counter()).saturating_add(ms);
    NOUGHT.set(Some(nought));
    nought
}

/// The present moment by the phone's clock, as it is set: what a record is dated by, and no time is counted from.
#[must_use]
pub fn dated() -> Instant {
    Instant(wall())
}

/// The phone's clock, as it is set.
#[must_use]
#[allow(clippy::disallowed_methods, clippy::cast_possible_truncation)]
pub fn wall() -> i64 {
    js_sys::Date::now() as i64
}

/// Milliseconds that this page has been awake for, and nobody can set; the clock itself where a browser has no counter.
#[must_use]
#[allow(clippy::cast_possible_truncation)]
pub fn counter() -> i64 {
    // A worker has no window: it only measures its turns.
    let counter = web_sys::window().and_then(|window| window.performance());
    counter.map_or_else(wall, |counter| counter.now() as i64)
}

/// Whether this page can be seen.
#[must_use]
pub fn in_sight() -> bool {
    !document().hidden()
}

/// What the last page kept of the time that is counted.
#[must_use]
pub fn kept() -> Option<String> {
    LocalShelf.get(KEPT).ok().flatten()
}

/// Keeps the time that is counted for the next page. Where it is not taken, that one goes by the clock.
pub fn keep(text: &str) {
    storage::keep_here(KEPT, text);
}

#[allow(clippy::cast_precision_loss)]
fn local(at: Instant) -> js_sys::Date {
    js_sys::Date::new(&wasm_bindgen::JsValue::from_f64(at.0 as f64))
}

/// A moment as the phone's clock shows it. One that was counted is shown by the clock as it is set now; one of another
/// day, by the clock as it was then.
fn by_the_clock(at: Instant) -> Instant {
    let now = now();
    let ahead = now.0.saturating_sub(wall());
    // Both are read one after the other.
    let is_set = ahead.abs() > 1 && at.ms_since(now).abs() < NEAR_MS;
    if is_set { at.plus_ms(-ahead) } else { at }
}

/// The time of day in this phone's time zone, such as `19:42`.
#[must_use]
pub fn time_of_day(at: Instant) -> String {
    let date = local(by_the_clock(at));
    format!("{:02}:{:02}", date.get_hours(), date.get_minutes())
}

/// The time of day to the second, such as `19:42:05`.
#[must_use]
pub fn time_to_the_second(at: Instant) -> String {
    let seconds = local(by_the_clock(at)).get_seconds();
    format!("{}:{seconds:02}", time_of_day(at))
}

/// The day and the time of it, such as `25 Nov 2026 at 19:42`.
#[must_use]
pub fn moment(at: Instant) -> String {
    format!("{} at {}", day(at), time_of_day(at))
}

/// The day in this phone's time zone, such as `25 Nov 2026`.
#[must_use]
pub fn day(at: Instant) -> String {
    let date = local(at);
    let month = usize::try_from(date.get_month())
        .ok()
        .and_then(|month| MONTHS.get(month))
        .copied()
        .unwrap_or_default();
    format!("{} {month} {}", date.get_date(), date.get_full_year())
}

/// The next moment after `now` at which this phone's clock shows a time of day such as `19:30`.
#[must_use]
#[allow(clippy::cast_possible_truncation)]
pub fn next_at(text: &str, now: Instant) -> Option<Instant> {
    let (hours, minutes) = text.split_once(':')?;
    let (hours, minutes): (u32, u32) = (hours.parse().ok()?, minutes.get(..2)?.parse().ok()?);
    if hours > 23 || minutes > 59 {
        return None;
    }
    let now_shown = by_the_clock(now);
    let date = local(now_shown);
    date.set_hours(hours);
    date.set_minutes(minutes);
    date.set_seconds(0);
    date.set_milliseconds(0);
    let clock = local(now_shown).get_time();
    if date.get_time() <= clock {
        date.set_date(date.get_date() + 1);
    }
    Some(now.plus_ms((date.get_time() - clock) as i64))
}

/// How far this phone's clock was ahead of UTC at a moment, in minutes.
#[must_use]
#[allow(clippy::cast_possible_truncation)]
pub fn offset_minutes(at: Instant) -> i32 {
    -(local(at).get_timezone_offset() as i32)
}

/// A few figures that differ from one call to the next, for identities.
#[must_use]
#[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
pub fn chance() -> u32 {
    (js_sys::Math::random() * f64::from(u32::MAX)) as u32
}
