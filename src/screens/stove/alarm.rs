//! Timers that ring, whatever screen is shown: heard, felt, shown, announced, and read aloud where a cook wants it.

use std::collections::{BTreeMap, BTreeSet};
use std::time::Duration;

use leptos::prelude::*;

use super::strip;
use crate::base::instant::Instant;
use crate::device::wake::{self, Wake};
use crate::device::{bell, clock, voice};
use crate::place::{Place, Stage};
use crate::service::run::Run;
use crate::service::run::state;
use crate::service::timetable::calls::{Call, CallKind, calls};
use crate::session::bench::Bench;

/// How often a shown clock is moved on.
const TICK: Duration = Duration::from_millis(250);
/// How often what rings does so again, in milliseconds, until the phone is touched.
const AGAIN_MS: i64 = 6_000;

/// What has been called so far.
#[derive(Clone, Default)]
struct Called {
    /// By fish: what stood to be called at the last tick. Nothing of a fish that was not looked at yet.
    stood: BTreeMap<String, BTreeSet<Call>>,
    /// What was ringing when the phone was touched: it rings no more.
    quiet: BTreeSet<Call>,
    /// When it rang last.
    rang: Instant,
    /// When the phone was touched last.
    touched: Instant,
}

/// Moves the clock on, rings, speaks, and keeps the screen awake while something cooks, for as long as the page lives.
/// What it answers with is what a screen reader says of the timers, and the strip of those that run.
pub fn keep(bench: Bench) -> AnyView {
    let called = StoredValue::new(Called {
        touched: clock::now(),
        ..Called::default()
    });
    // A browser that gives no interval still shows the moment of each tap.
    let _ = set_interval_with_handle(move || tick(bench, called), TICK);

    Effect::new(move |_| {
        if bench.cooking.with(Vec::is_empty) {
            wake::release();
            bench.wake.set(Wake::Dropped);
        } else {
            wake::hold(move |state| bench.wake.set(state));
        }
    });
    for touch in ["pointerup", "keyup"] {
        let handle = window_event_listener_untyped(touch, move |_| touched(bench, called));
        std::mem::forget(handle);
    }
    let handle = window_event_listener_untyped("visibilitychange", move |_| {
        // The browser drops the lock whenever the page is hidden.
        if !bench.cooking.with_untracked(Vec::is_empty) {
            wake::hold(move |state| bench.wake.set(state));
        }
    });
    std::mem::forget(handle);
    view! {
        <Announcer/>
        {strip::timers(bench)}
    }
    .into_any()
}

fn tick(bench: Bench, called: StoredValue<Called>) {
    let cooking = bench.cooking.get_untracked();
    let shows_clock = bench.place.with_untracked(|place| {
        matches!(
            place,
            Place::Fish(
                _,
                Stage::Prepare | Stage::Plan | Stage::Service | Stage::AllSteps | Stage::Summary
            )
        )
    });
    if cooking.is_empty() && !shows_clock {
        return;
    }
    let now = clock::now();
    bench.now.set(now);
    let armed = bell::is_armed();
    if bench.armed.get_untracked() != armed {
        bench.armed.set(armed);
    }
    let mut stand = BTreeMap::new();
    for id in cooking {
        let touched = called.with_value(|called| called.touched);
        if let Some(calls) = of_fish(bench, &id, touched, now) {
            stand.insert(id, calls);
        }
    }
    let (tone, words) = called
        .try_update_value(|called| called.take(stand, now))
        .unwrap_or_default();
    bench.settings.with_untracked(|settings| {
        if let Some(tone) = tone {
            if settings.sound {
                bell::ring(tone);
            }
            if settings.buzz {
                bell::buzz();
            }
        }
        if settings.aloud {
            words.iter().for_each(|words| voice::say(words));
        }
    });
}

/// What stands to be called of one fish.
fn of_fish(bench: Bench, id: &str, touched: Instant, now: Instant) -> Option<BTreeSet<Call>> {
    bench.fish.with_untracked(id, |fish| {
        let (Some(run), Ok(dish)) = (&fish.run, fish.dish()) else {
            return BTreeSet::new();
        };
        let missing = &fish.slip.missing;
        let found = bench.hours.with_value(|hours| {
            let none = BTreeMap::new();
            let hours = hours.get(id).unwrap_or(&none);
            calls(dish, missing, run, hours, touched, now)
        });
        let start = due(run, now).map(|at| Call {
            step: String::new(),
            what: CallKind::BeginNow,
            ends: Some(at),
            words: "Time to begin the service.".to_owned(),
        });
        found.into_iter().chain(start).collect()
    })
}

impl Called {
    /// What rings now, and what is said: what is new; and, until the phone is touched, what rings again.
    fn take(
        &mut self,
        stand: BTreeMap<String, BTreeSet<Call>>,
        now: Instant,
    ) -> (Option<bell::Tone>, Vec<String>) {
        let mut words = Vec::new();
        let mut is_new = false;
        for (id, calls) in &stand {
            // What began before this page did is not told again, but what rings does.
            let before = self.stood.get(id);
            let new = calls.iter().filter(|call| match before {
                Some(before) => !before.contains(call),
                None => call.what.rings(),
            });
            for call in new {
                is_new |= call.what.rings();
                words.push(call.words.clone());
            }
        }
        self.stood = stand;
        let all: BTreeSet<&Call> = self.stood.values().flatten().collect();
        self.quiet.retain(|call| all.contains(call));
        let loud = all
            .iter()
            .filter(|call| call.what.rings() && !self.quiet.contains(**call));
        let tone = loud
            .map(|call| call.what)
            .max_by_key(|what| pressing(*what));
        let again = now.ms_since(self.rang) >= AGAIN_MS;
        let tone = tone.filter(|_| is_new || again).map(tone_of);
        if tone.is_some() {
            self.rang = now;
        }
        (tone, words)
    }
}

/// Which of several calls is heard.
fn pressing(what: CallKind) -> u8 {
    match what {
        CallKind::Turn => 3,
        CallKind::Lift => 2,
        CallKind::End => 1,
        _ => 0,
    }
}

fn tone_of(what: CallKind) -> bell::Tone {
    match what {
        CallKind::Turn => bell::Tone::Turn,
        CallKind::Lift | CallKind::End => bell::Tone::Lift,
        _ => bell::Tone::Begin,
    }
}

/// A thumb on the phone hears what rings, and lets the page sound.
fn touched(bench: Bench, called: StoredValue<Called>) {
    called.update_value(|called| {
        called.touched = clock::now();
        let rings = called
            .stood
            .values()
            .flatten()
            .filter(|call| call.what.rings());
        called.quiet = rings.cloned().collect();
    });
    if !bench.cooking.with_untracked(Vec::is_empty) && !bench.armed.get_untracked() {
        bell::arm();
        bench.armed.set(bell::is_armed());
    }
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
        <div class="unseen" aria-live="assertive" role="alert" data-says="step">{move || ended.get()}</div>
        <div class="unseen" aria-live="polite" role="timer" data-says="step">{move || left.get()}</div>
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
