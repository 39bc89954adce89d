//! Watches the phone's clock beside the counter that nobody can set, so that a clock that is set moves no timer and no time
//! out of the fridge. It comes with what looks after the shelf: until then the page has only just begun to count.

use std::cell::{Cell, RefCell};
use std::time::Duration;

use leptos::prelude::*;

use super::bench::Bench;
use super::notice::Notice;
use crate::base::instant::Instant;
use crate::base::steady::{Jump, Steady, Uncounted};
use crate::base::stretch::in_words;
use crate::device::clock;
use crate::place::Place;

/// How often both are looked at.
const LOOK: Duration = Duration::from_secs(1);
/// How many looks pass between two times that it is kept for the next page.
const KEEP_EVERY: u8 = 5;
/// What another tab has kept so lately, in milliseconds, it has kept in sight.
const LATELY_MS: i64 = 10_000;

#[derive(Default)]
struct Watch {
    steady: Option<Steady>,
    /// What this page kept last.
    kept: String,
    /// Looks since then.
    looks: u8,
}

thread_local! {
    static WATCH: RefCell<Watch> = RefCell::default();
    /// Whether the page was out of sight since the last look.
    static UNSEEN: Cell<bool> = const { Cell::new(false) };
}

/// Watches from now on, for as long as the page lives.
pub fn follow(bench: Bench) {
    let cooks = !bench.cooking.with_untracked(Vec::is_empty);
    let kept = clock::kept();
    let (steady, jump) = Steady::start(kept.as_deref(), cooks, clock::wall(), clock::counter());
    WATCH.with_borrow_mut(|watch| watch.steady = Some(steady));
    UNSEEN.set(!clock::in_sight());
    stand(bench, jump);
    // A browser that gives no interval goes by the counter alone.
    let _ = set_interval_with_handle(move || look(bench), LOOK);
    let handle = window_event_listener_untyped("visibilitychange", move |_| {
        if clock::in_sight() {
            take_on();
            look(bench);
        } else {
            look(bench);
            UNSEEN.set(true);
            keep();
        }
    });
    std::mem::forget(handle);
}

/// Time that may have passed uncounted, and the moment from which on none has. It is asked for with every tick of a clock
/// that is shown.
#[must_use]
pub fn doubt() -> (Uncounted, Instant) {
    let doubt = WATCH.with_borrow(|watch| watch.steady.as_ref().map(Steady::doubt));
    doubt.unwrap_or((Uncounted::None, Instant(0)))
}

/// The cook says what it was: the phone slept, and the time has passed; or its clock was set.
pub fn settle(bench: Bench, has_passed: bool) {
    WATCH.with_borrow_mut(|watch| {
        if let Some(steady) = &mut watch.steady {
            steady.settle(has_passed);
        }
    });
    stand(bench, None);
    bench.now.set(clock::now());
    keep();
}

fn look(bench: Bench) {
    let unseen = UNSEEN.replace(!clock::in_sight());
    let jump = WATCH.with_borrow_mut(|watch| {
        watch.looks = watch.looks.saturating_add(1);
        let steady = watch.steady.as_mut()?;
        steady.look(clock::wall(), clock::counter(), !unseen)
    });
    stand(bench, jump);
    let due = WATCH.with_borrow(|watch| watch.looks >= KEEP_EVERY);
    if jump.is_some() || (due && clock::in_sight()) {
        keep();
    }
}

/// What another tab saw while this one was out of sight.
fn take_on() {
    WATCH.with_borrow_mut(|watch| {
        let kept = clock::kept().filter(|kept| *kept != watch.kept);
        if let (Some(kept), Some(steady)) = (kept, &mut watch.steady)
            && steady.take_on(&kept, clock::wall(), clock::counter(), LATELY_MS)
        {
            UNSEEN.set(false);
        }
    });
}

fn keep() {
    WATCH.with_borrow_mut(|watch| {
        if let Some(steady) = &watch.steady {
            watch.kept = steady.kept();
            watch.looks = 0;
            clock::keep(&watch.kept);
        }
    });
}

/// The page goes by what was found, and the cook is told where something hangs on it.
fn stand(bench: Bench, jump: Option<Jump>) {
    if let Some(ahead) = WATCH.with_borrow(|watch| Some(watch.steady.as_ref()?.ahead_ms())) {
        clock::set_ahead(ahead);
    }
    if let Some(jump) = jump.filter(|_| is_at_stake(bench)) {
        bench.notice.set(Some(Notice::Told(told(jump))));
    }
}

/// Whether a timer may still ring, or the fish on the screen is out of the fridge.
fn is_at_stake(bench: Bench) -> bool {
    let is_out = |id: &str| {
        bench.fish.with_untracked(id, |fish| {
            let out = fish
                .chill
                .as_ref()
                .is_some_and(|chill| chill.out_since.is_some());
            out && fish.finished.is_none()
        })
    };
    let shown = bench.place.with_untracked(|place| match place {
        Place::Fish(id, _) => is_out(id) == Some(true),
        _ => false,
    });
    shown || !bench.cooking.with_untracked(Vec::is_empty)
}

fn told(jump: Jump) -> String {
    match jump {
        Jump::Back(ms) => format!(
            "This phone's clock was set back by {}. Timers and the time out of the fridge go on as they were.",
            in_words(ms)
        ),
        Jump::Ahead(ms) => format!(
            "This phone's clock went ahead by {}. Timers and the time out of the fridge go on as they were. If the phone slept instead, say so beside the time out of the fridge.",
            in_words(ms)
        ),
        Jump::BackUnseen => "This phone's clock was set back while Scaleside was not in sight, so nobody can say how much time passed. Look at what cooks, and count fish that was out of the fridge as out for over 4 hours.".to_owned(),
        Jump::Counted(ms) => format!(
            "{} went by on this phone's clock while Scaleside was not in sight. All of it is counted.",
            in_words(ms)
        ),
    }
}
