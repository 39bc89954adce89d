//! The clock: the only place where the present moment is read.

use crate::base::instant::Instant;

const MONTHS: [&str; 12] = [
    "Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec",
];

/// The present moment.
#[must_use]
#[allow(clippy::disallowed_methods, clippy::cast_possible_truncation)]
pub fn now() -> Instant {
    Instant(js_sys::Date::now() as i64)
}

#[allow(clippy::cast_precision_loss)]
fn local(at: Instant) -> js_sys::Date {
    js_sys::Date::new(&wasm_bindgen::JsValue::from_f64(at.0 as f64))
}

/// The time of day in this phone's time zone, such as `19:42`.
#[must_use]
pub fn time_of_day(at: Instant) -> String {
    let date = local(at);
    format!("{:02}:{:02}", date.get_hours(), date.get_minutes())
}

/// The time of day to the second, such as `19:42:05`.
#[must_use]
pub fn time_to_the_second(at: Instant) -> String {
    format!("{}:{:02}", time_of_day(at), local(at).get_seconds())
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
    let date = local(now);
    date.set_hours(hours);
    date.set_minutes(minutes);
    date.set_seconds(0);
    date.set_milliseconds(0);
    if date.get_time() as i64 <= now.0 {
        date.set_date(date.get_date() + 1);
    }
    Some(Instant(date.get_time() as i64))
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
