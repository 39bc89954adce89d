//! What stands on the screen at the stove, read from afar: the timer that presses most, the others, what to do now, and
//! what comes.

use std::collections::BTreeSet;

use super::due::{DueTap, due};
use super::face::Face;
use crate::base::instant::Instant;
use crate::base::kit::Kit;
use crate::service::dish::step::Step;
use crate::service::run::state::StepState;

/// The screen at the stove at one moment; every step by its id.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Glance {
    /// The timer that is shown large; nothing while none runs.
    pub large: Option<String>,
    /// The other timers, the most pressing first.
    pub small: Vec<String>,
    /// The tap that is due.
    pub due: Option<(String, DueTap)>,
    /// What comes next: its step, and whether it could begin now.
    pub next: Option<(String, bool)>,
}

impl Glance {
    /// What is seen of `faces` at `now`. The large timer is what has rung longest; or the one that the cook has `chosen`,
    /// while it runs; or what rings first.
    #[must_use]
    pub fn of(faces: &[Face], chosen: Option<&str>, now: Instant) -> Self {
        let mut timers: Vec<(Press, &Face)> = faces
            .iter()
            .filter_map(|face| Some((Press::of(&face.state)?, face)))
            .collect();
        timers.sort_by_key(|(press, face)| {
            let is_chosen = chosen == Some(face.id.as_str());
            (press.has_not_rung(), !is_chosen, *press)
        });
        let mut ids = timers.into_iter().map(|(_, face)| face.id.clone());
        let due = due(faces, now);
        let is_due = |face: &Face| due.as_ref().is_some_and(|(id, _)| *id == face.id);
        let to_come = faces.iter().filter(|face| {
            let waits = matches!(
                face.state,
                StepState::Waiting { .. } | StepState::Ready { .. }
            );
            waits && !is_due(face)
        });
        let begins = |face: &&Face| face.span.map_or(Instant(i64::MAX), |(start, _)| start);
        let next = to_come.min_by_key(begins).map(|face| {
            let can_begin = matches!(face.state, StepState::Ready { .. });
            (face.id.clone(), can_begin)
        });
        Self {
            large: ids.next(),
            small: ids.collect(),
            due,
            next,
        }
    }

    /// The step that the sentence speaks of: what is due, or else the large timer's.
    #[must_use]
    pub fn about(&self) -> Option<&str> {
        let due = self.due.as_ref().map(|(id, _)| id);
        due.or(self.large.as_ref()).map(String::as_str)
    }
}

/// How much a timer presses, the most first: rung longest, ends soonest, held.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum Press {
    Rung(Instant),
    Runs(Instant),
    Held(i64),
}

impl Press {
    fn of(state: &StepState) -> Option<Self> {
        match state {
            StepState::Over { ends, .. } => Some(Self::Rung(*ends)),
            StepState::Running {
                ends: Some(ends), ..
            } => Some(Self::Runs(*ends)),
            StepState::Held { left_ms, .. } => Some(Self::Held(*left_ms)),
            _ => None,
        }
    }

    fn has_not_rung(self) -> bool {
        !matches!(self, Self::Rung(_))
    }
}

