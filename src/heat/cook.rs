//! When to turn and when to lift, so that the coldest part peaks at the wanted core in the rest.
//!
//! Every turn has its lift: the earliest that brings the core there. Of all such pairs the one is told that dries the
//! least flesh (`dryness.rs`): turned too soon, the fillet lies long in a cooling pan and both faces get dry; too late, all
//! of the heat has to pass the skin side. The kitchen's nine tenths skin side down comes out of this for a well done
//! core, and seven to eight tenths for a softer one. Bounds: skin side down at least until the skin has dried
//! (`skin.rs`), also where the core then gets hotter than wanted; turned and off the heat for 5 s (the flesh side is
//! only kissed) to 180 s (the pan has little left: common practice, no source).

use serde::{Deserialize, Serialize};

use super::course::{CookStage, CoreGoal, Course, Times};
use super::dryness::Dryness;
use super::stove::Setup;

/// The shortest finish, s (our choice).
pub const FINISH_LEAST: u32 = 5;
/// The longest finish in a pan that is off the heat, s.
pub const FINISH_MOST: u32 = 180;
/// The longest skin side down, s; beyond it a pan alone is the wrong tool.
pub const SKIN_MOST: u32 = 900;
/// The shortest rest, s: plating time (values from conduction; no measured carry-over was found).
pub const REST_LEAST: u32 = 60;
/// The core must peak within this rest, s: fish waits no longer hot (common practice, no source).
pub const REST_MOST: u32 = 300;

/// What has been done already, in seconds since the fish went in.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct SoFar {
    /// Now.
    pub now: u32,
    /// Turned, and the heat off.
    pub turned_at: Option<u32>,
    /// Lifted onto paper.
    pub lifted_at: Option<u32>,
}

/// How the moment of the turn is found.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum TurnBy {
    /// The flesh gets as little dry as it can.
    LeastDry,
    /// The middle has come to this, °C: what a cook who goes by the look of the fillet does, whatever its thickness.
    Middle(f64),
}

/// The times that reach `goal`, or the best that the pan can do.
#[must_use]
pub fn times(setup: &Setup, goal: CoreGoal, so_far: SoFar, by: TurnBy) -> Times {
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
        (Some(turn), None) => lift(course, turn, goal, 0),
        (None, _) => turn_and_lift(course, goal, by),
    }
}

/// How many stretches the turns that are possible are tried in.
const TRIED: u32 = 8;

/// Another moment to turn, which brings the core there as well, and what comes of it.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct OtherTurn {
    /// Turned, s after it went in.
    pub turn: u32,
    /// Lifted, s after it went in.
    pub lift: u32,
    /// How dry the flesh gets.
    pub dryness: Dryness,
    /// How much of the skin has dried by the turn, as a share of its thickness.
    pub skin_dried: f64,
}

/// The turns there are for a fillet that is about to go in, from the soonest to the latest in even strides: also those
/// before its skin has dried.
#[must_use]
pub fn other_turns(setup: &Setup, goal: CoreGoal) -> Vec<OtherTurn> {
    let start = Course::start(setup, goal.hold.map_or(f64::INFINITY, |(c, _)| c));
    let Some(mut course) = soonest(start, goal) else {
        return Vec::new();
    };
    let last = latest(course.clone(), goal);
    let stride = (last - course.secs()).div_ceil(TRIED).max(1);
    let mut found = Vec::new();
    let mut finish = 0;
    loop {
        let (Times { turn, lift }, dryness) = tried(&course, goal, finish);
        finish = lift - turn;
        found.push(OtherTurn {
            turn,
            lift,
            dryness,
            skin_dried: course.skin_dried(),
        });
        if course.secs() >= last {
            return found;
        }
        let stop = last.min(course.secs() + stride);
        go_on(&mut course, stop);
    }
}

/// Turned at this moment and lifted so many seconds later, it arrives.
fn arrives_after(finish: u32, course: &Course<'_>, goal: CoreGoal) -> bool {
    let mut course = course.clone();
    let turn = course.secs();
    let lift = turn + finish;
    course.follow(Times { turn, lift }, lift);
    course.lift();
    arrives(course, goal)
}

/// The course at the soonest turn that can bring the core there: the finish takes as much of the heat as it can.
fn soonest<'a>(from: Course<'a>, goal: CoreGoal) -> Option<Course<'a>> {
    earliest(from, SKIN_MOST, 0, |c| arrives_after(FINISH_MOST, c, goal))
}

/// The latest turn that need be thought of: the finish takes as little as it can, and every later turn gives a hotter core.
fn latest(from: Course<'_>, goal: CoreGoal) -> u32 {
    let last = earliest(from, SKIN_MOST, 0, |c| arrives_after(FINISH_LEAST, c, goal));
    last.map_or(SKIN_MOST, |course| course.secs())
}

fn go_on(course: &mut Course<'_>, until: u32) {
    while course.secs() < until {
        course.step(until);
    }
}

/// Turned at this moment and lifted when it is time, some `finish` s later, with how dry the flesh gets.
fn tried(course: &Course<'_>, goal: CoreGoal, finish: u32) -> (Times, Dryness) {
    let times = turned_here(course, goal, finish);
    let mut done = course.clone();
    done.follow(times, times.lift + REST_MOST);
    (times, done.dryness())
}

