//! Of all that can be tapped in a service, the one tap that is due.

use super::face::Face;
use crate::base::instant::Instant;
use crate::service::run::state::StepState;

/// What the plan begins within so many milliseconds begins now.
pub const SOON_MS: i64 = 30_000;

/// What is due of a step.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum DueTap {
    /// It is to begin.
    Begin,
    /// It is to be called done.
    End,
}

/// The step that is due at `now`, by its id, and what is due of it: what has rung longest; what is to begin now; what is
/// in hand and has no timer. Nothing while only timers run.
#[must_use]
pub fn due(faces: &[Face], now: Instant) -> Option<(String, DueTap)> {
    let rung = faces.iter().filter_map(|face| match face.state {
        StepState::Over { over_ms, .. } => Some((over_ms, face)),
        _ => None,
    });
    if let Some((_, face)) = rung.max_by_key(|(over_ms, _)| *over_ms) {
        return Some((face.id.clone(), DueTap::End));
    }
    let to_begin = faces.iter().filter(|face| {
        matches!(face.state, StepState::Ready { .. }) && face.begins_by(now.plus_ms(SOON_MS))
    });
    let begins = |face: &&Face| face.span.map_or(Instant(i64::MAX), |(start, _)| start);
    if let Some(face) = to_begin.min_by_key(begins) {
        return Some((face.id.clone(), DueTap::Begin));
    }
    let in_hand = |face: &&Face| matches!(face.state, StepState::Running { ends: None, .. });
    let face = faces.iter().find(in_hand)?;
    Some((face.id.clone(), DueTap::End))
}

#[cfg(test)]
mod tests {
    use super::*;

    const NOW: Instant = Instant(1_773_050_400_000);

    fn face(id: &str, state: StepState, begins_in: Option<i64>) -> Face {
        Face {
            id: id.to_owned(),
            title: id.to_owned(),
            state,
            span: begins_in.map(|secs| (NOW.plus_secs(secs), NOW.plus_secs(secs + 60))),
            held_ms: 0,
            warning: None,
        }
    }

    fn rung(id: &str, over_ms: i64) -> Face {
        let state = StepState::Over {
            ends: NOW.plus_ms(-over_ms),
            over_ms,
            of_ms: 60_000,
        };
        face(id, state, Some(-90))
    }

    fn ready(id: &str, begins_in: Option<i64>) -> Face {
        face(id, StepState::Ready { since: NOW }, begins_in)
    }

    fn runs(id: &str, ends: Option<Instant>) -> Face {
        let state = StepState::Running {
            began: NOW,
            ends,
            left_ms: 0,
            of_ms: 0,
        };
        face(id, state, Some(0))
    }

    #[test]
    fn one_tap_is_due_and_the_most_pressing() {
        let timed = || runs("timed", Some(NOW.plus_secs(60)));
        type Case = (Vec<Face>, Option<(&'static str, DueTap)>);
        let cases: [Case; 7] = [
            (vec![], None),
            (vec![timed()], None),
            (vec![timed(), ready("later", Some(31))], None),
            (
                vec![runs("hand", None), ready("soon", Some(29)), timed()],
                Some(("soon", DueTap::Begin)),
            ),
            (
                vec![ready("unplanned", None), ready("soon", Some(5))],
                Some(("soon", DueTap::Begin)),
            ),
            (
                vec![runs("hand", None), ready("later", Some(40))],
                Some(("hand", DueTap::End)),
            ),
            (
                vec![
                    rung("young", 500),
                    ready("soon", Some(0)),
                    rung("old", 9_000),
                ],
                Some(("old", DueTap::End)),
            ),
        ];
        for (faces, want) in cases {
            let got = due(&faces, NOW);
            let want = want.map(|(id, tap)| (id.to_owned(), tap));
            assert_eq!(got, want, "{faces:?}");
        }
    }
}
