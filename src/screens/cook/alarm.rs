//! Timers that ring, whatever screen is shown: heard, felt, shown and announced.

use std::collections::BTreeSet;
use std::time::Duration;

use leptos::prelude::*;

use crate::base::instant::Instant;
use crate::device::wake::{self, Wake};
use crate::device::{bell, clock};
use crate::session::bench::Bench;

use crate::place::{Place, Stage};
use crate::service::run::Run;
use crate::service::run::state;

/// How often a shown clock is moved on.
const TICK: Duration = Duration::from_millis(250);
/// How often a timer past its end rings again, in milliseconds.
const AGAIN_MS: i64 = 6_000;
/// How long a timer past its end goes on ringing, in milliseconds.
const PATIENCE_MS: i64 = 60_000;

/// Moves the clock on, rings, and keeps the screen awake while something cooks, for as long as the page lives. What
/// it answers with is what a screen reader says of the timers.
pub fn keep(bench: Bench) -> AnyView {
    let last_rung = StoredValue::new((BTreeSet::<String>::new(), 0_i64));
    let tick = move || {
        let cooking = bench.cooking.get_untracked();
        let shows_clock = bench.place.with_untracked(|place| {
            matches!(
                place,
                Place::Fish(
                    _,
                    Stage::Prepare
                        | Stage::Plan
                        | Stage::Service
                        | Stage::AllSteps
                        | Stage::Summary
                )
            )
        });
        if cooking.is_empty() && !shows_clock {
            return;
        }
        let now = clock::now();
        bench.now.set(now);
        let ringing = ringing(bench, &cooking);
        let (before, at) = last_rung.get_value();
        let is_new = ringing.iter().any(|name| !before.contains(name));
        let again = !ringing.is_empty() && now.0.saturating_sub(at) >= AGAIN_MS;
        if is_new || again {
            if bench.settings.with_untracked(|settings| settings.sound) {
                bell::ring();
            }
            if bench.settings.with_untracked(|settings| settings.buzz) {
                bell::buzz();
            }
            last_rung.set_value((ringing, now.0));
        } else if ringing.len() < before.len() {
            last_rung.set_value((ringing, at));
        }
    };
    // A browser that gives no interval still shows the moment of each tap.
    let _ = set_interval_with_handle(tick, TICK);

    Effect::new(move |_| {
        if bench.cooking.with(Vec::is_empty) {
            wake::release();
            bench.wake.set(Wake::Dropped);
        } else {
            wake::hold(move |state| bench.wake.set(state));
        }
    });
    for touch in ["pointerup", "keyup"] {
        let handle = window_event_listener_untyped(touch, move |_| {
            if !bench.cooking.with_untracked(Vec::is_empty) && !bench.armed.get_untracked() {
                bell::arm();
                bench.armed.set(bell::is_armed());
            }
        });
        std::mem::forget(handle);
    }
    let handle = window_event_listener_untyped("visibilitychange", move |_| {
        // The browser drops the lock whenever the page is hidden.
        if !bench.cooking.with_untracked(Vec::is_empty) {
            wake::hold(move |state| bench.wake.set(state));
        }
    });
    std::mem::forget(handle);
    view! { <Announcer/> }.into_any()
}

/// The timers past their end that still ring, each by fish, step and end, so that more time rings anew.
fn ringing(bench: Bench, cooking: &[String]) -> BTreeSet<String> {
    let now = bench.now.get_untracked();
    let mut ringing = BTreeSet::new();
    for id in cooking {
        bench.fish.with_untracked(id, |fish| {
            let (Some(run), Ok(dish)) = (&fish.run, fish.dish()) else {
                return;
            };
            for (step, ends) in state::rung(dish, &fish.slip.missing, run, now) {
                if now.ms_since(ends) < PATIENCE_MS {
                    ringing.insert(format!("{id} {step} {}", ends.0));
                }
            }
            if let Some(at) = due(run, now).filter(|at| now.ms_since(*at) < PATIENCE_MS) {
                ringing.insert(format!("{id} {}", at.0));
            }
        });
    }
    ringing
}

/// When a service that waited for its hour was to begin, once that has come and nothing has begun.
fn due(run: &Run, now: Instant) -> Option<Instant> {
    run.begin_at.filter(|at| *at <= now && run.steps.is_empty())
}

/// What a screen reader says of the timers: the time left politely, an end at once.
#[component]
fn Announcer() -> impl IntoView {
    let bench = Bench::here();
    let said = Memo::new(move |_| said(bench));
    let ended = Memo::new(move |_| said.with(|(ended, _)| ended.clone()));
    let left = Memo::new(move |_| said.with(|(_, left)| left.clone()));
    view! {
        <div class="unseen" aria-live="assertive" role="alert">{move || ended.get()}</div>
        <div class="unseen" aria-live="polite" role="timer">{move || left.get()}</div>
    }
}

/// What has ended, and what is left of the rest.
fn said(bench: Bench) -> (String, String) {
    let now = bench.now.get();
    let (mut ended, mut left) = (Vec::new(), Vec::new());
    for id in bench.cooking.get() {
        bench.fish.with(&id, |fish| {
            let (Some(run), Ok(dish)) = (&fish.run, fish.dish()) else {
                return;
            };
            if due(run, now).is_some() {
                ended.push("Time to begin the service.".to_owned());
            }
            for (title, state) in state::begun(dish, &fish.slip.missing, run, now) {
                match state {
                    state::StepState::Over { .. } => ended.push(format!("{title}: time is up.")),
                    state::StepState::Running {
                        ends: Some(_),
                        left_ms,
                        ..
                    } => left.push(format!("{title}: {}.", about(left_ms))),
                    _ => {}
                }
            }
        });
    }
    (ended.join(" "), left.join(" "))
}

/// The time left in steps coarse enough to be spoken.
fn about(left_ms: i64) -> String {
    match left_ms.saturating_add(999) / 1000 {
        secs if secs >= 90 => format!("about {} minutes left", (secs.saturating_add(30)) / 60),
        secs if secs > 30 => "one minute left".to_owned(),
        secs if secs > 10 => "half a minute left".to_owned(),
        _ => "ten seconds left".to_owned(),
    }
}
