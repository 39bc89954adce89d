//! The plan on a phone: time runs down, a strip for each cook and each place, and every step named beside its start.

use leptos::prelude::*;

use super::words;
use crate::device::clock;
use crate::service::dish::Dish;
use crate::service::dish::step::Station;
use crate::service::timetable::{Lane, Timetable};

/// The picture's units. How wide a strip is, the hours beside them, the head with the names of the strips.
const STRIP: f64 = 17.0;
const HOURS: f64 = 42.0;
const HEAD: f64 = 66.0;
/// One named step: no two names stand closer.
const ROW: f64 = 19.0;
/// Units of a second, at most and at least: what is short is told apart, what is long stays on a page or two.
const PACE: (f64, f64) = (0.12, 0.6);
/// A letter of a name, on average.
const LETTER: f64 = 6.3;
/// As many letters of the name of a strip as its head has room for.
const SHORT: f64 = 8.0;
/// How high the picture is at the most, where the least pace allows it.
const HIGH: f64 = 520.0;

/// A step to be named: what it is called, where it starts and where its name stands.
struct Label {
    title: String,
    hour: String,
    at: f64,
    named_at: f64,
}

/// The picture of a whole plan, `wide` units wide.
#[allow(clippy::cast_precision_loss)]
pub fn draw(plan: &Timetable, dish: &Dish, names: &[String], wide: f64) -> AnyView {
    let first = plan.slots.iter().map(|slot| slot.start).min().unwrap_or(0);
    let last = plan.slots.iter().map(|slot| slot.end).max().unwrap_or(0);
    let all = (last.saturating_sub(first) as f64).max(60.0);
    let pace = (HIGH / all).clamp(PACE.0, PACE.1);
    let y = |secs: i64| HEAD + secs.saturating_sub(first) as f64 * pace;
    let shown = shown(plan);
    let cooks = shown.iter().filter(|lane| lane.station.is_none()).count();
    let names_at = HOURS + shown.len() as f64 * STRIP + 16.0;
    let labels = labels(plan, dish, &y, (wide - names_at) / LETTER);
    let foot = labels
        .last()
        .map_or(0.0, |label| label.named_at)
        .max(y(last))
        + ROW;
    let plates = plan.plates(dish).into_iter().map(|at| {
        let at = y(at);
        view! { <path class="plating" d=format!("M{HOURS} {at:.1}H{:.1}", names_at - 8.0)/> }
    });
    view! {
        <svg class="picture down" viewBox=format!("0 0 {wide:.0} {foot:.0}") data-says="plan">
            {shown.iter().enumerate().map(|(nth, lane)| strip(lane, HOURS + nth as f64 * STRIP, &name(lane, cooks, names), &y)).collect_view()}
            {plates.collect_view()}
            {labels.into_iter().map(|label| {
                let from = names_at - 16.0;
                let middle = label.named_at - 4.0;
                view! {
                    <path class="tick" d=format!("M{from:.1} {:.1}L{:.1} {middle:.1}", label.at, names_at - 3.0)/>
                    <text class="hour" x="0" y=label.named_at>{label.hour}</text>
                    <text class="named" x=names_at y=label.named_at>{label.title}</text>
                }
            }).collect_view()}
        </svg>
    }
    .into_any()
}

/// Every step by its start, each name below the one before.
fn labels(plan: &Timetable, dish: &Dish, y: &impl Fn(i64) -> f64, letters: f64) -> Vec<Label> {
    let mut slots: Vec<_> = plan.slots.iter().collect();
    slots.sort_by_key(|slot| (slot.start, slot.end));
    let mut below = HEAD;
    let mut hour_before = String::new();
    slots
        .into_iter()
        .filter_map(|slot| {
            let title = cut_to(&dish.step(&slot.task)?.title, letters);
            let at = y(slot.start);
            let named_at = (at + 4.0).max(below);
            below = named_at + ROW;
            let hour = clock::time_of_day(plan.at(slot.start));
            let is_new = hour != hour_before;
            hour_before.clone_from(&hour);
            Some(Label {
                title,
                hour: if is_new { hour } else { String::new() },
                at,
                named_at,
            })
        })
        .collect()
}

/// A name with as many letters as there is room for; the list below says it whole.
#[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
fn cut_to(title: &str, letters: f64) -> String {
    let room = letters.max(8.0) as usize;
    if title.chars().count() <= room {
        return title.to_owned();
    }
    let kept: String = title.chars().take(room.saturating_sub(1)).collect();
    format!("{}…", kept.trim_end())
}

fn strip(lane: &Lane, x: f64, name: &str, y: &impl Fn(i64) -> f64) -> AnyView {
    let bars = lane.turns.iter().map(|turn| {
        let (from, to) = (y(turn.from), y(turn.to));
        let high = (to - from).max(2.0);
        view! { <rect class="block" x=x + 2.0 y=from width=STRIP - 4.0 height=high rx="3"/> }
    });
    let middle = x + STRIP / 2.0 + 4.0;
    view! {
        <text class="lane" transform=format!("translate({middle:.1} {:.1}) rotate(-90)", HEAD - 6.0)>{cut_to(name, SHORT)}</text>
        {bars.collect_view()}
    }
    .into_any()
}

/// What a lane is called: a cook by name, or by number, where there are several, a place by its own where there are.
pub fn name(lane: &Lane, cooks: usize, names: &[String]) -> String {
    match (&lane.station, lane.number) {
        (None, _) if cooks < 2 => "Hands".to_owned(),
        (None, number) => cook(number, names),
        (Some(station), 1) => words::capital(station),
        (Some(station), number) => format!("{} {number}", words::capital(station)),
    }
}

/// What a cook is called.
pub fn cook(number: usize, names: &[String]) -> String {
    let named = number.checked_sub(1).and_then(|nth| names.get(nth));
    match named.map(|name| name.trim()) {
        Some(name) if !name.is_empty() => name.to_owned(),
        _ => format!("Cook {number}"),
    }
}

/// The lanes that are drawn: plating is a line across them.
pub fn shown(plan: &Timetable) -> Vec<&Lane> {
    let plate = Some(Station::Plate.name());
    let lanes = plan.lanes.iter();
    lanes
        .filter(|lane| lane.station.as_deref() != plate)
        .collect()
}
