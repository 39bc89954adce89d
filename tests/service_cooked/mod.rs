//! A cook who does what is due, and nothing else.

use std::collections::BTreeSet;

use scaleside::base::instant::Instant;
use scaleside::fish::action::Action;
use scaleside::fish::record::Fish;
use scaleside::service::run::Tap;
use scaleside::service::timetable::due::{DueTap, due};
use scaleside::service::timetable::face::faces;

pub const NOW: Instant = Instant(1_790_000_000_000);

/// Cooks a service by what is due, looking at it every five seconds. Returns the warnings that were shown and how long it
/// took in seconds.
pub fn cooked(fish: &Fish) -> (Vec<String>, i64, Fish) {
    let mut fish = fish.clone();
    let mut warned = Vec::new();
    for secs in (0..20_000).step_by(5) {
        let now = NOW.plus_secs(secs);
        let act = |fish: &Fish, tap: Tap| fish.apply(&Action::Serve(tap), now).unwrap();
        for _ in 0..8 {
            let planned = (!fish.is_plated()).then(|| fish.timetable(now));
            let shown = faces(
                fish.dish().unwrap(),
                &BTreeSet::new(),
                fish.run.as_ref().unwrap(),
                &planned,
                now,
            );
            if planned.is_some_and(|planned| planned.is_ok()) {
                warned.extend(shown.iter().filter_map(|face| face.warning.clone()));
            }
            let Some((id, what)) = due(&shown, now) else {
                break;
            };
            // A cook's hand is no quicker than the step.
            let by_hand = fish.dish().unwrap().step(&id).unwrap().clone();
            fish = match what {
                DueTap::Begin => act(&fish, Tap::Begin(id)),
                DueTap::End if by_hand.lasts.is_some() => act(&fish, Tap::Done(id)),
                DueTap::End => {
                    let began = fish.run.as_ref().unwrap().steps[&id].began;
                    if now.ms_since(began) < i64::from(by_hand.takes) * 1000 {
                        break;
                    }
                    act(&fish, Tap::Done(id))
                }
            };
        }
        if fish.is_over() {
            return (warned, secs, fish);
        }
    }
    panic!("the service never ends");
}

pub fn begun(fish: &Fish) -> Fish {
    fish.apply(&Action::Start { insist: true }, NOW).unwrap()
}
