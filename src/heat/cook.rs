//! When to turn and when to lift, so that the coldest part peaks at the wanted core in the rest.
//!
//! The rule for the turn: skin side down until the pale, set flesh (40 °C: where salmon's myosin
//! and collagen come apart, "Protein Denaturation and Textural Changes of Atlantic Salmon During
//! Simulated Cooking", *Food Biophysics*) has climbed 45 % of the way up. Higher, and the part near
//! the skin is long past done in a thick fillet: at 60 to 70 % and 50 °C a fillet of 19 mm would lie
//! nine minutes and more. Then the heat is off, and the finish lasts as long as the core needs,
//! between 20 s (the flesh side must set) and 180 s (the pan has little left: common practice, no
//! source). Where that is not enough the turn comes later; where it is too much, earlier.

use super::course::{CookStage, CoreGoal, Course, Times};
use super::stove::Setup;

/// Flesh is set and pale from here, °C.
pub const SET_C: f64 = 40.0;
/// How far up the set flesh has climbed at the turn, as a share of the thickness.
pub const TURN_DEPTH: f64 = 0.45;
/// The shortest finish, s.
pub const FINISH_LEAST: u32 = 20;
/// The longest finish in a pan that is off the heat, s.
pub const FINISH_MOST: u32 = 180;
/// The longest skin side down, s; beyond it a pan alone is the wrong tool.
pub const SKIN_MOST: u32 = 900;
/// The shortest rest, s: plating time (values from conduction; no measured carry-over was found).
pub const REST_LEAST: u32 = 60;
/// The core must peak within this rest, s: fish waits no longer hot (common practice, no source).
pub const REST_MOST: u32 = 300;

/// What has been done already, in seconds since the fish went in.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, serde::Serialize, serde::Deserialize)]
pub struct SoFar {
    /// Now.
    pub now: u32,
    /// Turned, and the heat off.
    pub turned_at: Option<u32>,
    /// Lifted onto paper.
    pub lifted_at: Option<u32>,
}

/// The times that reach `goal`, or the best that the pan can do.
#[must_use]
pub fn times(setup: &Setup, goal: CoreGoal, so_far: SoFar) -> Times {
    let mut course = Course::start(setup, goal.hold.map_or(f64::INFINITY, |(c, _)| c));
    course.follow(
        Times {
            turn: so_far.turned_at.unwrap_or(u32::MAX),
            lift: so_far.lifted_at.unwrap_or(u32::MAX),
        },
        so_far.now,
    );
    // What was done at this very moment has been done.
    if so_far.turned_at.is_some() && course.stage() == CookStage::Skin {
        course.turn();
    }
    match (so_far.turned_at, so_far.lifted_at) {
        (Some(turn), Some(lift)) => Times { turn, lift },
        (Some(turn), None) => lift(course, turn, goal),
        (None, _) => turn_and_lift(course, goal),
    }
}

fn turn_and_lift(at_now: Course<'_>, goal: CoreGoal) -> Times {
    let after = |finish: u32| {
        move |c: &Course<'_>| {
            let mut c = c.clone();
            let turn = c.secs();
            let lift = turn + finish;
            c.follow(Times { turn, lift }, lift);
            c.lift();
            arrives(c, goal)
        }
    };
    let at_turn = |turn: Option<u32>, finish: u32| {
        turn.map(|turn| Times {
            turn,
            lift: turn + finish,
        })
    };
    let mut at_cue = at_now.clone();
    while at_cue.slab().at(TURN_DEPTH) < SET_C && at_cue.secs() < SKIN_MOST {
        at_cue.step(SKIN_MOST);
    }
    let cue = at_cue.secs();
    let mut turned = at_cue.clone();
    turned.turn();
    let usual = lift(turned, cue, goal);
    let other = if usual.lift == cue + FINISH_LEAST {
        at_turn(earliest(at_now, cue, after(FINISH_LEAST)), FINISH_LEAST)
    } else if usual.lift == cue + FINISH_MOST {
        at_turn(earliest(at_cue, SKIN_MOST, after(FINISH_MOST)), FINISH_MOST)
    } else {
        None
    };
    other.unwrap_or(usual)
}

/// The earliest lift that arrives at `goal` for a fillet already turned, or the latest there is.
fn lift(mut course: Course<'_>, turn: u32, goal: CoreGoal) -> Times {
    let least = course.secs().max(turn + FINISH_LEAST);
    let most = least.max(turn + FINISH_MOST);
    while course.secs() < least {
        course.step(least);
    }
    let lifted = |c: &Course<'_>| {
        let mut c = c.clone();
        c.lift();
        arrives(c, goal)
    };
    Times {
        turn,
        lift: earliest(course, most, lifted).unwrap_or(most),
    }
}

/// The earliest second up to `most` at which the course is good, in growing strides and then by
/// halves: more heat never gives a cooler core, so a good second is never followed by a bad one.
fn earliest(mut course: Course<'_>, most: u32, good: impl Fn(&Course<'_>) -> bool) -> Option<u32> {
    let mut stride = 8;
    let mut passed = Vec::new();
    while !good(&course) {
        if course.secs() >= most {
            return None;
        }
        passed.clear();
        let stop = most.min(course.secs() + stride);
        while course.secs() < stop {
            course.step(stop);
            passed.push(course.clone());
        }
        stride *= 2;
    }
    let first = passed.partition_point(|c| !good(c));
    Some(passed.get(first).map_or(course.secs(), Course::secs))
}

/// Resting, the fillet arrives at `goal`.
fn arrives(mut course: Course<'_>, goal: CoreGoal) -> bool {
    let end = course.secs() + REST_MOST;
    while !course.has(goal) {
        if course.secs() >= end || !course.goes_on() {
            return false;
        }
        course.step(end);
    }
    true
}