/// What to do now for a step as it stands, in one sentence.
#[must_use]
pub fn sentence(step: &Step, state: &StepState, missing: &BTreeSet<Kit>, now: Instant) -> String {
    match state {
        StepState::Over { .. } => match step.of_fish {
            Some(part) => part.at_its_end().to_owned(),
            None => "Time is up.".to_owned(),
        },
        StepState::Held { .. } if step.station.is_some_and(|station| station.is_hot()) => {
            "The timer stands still. What is on the heat goes on cooking.".to_owned()
        }
        StepState::Held { .. } => "The timer stands still.".to_owned(),
        StepState::Running {
            began,
            ends: Some(_),
            ..
        } if now >= began.plus_secs(i64::from(step.hands_first)) => match step.of_fish {
            Some(part) => part.while_it_runs().to_owned(),
            None => step.brief(missing).to_owned(),
        },
        _ => step.brief(missing).to_owned(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::service::dish::shipped;

    const NOW: Instant = Instant(1_773_050_400_000);

    fn face(id: &str, state: StepState, begins_in: i64) -> Face {
        Face {
            id: id.to_owned(),
            title: id.to_owned(),
            state,
            span: Some((NOW.plus_secs(begins_in), NOW.plus_secs(begins_in + 60))),
            held_ms: 0,
            warning: None,
        }
    }

    fn runs(id: &str, left: i64) -> Face {
        let state = StepState::Running {
            began: NOW.plus_secs(-100),
            ends: Some(NOW.plus_secs(left)),
            left_ms: left * 1000,
            of_ms: 600_000,
        };
        face(id, state, -100)
    }

    fn rung(id: &str, ago: i64) -> Face {
        let state = StepState::Over {
            ends: NOW.plus_secs(-ago),
            over_ms: ago * 1000,
            of_ms: 60_000,
        };
        face(id, state, -200)
    }

    fn held(id: &str) -> Face {
        let state = StepState::Held {
            since: NOW.plus_secs(-5),
            left_ms: 1000,
            of_ms: 60_000,
        };
        face(id, state, -50)
    }

    fn ready(id: &str, begins_in: i64) -> Face {
        face(id, StepState::Ready { since: NOW }, begins_in)
    }

    #[test]
    fn the_most_pressing_timer_is_large_and_no_other_is_left_out() {
        type Case = (
            Vec<Face>,
            Option<&'static str>,
            Option<&'static str>,
            &'static [&'static str],
        );
        let cases: [Case; 5] = [
            (vec![ready("later", 90)], None, None, &[]),
            (
                vec![held("held"), runs("late", 90), runs("soon", 30)],
                None,
                Some("soon"),
                &["late", "held"],
            ),
            (
                vec![held("held"), runs("late", 90), runs("soon", 30)],
                Some("late"),
                Some("late"),
                &["soon", "held"],
            ),
            // What has rung wins, whatever was chosen; what was chosen and is done is forgotten.
            (
                vec![runs("soon", 30), rung("young", 2), rung("old", 9)],
                Some("soon"),
                Some("old"),
                &["young", "soon"],
            ),
            (
                vec![runs("late", 90), runs("soon", 30)],
                Some("gone"),
                Some("soon"),
                &["late"],
            ),
        ];
        for (faces, chosen, large, small) in cases {
            let glance = Glance::of(&faces, chosen, NOW);
            assert_eq!(glance.large.as_deref(), large, "{faces:?}");
            assert_eq!(glance.small, small, "{faces:?}");
        }
    }

    /// One rule says what is due and what is only next: no step is both.
    #[test]
    fn what_is_due_does_not_come_next_as_well() {
        let faces = [ready("soon", 10), ready("later", 90), runs("timer", 60)];
        let glance = Glance::of(&faces, None, NOW);
        assert_eq!(glance.due, Some(("soon".to_owned(), DueTap::Begin)));
        assert_eq!(glance.next, Some(("later".to_owned(), true)));
        assert_eq!(glance.about(), Some("soon"));
        let glance = Glance::of(&faces[1..], None, NOW);
        assert_eq!((glance.due.as_ref(), glance.about()), (None, Some("timer")));
    }

    #[test]
    fn the_sentence_is_about_what_happens_now() {
        let dish = shipped::by_id("bream").unwrap();
        let skin = dish.step("skin_side").unwrap();
        let missing = BTreeSet::new();
        let say = |face: Face| sentence(skin, &face.state, &missing, NOW);
        assert!(say(ready("skin_side", 0)).starts_with("Salt the fillets"));
        assert!(say(runs("skin_side", 30)).starts_with("Leave it until it rings"));
        assert!(say(rung("skin_side", 3)).starts_with("Turn the fish now"));
        assert!(say(held("skin_side")).contains("goes on cooking"));
    }
}