fn turn_and_lift(at_now: Course<'_>, goal: CoreGoal, by: TurnBy) -> Times {
    let crisp = skin_dried(&at_now).unwrap_or(at_now);
    let found = match by {
        TurnBy::Middle(celsius) => turn_at(crisp, celsius, goal),
        TurnBy::LeastDry => soonest(crisp, goal).map(|first| {
            let last = latest(first.clone(), goal);
            let stretch = (last - first.secs()).div_ceil(TRIED).max(1);
            let (best, before) = least_dry(first, last, stretch, goal);
            // Closer about the best of them.
            let finer = stretch.div_ceil(4).max(1);
            if finer == stretch {
                return best;
            }
            least_dry(before, last.min(best.turn + stretch), finer, goal).0
        }),
    };
    found.unwrap_or(Times {
        turn: SKIN_MOST,
        lift: SKIN_MOST + FINISH_MOST,
    })
}

/// Turned when the middle is that hot, or as near to it as arrives.
fn turn_at(from: Course<'_>, celsius: f64, goal: CoreGoal) -> Option<Times> {
    let mut course = from.clone();
    while course.middle() < celsius && course.secs() < SKIN_MOST {
        course.step(SKIN_MOST);
    }
    if !arrives_after(FINISH_MOST, &course, goal) {
        course = soonest(course, goal)?;
    } else if arrives_after(FINISH_LEAST, &course, goal) {
        // That is past the latest turn.
        let last = latest(soonest(from.clone(), goal)?, goal);
        course = from;
        go_on(&mut course, last);
    }
    Some(turned_here(&course, goal, 0))
}

/// Turned at this moment, and lifted when it is time: some `finish` s later, as far as is known.
fn turned_here(course: &Course<'_>, goal: CoreGoal, finish: u32) -> Times {
    let mut turned = course.clone();
    turned.turn();
    lift(turned, course.secs(), goal, finish)
}

/// The least dry of the turns from here to `last`, in strides; with the course as it was one stride before it.
fn least_dry<'a>(
    mut course: Course<'a>,
    last: u32,
    stride: u32,
    goal: CoreGoal,
) -> (Times, Course<'a>) {
    let mut before = course.clone();
    let (mut best, mut least) = tried(&course, goal, 0);
    let mut finish = best.lift - best.turn;
    let mut found = before.clone();
    while course.secs() < last {
        before.clone_from(&course);
        let stop = last.min(course.secs() + stride);
        go_on(&mut course, stop);
        // Turned later, it is lifted sooner after it.
        let (times, dryness) = tried(&course, goal, finish);
        finish = times.lift - times.turn;
        if dryness.is_less_than(&least) {
            (best, least) = (times, dryness);
            found.clone_from(&before);
        }
    }
    (best, found)
}

/// The course at the moment at which its skin has dried; nothing where it doesn't dry in time.
fn skin_dried<'a>(from: &Course<'a>) -> Option<Course<'a>> {
    let mut course = from.clone();
    while course.skin_dried() < 1.0 {
        if course.secs() >= SKIN_MOST {
            return None;
        }
        course.step(SKIN_MOST);
    }
    Some(course)
}

/// The earliest lift that arrives at `goal` for a fillet already turned, or the latest there is; some `finish` s after the
/// turn, as far as is known.
fn lift(mut course: Course<'_>, turn: u32, goal: CoreGoal, finish: u32) -> Times {
    let least = course.secs().max(turn + FINISH_LEAST);
    let most = least.max(turn + FINISH_MOST);
    while course.secs() < least {
        course.step(least);
    }
    let guess = (turn + finish).saturating_sub(course.secs());
    let lifted = |c: &Course<'_>| {
        let mut c = c.clone();
        c.lift();
        arrives(c, goal)
    };
    Times {
        turn,
        lift: earliest(course, most, guess, lifted).map_or(most, |course| course.secs()),
    }
}

/// The course at the earliest second up to `most` at which it is good, sought from `guess` s on in growing strides and then
/// by halves: more heat never gives a cooler core, so a good second is never followed by a bad one.
fn earliest<'a>(
    mut course: Course<'a>,
    most: u32,
    guess: u32,
    good: impl Fn(&Course<'a>) -> bool,
) -> Option<Course<'a>> {
    let mut passed = vec![course.clone()];
    // Up to which of them none is good.
    let mut bad = 0;
    let mut stop = most.min(course.secs() + guess);
    let mut stride = 8;
    loop {
        while course.secs() < stop {
            course.step(stop);
            passed.push(course.clone());
        }
        if good(&course) {
            break;
        }
        if course.secs() >= most {
            return None;
        }
        bad = passed.len();
        stop = most.min(course.secs() + stride);
        stride *= 2;
    }
    let mut last = passed.len() - 1;
    // Back from there, where the guess was near.
    let mut back = 1;
    while guess > 0 && last > bad {
        let nearer = last.saturating_sub(back).max(bad);
        if !passed.get(nearer).is_some_and(&good) {
            bad = nearer + 1;
            break;
        }
        last = nearer;
        back *= 2;
    }
    let open = passed.get(bad..last).unwrap_or_default();
    let first = bad + open.partition_point(|c| !good(c));
    passed.into_iter().nth(first)
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
