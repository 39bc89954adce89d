//! The picture of a plan: lanes for the hands, the pan, the oven and the board, which slide under a fixed line: now.

use leptos::prelude::*;

use super::fresh::fresh;
use super::planned::{self, ShownPlan};
use super::timeline;
use crate::base::instant::Instant;
use crate::device::{clock, width};
use crate::fish::record::Fish;
use crate::service::dish::Dish;
use crate::service::plan::LaneTurn;
use crate::service::timetable::{LONGEST_SHOWN, Lane, Timetable};

/// The picture's units: its least width, where the line of now stands while cooking, and one lane.
const LEAST_WIDTH: f64 = 200.0;
const NOW: f64 = 72.0;
const LANE: f64 = 42.0;
/// Where a bar begins below the name of its lane, and how high it is.
const NAME: f64 = 14.0;
const BAR: f64 = 26.0;
/// Seconds that are in sight ahead of now while cooking, however wide the picture is.
const AHEAD: f64 = 600.0;

/// How the picture is drawn.
#[derive(Clone, Copy, PartialEq, Eq)]
pub enum LanesView {
    /// The whole plan, from the first start to plating.
    Whole,
    /// As it runs: it slides under the line of now.
    Running,
}

/// The picture. The list beside it says the same for those who can't see it.
pub fn picture(
    fish: RwSignal<Fish>,
    planned: ShownPlan,
    now: RwSignal<Instant>,
    view: LanesView,
) -> AnyView {
    let names = planned::names_of_cooks(fish);
    fresh(move || {
        let drawn = planned.with(|planned| {
            let plan = planned::plan_of(planned)?;
            let dish = fish.with_untracked(|fish| fish.laid_out().ok())?;
            let names = names.get();
            Some(match view {
                LanesView::Whole if !width::is_wide() => {
                    timeline::draw(plan, &dish, &names, width::for_picture(LEAST_WIDTH))
                }
                _ => draw(plan, &dish, &names, now, view),
            })
        });
        view! { <figure class="lanes" aria-hidden="true">{drawn}</figure> }.into_any()
    })
}

/// Seconds to units, from the base of the plan.
#[derive(Clone, Copy)]
struct Pace {
    from: f64,
    each: f64,
    /// How wide the picture is.
    width: f64,
}

impl Pace {
    fn of(plan: &Timetable, view: LanesView) -> Self {
        let (first, last) = ends(plan);
        let width = width::for_picture(LEAST_WIDTH);
        match view {
            LanesView::Running => Self {
                from: 0.0,
                each: (width - NOW) / AHEAD,
                width,
            },
            LanesView::Whole => Self {
                from: first,
                each: (width - 8.0) / (last - first).max(60.0),
                width,
            },
        }
    }

    /// Whether a stretch comes into the picture before it is drawn again.
    #[allow(clippy::cast_precision_loss)]
    fn shows(self, view: LanesView, from: i64, to: i64) -> bool {
        let ahead = AHEAD as i64 + LONGEST_SHOWN;
        view == LanesView::Whole || (to as f64 > -NOW / self.each && from < ahead)
    }

    #[allow(clippy::cast_precision_loss)]
    fn at(self, secs: i64) -> f64 {
        (secs as f64 - self.from) * self.each
    }
}

#[allow(clippy::cast_precision_loss)]
fn ends(plan: &Timetable) -> (f64, f64) {
    let first = plan.slots.iter().map(|slot| slot.start).min().unwrap_or(0);
    let last = plan.slots.iter().map(|slot| slot.end).max().unwrap_or(0);
    (first as f64, last as f64)
}

