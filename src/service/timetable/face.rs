//! What the screen is told to show of a service: how every step stands, and when it comes by the timetable. Nothing else
//! says when a step begins.

use std::collections::BTreeSet;

use super::{Stuck, Timetable};
use crate::base::instant::Instant;
use crate::base::kit::Kit;
use crate::base::stretch::in_words;
use crate::service::dish::Dish;
use crate::service::dish::joined::Wave;
use crate::service::dish::step::{Edge, Step};
use crate::service::run::Run;
use crate::service::run::state::{StepState, state};
use crate::service::run::step_run::StepRun;

/// One step as the screen shows it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Face {
    /// The id of the step.
    pub id: String,
    /// Its name on the screen.
    pub title: String,
    /// How it stands.
    pub state: StepState,
    /// From when to when it is: as it was where it has begun, by the timetable where it has not. Nothing while there is
    /// no timetable to ask.
    pub span: Option<(Instant, Instant)>,
    /// Milliseconds that its timer stood still, while it is under way.
    pub held_ms: i64,
    /// A sentence, when it comes later after another step than the dish allows: then the gap is broken already, or
    /// nothing fits.
    pub warning: Option<String>,
}

impl Face {
    /// Whether it begins by `moment`, as far as is known: what nobody has planned yet may begin.
    #[must_use]
    pub fn begins_by(&self, moment: Instant) -> bool {
        self.span.is_none_or(|(start, _)| start < moment)
    }
}

/// A service worked out: a timetable, or why there is none.
pub type WorkedOut = Result<Timetable, Stuck>;

/// A service worked out; nothing while it is being worked out.
pub type Planned = Option<WorkedOut>;

/// The timetable to go by: where nothing fits, the one that lets the greatest gaps go.
#[must_use]
pub fn to_go_by(planned: &Planned) -> Option<&Timetable> {
    match planned.as_ref()? {
        Ok(timetable) => Some(timetable),
        Err(stuck) => stuck.at_best.as_deref(),
    }
}

/// Whether a plan worked out later says the same as the one that is shown.
#[must_use]
pub fn still_shows(shown: &Planned, later: &Planned) -> bool {
    let same = |shown: &Timetable, later: &Timetable| shown.still_shows(later);
    match (shown, later) {
        (Some(Ok(shown)), Some(Ok(later))) => same(shown, later),
        (Some(Err(shown)), Some(Err(later))) => {
            (&shown.sentence, &shown.ways) == (&later.sentence, &later.ways)
                && match (&shown.at_best, &later.at_best) {
                    (Some(shown), Some(later)) => same(shown, later),
                    (None, None) => true,
                    _ => false,
                }
        }
        (None, None) => true,
        _ => false,
    }
}

/// The face of every step, in the order of the dish.
#[must_use]
pub fn faces(
    dish: &Dish,
    missing: &BTreeSet<Kit>,
    run: &Run,
    planned: &Planned,
    now: Instant,
) -> Vec<Face> {
    let run = &run.as_of(now);
    let timetable = to_go_by(planned);
    let span = |step: &Step| span(step, missing, run, timetable, now);
    dish.steps
        .iter()
        .map(|step| Face {
            id: step.id.clone(),
            title: step.title.clone(),
            state: state(dish, missing, run, step, now),
            span: span(step).map(|(start, end)| match run.steps.get(&step.id) {
                Some(_) => (start, end),
                // A timetable may be a few seconds old: what was to begin since begins now.
                None => (start.max(now), end.max(now)),
            }),
            held_ms: (run.steps.get(&step.id))
                .filter(|begun| begun.is_open())
                .map_or(0, |begun| begun.held_up_to(now)),
            warning: warning(dish, run, step, &span),
        })
        .collect()
}

/// When the next plates go out by the timetable, or the last ones went out; and how many seconds after the first plates
/// they are wanted.
#[must_use]
pub fn plate_at(dish: &Dish, run: &Run, planned: &Planned) -> Option<(Instant, u32)> {
    let waves = dish.waves();
    let began = |wave: &Wave| run.steps.get(&wave.plating.id).map(|begun| begun.began);
    let next = waves.iter().find(|wave| began(wave).is_none());
    let wave = next.or(waves.last())?;
    let planned = || {
        let timetable = to_go_by(planned)?;
        Some(timetable.at(timetable.slot(&wave.plating.id)?.start))
    };
    Some((began(wave).or_else(planned)?, wave.later_secs))
}

fn span(
    step: &Step,
    missing: &BTreeSet<Kit>,
    run: &Run,
    timetable: Option<&Timetable>,
    now: Instant,
) -> Option<(Instant, Instant)> {
    if let Some(begun) = run.steps.get(&step.id) {
        return Some((begun.began, end(begun, step.counts_ms(missing), now)));
    }
    let timetable = timetable?;
    let slot = timetable.slot(&step.id)?;
    Some((timetable.at(slot.start), timetable.at(slot.end)))
}

/// When a step that has begun was done, or will be if nothing more is late.
fn end(begun: &StepRun, counts_ms: i64, now: Instant) -> Instant {
    match (begun.done, begun.held_since) {
        (Some(done), _) => done.max(begun.began),
        (None, Some(_)) => now.plus_ms(begun.left_ms(counts_ms, now)),
        (None, None) => begun.ends(counts_ms).max(now),
    }
}

/// What is late by the timetable itself, not by the seconds since it was worked out.
fn warning(
    dish: &Dish,
    run: &Run,
    step: &Step,
    span: &impl Fn(&Step) -> Option<(Instant, Instant)>,
) -> Option<String> {
    if run
        .steps
        .get(&step.id)
        .is_some_and(|begun| !begun.is_open())
    {
        return None;
    }
    let (start, _) = span(step)?;
    step.links.iter().find_map(|link| {
        let most = i64::from(link.most?).saturating_mul(1000);
        let earlier = dish.step(&link.to)?;
        let (began, ended) = span(earlier)?;
        let (edge, what) = match link.edge {
            Edge::Start => (began, "began"),
            Edge::End => (ended, "was done"),
        };
        (start.ms_since(edge) > most).then(|| {
            format!(
                "This comes more than {} after “{}” {what}.",
                in_words(most),
                earlier.title
            )
        })
    })
}
