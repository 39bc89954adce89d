//! A service written as a script of taps, and its faces in a word.

use std::collections::BTreeSet;

use scaleside::base::instant::Instant;
use scaleside::base::kit::Kit;
use scaleside::service::dish::Dish;
use scaleside::service::dish::shipped;
use scaleside::service::run::state::StepState;
use scaleside::service::run::{Run, Tap};
use scaleside::service::timetable::Timetable;
use scaleside::service::timetable::face::{self, Face, Planned};
use scaleside::service::timetable::of_dish::Service;

/// Six in the evening, some day.
pub const START: Instant = Instant(1_790_000_000_000);

pub fn bream() -> &'static Dish {
    shipped::by_id("bream").unwrap()
}

pub fn at(secs: i64) -> Instant {
    START.plus_secs(secs)
}

/// One tap written as `word step`, at a second after the start.
pub fn tap(word: &str, id: &str) -> Tap {
    let id = id.to_owned();
    match word {
        "begin" => Tap::Begin(id),
        "hold" => Tap::Hold(id),
        "resume" => Tap::Resume(id),
        "more" => Tap::More(id),
        "done" => Tap::Done(id),
        "undo" => Tap::NotDone(id),
        other => panic!("no tap called {other}"),
    }
}

/// Plays `"second word step; ..."` from the start of the service.
pub fn play(script: &str) -> Run {
    script
        .split(';')
        .map(str::trim)
        .filter(|line| !line.is_empty())
        .fold(Run::start(bream(), START), |run, line| {
            let [secs, word, id] = line.split_whitespace().collect::<Vec<_>>()[..] else {
                panic!("not a tap: {line}");
            };
            run.tap(
                bream(),
                &BTreeSet::new(),
                &tap(word, id),
                at(secs.parse().unwrap()),
            )
            .unwrap_or_else(|refusal| panic!("{line}: {refusal}"))
        })
}

pub fn refusal(run: &Run, word: &str, id: &str, secs: i64) -> String {
    run.tap(bream(), &BTreeSet::new(), &tap(word, id), at(secs))
        .unwrap_err()
        .to_string()
}

/// The service planned at a moment, for one cook; nothing once plating has begun, as on the screens.
pub fn planned(dish: &Dish, missing: &BTreeSet<Kit>, run: &Run, now: Instant) -> Planned {
    let service = Service {
        dish,
        missing,
        cooks: 1,
    };
    (!run.steps.contains_key("plate")).then(|| Timetable::of(&service, Some(run), None, now))
}

pub fn faces(dish: &Dish, missing: &BTreeSet<Kit>, run: &Run, now: Instant) -> Vec<Face> {
    face::faces(dish, missing, run, &planned(dish, missing, run, now), now)
}

pub fn plate_at(dish: &Dish, missing: &BTreeSet<Kit>, run: &Run, now: Instant) -> Instant {
    face::plate_at(dish, run, &planned(dish, missing, run, now))
        .unwrap()
        .0
}

pub fn shown(run: &Run, secs: i64) -> Vec<Face> {
    faces(bream(), &BTreeSet::new(), run, at(secs))
}

pub fn face(run: &Run, id: &str, secs: i64) -> Face {
    shown(run, secs)
        .into_iter()
        .find(|face| face.id == id)
        .unwrap()
}

/// A face in a word and its seconds.
pub fn brief(run: &Run, id: &str, secs: i64) -> String {
    let s = |ms: i64| ms as f64 / 1000.0;
    match face(run, id, secs).state {
        StepState::Waiting { on, ready_at } => match ready_at {
            Some(ready) => format!("ready in {}", s(ready.ms_since(at(secs)))),
            None => format!("waits on {}", on.join(", ")),
        },
        StepState::Ready { since } => format!("ready {}", s(since.ms_since(START))),
        StepState::Running { ends: None, .. } => "running".to_owned(),
        StepState::Running { left_ms, of_ms, .. } => format!("running {}/{}", s(left_ms), s(of_ms)),
        StepState::Held { left_ms, of_ms, .. } => format!("held {}/{}", s(left_ms), s(of_ms)),
        StepState::Over { over_ms, of_ms, .. } => format!("over {}/{}", s(over_ms), s(of_ms)),
        StepState::Done { at } => format!("done {}", s(at.ms_since(START))),
    }
}

/// Plates warming, pan hot, the fish in at second 100.
pub const FISH_IN: &str = "0 begin warm_plates; 5 done warm_plates; 10 begin heat_pan; 100 done heat_pan; 100 begin skin_side;";
/// The fish out at second 415, the leeks in.
pub const FISH_OUT: &str =
    "370 done skin_side; 400 done flesh_side; 415 done check_core; 415 begin leeks;";
