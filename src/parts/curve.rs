//! How hot the fillet gets, and when: a small picture with its words.

use std::fmt::Write;

use leptos::prelude::*;

use super::words;
use crate::device::width;
use crate::heat::advice::Advice;
use crate::heat::course::CookStage;
use crate::heat::history::Moment;
use crate::heat::safety::Rule;

/// The picture's units.
const LEAST_WIDTH: f64 = 200.0;
const LEFT: f64 = 34.0;
const TOP: f64 = 16.0;
const FOOT: f64 = 150.0;
/// The hottest that is drawn, °C: a wet face boils below it.
const HOTTEST: f64 = 110.0;

fn y(celsius: f64) -> f64 {
    FOOT - (FOOT - TOP) * (celsius / HOTTEST).clamp(0.0, 1.0)
}

/// The course of skin side, middle and flesh side, and how much of the skin has dried, with the turn, the lift, the wanted core and the rule's line.
pub fn picture(advice: &Advice, rule: Rule, wanted: &str) -> AnyView {
    let course = &advice.course;
    let wide = width::for_picture(LEAST_WIDTH);
    let right = wide - 8.0;
    let last = course.last().map_or(1.0, |m| f64::from(m.secs.max(1)));
    let x = |secs: u32| LEFT + (right - LEFT) * f64::from(secs) / last;
    let line = |of: fn(&Moment) -> f64| {
        let mut path = String::new();
        let mut drawn = f64::NEG_INFINITY;
        for moment in course {
            let at = x(moment.secs);
            if at - drawn < 1.5 {
                continue;
            }
            let start = if path.is_empty() { 'M' } else { 'L' };
            // A text can always be written to.
            let _ = write!(path, "{start}{at:.1} {:.1}", y(of(moment)));
            drawn = at;
        }
        path
    };
    let begins = |stage: CookStage| course.iter().find(|m| m.stage == stage);
    let (turn, lift) = (begins(CookStage::Finish), begins(CookStage::Rest));
    let marks = [(turn, "turn"), (lift, "lift")];
    let core: Option<f64> = wanted.trim().replace(',', ".").parse().ok();
    let safe = rule.lines().first().map(|(celsius, _)| *celsius);
    view! {
        <figure class="stack">
            <svg class="picture curve" viewBox=format!("0 0 {wide:.0} 176") aria-hidden="true">
                {[0.0, 25.0, 50.0, 75.0, 100.0].into_iter().map(|celsius| view! {
                    <path class="tick" d=format!("M{LEFT} {:.1}H{right:.1}", y(celsius))/>
                    <text x=LEFT - 6.0 y=y(celsius) + 4.0 text-anchor="end">{celsius}</text>
                }).collect_view()}
                {safe.map(|safe| view! {
                    <path class="safe" d=format!("M{LEFT} {:.1}H{right:.1}", y(safe))/>
                    <text class="safe" x=LEFT + 4.0 y=y(safe) - 4.0>{format!("rule {safe:.0} °C")}</text>
                })}
                {core.filter(|core| safe.is_none_or(|safe| (core - safe).abs() > 0.5)).map(|core| view! {
                    <path class="wanted" d=format!("M{LEFT} {:.1}H{right:.1}", y(core))/>
                    <text x=right y=y(core) + 12.0 text-anchor="end">{format!("wanted {core:.0} °C")}</text>
                })}
                {marks.into_iter().filter_map(|(moment, name)| Some((x(moment?.secs), name))).map(|(x, name)| view! {
                    <path class="mark" d=format!("M{x:.1} {TOP}V{FOOT}")/>
                    <text x=x y="11" text-anchor="middle">{name}</text>
                }).collect_view()}
                <path class="dried" d=line(|m| 100.0 * m.skin_dried)/>
                <path class="skin" d=line(|m| m.skin_c)/>
                <path class="flesh" d=line(|m| m.flesh_c)/>
                <path class="core" d=line(|m| m.middle_c)/>
                <text x=LEFT y=FOOT + 16.0>"0:00"</text>
                <text x=right y=FOOT + 16.0 text-anchor="end">{
                    #[allow(clippy::cast_possible_truncation)]
                    let end = last as i64;
                    words::face(end * 1000)
                }</text>
            </svg>
            <p class="keyline small"><span class="skin">"skin side"</span><span class="core">"middle"</span><span class="flesh">"flesh side"</span><span class="dried">"skin dried, in %"</span></p>
            <figcaption class="soft small">{caption(advice, turn, lift)}</figcaption>
        </figure>
    }
    .into_any()
}

fn caption(advice: &Advice, turn: Option<&Moment>, lift: Option<&Moment>) -> String {
    let at = |moment: Option<&Moment>, what: &str| {
        moment.map_or_else(String::new, |m| {
            format!(
                "At the {what} the skin side is at {:.0} °C, the middle at {:.0} °C. ",
                m.skin_c, m.middle_c
            )
        })
    };
    format!(
        "{}{}The coldest part peaks at {:.0} °C, {} after the fish went in.",
        at(turn, "turn"),
        at(lift, "lift"),
        advice.core_peak_c.best,
        words::face(i64::from(advice.peak_at) * 1000)
    )
}