fn draw(
    plan: &Timetable,
    dish: &Dish,
    names: &[String],
    now: RwSignal<Instant>,
    view: LanesView,
) -> AnyView {
    let pace = Pace::of(plan, view);
    let shown = timeline::shown(plan);
    let cooks = shown.iter().filter(|lane| lane.station.is_none()).count();
    #[allow(clippy::cast_precision_loss)]
    let foot = shown.len() as f64 * LANE + 4.0;
    let base = plan.base;
    // The picture moves by whole seconds: that is what a cook's clock shows.
    let gone = Memo::new(move |_| now.get().ms_since(base).div_euclid(1000));
    let slides = move || {
        let x = match view {
            LanesView::Running => NOW - pace.at(gone.get()),
            LanesView::Whole => 4.0,
        };
        format!("translate({x:.1} 0)")
    };
    let plates = plan.plates(dish).into_iter().map(|at| {
        let at = pace.at(at);
        view! { <path class="plating" d=format!("M{at:.1} 0V{foot:.1}")/> }
    });
    view! {
        <svg class="picture" viewBox=format!("0 0 {:.0} {:.0}", pace.width, foot + 18.0) data-says="plan">
            <g transform=slides>
                {ticks(plan, pace, view, foot)}
                {shown.iter().enumerate().map(|(row, lane)| bars(plan, dish, lane, row, (pace, view))).collect_view()}
                {plates.collect_view()}
            </g>
            {shown.iter().enumerate().map(|(row, lane)| {
                #[allow(clippy::cast_precision_loss)]
                let y = row as f64 * LANE + 11.0;
                view! { <text class="lane" x="4" y=y>{timeline::name(lane, cooks, names)}</text> }
            }).collect_view()}
            {(view == LanesView::Running).then(|| view! { <path class="now" d=format!("M{NOW} 0V{foot:.1}")/> })}
        </svg>
    }
    .into_any()
}

/// The hours at the foot, as many as there is room for.
fn ticks(plan: &Timetable, pace: Pace, view: LanesView, foot: f64) -> AnyView {
    let (first, last) = ends(plan);
    let minutes = [1, 2, 5, 10, 15, 30, 60]
        .into_iter()
        .find(|minutes| f64::from(*minutes) * 60.0 * pace.each >= 56.0)
        .unwrap_or(120);
    let step = i64::from(minutes) * 60;
    // On the minute of the clock, not of the plan.
    let into = plan.base.0.div_euclid(1000).rem_euclid(step);
    #[allow(clippy::cast_possible_truncation)]
    let (first, last) = (first as i64, last as i64);
    let mut at = (first + into).div_euclid(step) * step - into;
    let mut shown = Vec::new();
    while at <= last + step && shown.len() < 200 {
        shown.push(at);
        at += step;
    }
    shown
        .into_iter()
        .filter(|secs| pace.shows(view, *secs, secs + step))
        .map(|secs| {
            let x = pace.at(secs);
            view! {
                <path class="tick" d=format!("M{x:.1} 0V{foot:.1}")/>
                <text class="hour" x=x + 2.0 y=foot + 14.0>{clock::time_of_day(plan.at(secs))}</text>
            }
        })
        .collect_view()
        .into_any()
}

fn bars(
    plan: &Timetable,
    dish: &Dish,
    lane: &Lane,
    row: usize,
    (pace, view): (Pace, LanesView),
) -> AnyView {
    #[allow(clippy::cast_precision_loss)]
    let y = row as f64 * LANE + NAME;
    // A step that waits for the plate drags a tail as far as that.
    let waits = |turn: &LaneTurn| {
        let of_task = plan.waits.iter().find(|(id, _)| *id == turn.task);
        let waits = of_task.filter(|_| lane.station.is_some());
        waits.map_or(0, |(_, secs)| *secs)
    };
    let until = |turn: &LaneTurn| turn.to.saturating_add(waits(turn));
    lane.turns
        .iter()
        .filter(|turn| pace.shows(view, turn.from, until(turn)))
        .filter_map(|turn| {
            let number = plan.slots.iter().position(|slot| slot.task == turn.task)? + 1;
            let title = dish.step(&turn.task).map(|step| step.title.clone())?;
            let (from, to) = (pace.at(turn.from), pace.at(turn.to));
            let wide = (to - from).max(2.0);
            let class = if turn.to <= 0 {
                "bar past"
            } else if turn.from <= 0 {
                "bar on"
            } else {
                "bar"
            };
            let tail = (waits(turn) > 0).then(|| {
                format!("M{to:.1} {:.1}H{:.1}", y + BAR / 2.0, pace.at(until(turn)))
            });
            Some(view! {
                {tail.map(|tail| view! { <path class="tail" d=tail/> })}
                <svg class=class x=from y=y width=wide height=BAR>
                    <rect x="0.75" y="0.75" width={(wide - 1.5).max(0.5)} height=BAR - 1.5 rx="4"/>
                    {(wide >= 12.0).then(|| view! { <text x="4" y=BAR - 8.0>{format!("{number} {title}")}</text> })}
                </svg>
            }.into_any())
        })
        .collect_view()
        .into_any()
}
