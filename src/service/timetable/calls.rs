//! What a service calls out at a moment, to a cook who does not look: begin, one minute, ten seconds, turn, lift.

use std::collections::{BTreeMap, BTreeSet};

use crate::base::instant::Instant;
use crate::base::kit::Kit;
use crate::service::dish::Dish;
use crate::service::dish::step::{Begins, OfFish, Step};
use crate::service::run::Run;
use crate::service::run::state::{StepState, state};

/// A cook who has touched the phone less than so many milliseconds ago sees what is to begin.
const SEES_MS: i64 = 15_000;
/// A timer longer than this, in milliseconds, is worth a word a minute before its end.
const LONG_MS: i64 = 90_000;

/// What is called.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum CallKind {
    /// It has begun.
    Begun,
    /// A minute is left.
    OneMinute,
    /// Ten seconds are left.
    TenSeconds,
    /// The plan begins it now, and it hasn't begun.
    BeginNow,
    /// Its time is up, and the fish is to be turned.
    Turn,
    /// Its time is up, and the fish is to come out.
    Lift,
    /// Its time is up.
    End,
}

impl CallKind {
    /// Whether it rings until somebody touches the phone.
    #[must_use]
    pub fn rings(self) -> bool {
        matches!(self, Self::BeginNow | Self::Turn | Self::Lift | Self::End)
    }
}

/// One call: the same one as long as all of it is the same.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Call {
    /// The step, by its id.
    pub step: String,
    /// What is called.
    pub what: CallKind,
    /// When its timer ends or ended: thirty seconds more make another call.
    pub ends: Option<Instant>,
    /// As it is said.
    pub words: String,
}

/// What stands to be called at `now`: `hours` are those at which the last plan begins the steps, by their ids, and
/// `touched` is when the phone was touched last.
#[must_use]
pub fn calls(
    dish: &Dish,
    missing: &BTreeSet<Kit>,
    run: &Run,
    hours: &BTreeMap<String, Instant>,
    touched: Instant,
    now: Instant,
) -> Vec<Call> {
    let run = &run.as_of(now);
    let call = |step: &Step| {
        let at = state(dish, missing, run, step, now);
        let (what, ends) = match &at {
            StepState::Running {
                ends,
                left_ms,
                of_ms,
                ..
            } => match (ends, *left_ms) {
                (Some(_), ..=10_000) => (CallKind::TenSeconds, *ends),
                (Some(_), ..=60_000) if *of_ms > LONG_MS => (CallKind::OneMinute, *ends),
                _ => (CallKind::Begun, None),
            },
            StepState::Over { ends, .. } => (end_of(step), Some(*ends)),
            StepState::Ready { .. }
                if step.begins == Begins::Tap
                    && hours.get(&step.id).is_some_and(|hour| *hour <= now)
                    && now.ms_since(touched) >= SEES_MS =>
            {
                (CallKind::BeginNow, None)
            }
            _ => return None,
        };
        Some(Call {
            step: step.id.clone(),
            what,
            ends,
            words: words(step, what, missing),
        })
    };
    dish.steps.iter().filter_map(call).collect()
}

fn end_of(step: &Step) -> CallKind {
    match step.of_fish {
        Some(OfFish::SkinSide) => CallKind::Turn,
        Some(OfFish::Finish | OfFish::Check) => CallKind::Lift,
        _ => CallKind::End,
    }
}

fn words(step: &Step, what: CallKind, missing: &BTreeSet<Kit>) -> String {
    let title = &step.title;
    match what {
        CallKind::Begun => format!("{title}. {}", step.brief(missing)),
        CallKind::OneMinute => format!("{title}: one minute."),
        CallKind::TenSeconds => format!("{title}: ten seconds."),
        CallKind::BeginNow => format!("Begin now: {title}."),
        CallKind::Turn | CallKind::Lift | CallKind::End => match step.of_fish {
            Some(part) => part.at_its_end().to_owned(),
            None => format!("{title}: time is up."),
        },
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::service::dish::shipped;
    use crate::service::run::Tap;

    const START: Instant = Instant(1_773_050_400_000);

    /// What is called, so many seconds after the start, of a service in which these taps were made.
    fn called(taps: &[(i64, Tap)], hours: &[(&str, i64)], touched: i64, at: i64) -> Vec<String> {
        let dish = shipped::by_id("bream").unwrap();
        let missing = BTreeSet::new();
        let run = taps
            .iter()
            .fold(Run::start(dish, START), |run, (secs, tap)| {
                run.tap(dish, &missing, tap, START.plus_secs(*secs))
                    .unwrap()
            });
        let hours = hours
            .iter()
            .map(|(id, secs)| ((*id).to_owned(), START.plus_secs(*secs)))
            .collect();
        let touched = START.plus_secs(touched);
        let calls = calls(dish, &missing, &run, &hours, touched, START.plus_secs(at));
        let said = |call: Call| format!("{} {:?}", call.step, call.what);
        calls.into_iter().map(said).collect()
    }

    fn in_the_pan() -> Vec<(i64, Tap)> {
        let stroke = |id: &str| Tap::AtAStroke(id.to_owned());
        vec![
            (1, stroke("warm_plates")),
            (90, stroke("heat_pan")),
            (100, Tap::Begin("skin_side".to_owned())),
        ]
    }

    /// The skin side lasts 270 seconds from 100 on.
    #[test]
    fn a_timer_is_called_at_its_start_a_minute_and_ten_seconds_before_its_end_and_at_it() {
        for (at, call) in [
            (100, "Begun"),
            (309, "Begun"),
            (310, "OneMinute"),
            (359, "OneMinute"),
            (360, "TenSeconds"),
            (370, "Turn"),
            (999, "Turn"),
        ] {
            let called = called(&in_the_pan(), &[], 0, at);
            assert_eq!(called, [format!("skin_side {call}")], "after {at} s");
        }
    }

    #[test]
    fn what_the_plan_begins_is_called_once_nobody_looks() {
        let hours = [("warm_plates", 60), ("heat_pan", 0)];
        // Not before its hour, not while a thumb is on the phone, and never what can't begin yet.
        for (touched, at, call) in [
            (0, 59, &[][..]),
            (0, 60, &["warm_plates BeginNow"][..]),
            (50, 64, &[][..]),
            (50, 65, &["warm_plates BeginNow"][..]),
        ] {
            assert_eq!(called(&[], &hours, touched, at), call, "{touched} {at}");
        }
        // Without a plan nothing is known to be due.
        assert_eq!(called(&[], &[], 0, 600), [""; 0]);
    }
}
