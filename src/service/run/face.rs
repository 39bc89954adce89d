//! What the screen is told to show of a service: the face of every step, with everything that is
//! still to come projected from what has happened.

use std::collections::BTreeSet;

use crate::base::instant::Instant;
use crate::base::kit::Kit;
use crate::base::stretch::in_words;
use crate::service::dish::Dish;
use crate::service::dish::step::{Begins, Edge, Link, Station, Step};
use crate::service::run::Run;
use crate::service::run::step_run::StepRun;

/// How a step stands. Lengths are in milliseconds.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum FaceState {
    /// It can't begin yet.
    Waiting {
        /// The titles of the steps in the way.
        on: Vec<String>,
        /// When it can begin, once only a least gap is in the way.
        ready_at: Option<Instant>,
    },
    /// It can begin.
    Ready {
        /// Since when.
        since: Instant,
    },
    /// It has begun. Without a timer `ends` is `None` and both lengths are zero.
    Running {
        /// When it began.
        began: Instant,
        /// When it rings.
        ends: Option<Instant>,
        /// What is left of it.
        left_ms: i64,
        /// The whole of it.
        of_ms: i64,
    },
    /// Its timer stands still.
    Held {
        /// What is left of it.
        left_ms: i64,
        /// The whole of it.
        of_ms: i64,
    },
    /// It has rung and isn't done.
    Over {
        /// When it rang.
        ends: Instant,
        /// How long ago.
        over_ms: i64,
        /// The whole of it.
        of_ms: i64,
    },
    /// It is done.
    Done {
        /// When it was called done.
        at: Instant,
    },
}

/// One step as the screen shows it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Face {
    /// The id of the step.
    pub id: String,
    /// Its name on the screen.
    pub title: String,
    /// How it stands.
    pub state: FaceState,
    /// When it began, or begins if nothing more is late.
    pub projected_start: Instant,
    /// When it was done, or will be if nothing more is late.
    pub projected_end: Instant,
    /// A sentence, when it comes later after another step than the dish allows.
    pub warning: Option<String>,
}

/// The face of every step, in the order of the dish.
#[must_use]
pub fn faces(dish: &Dish, missing: &BTreeSet<Kit>, run: &Run, now: Instant) -> Vec<Face> {
    let run = &run.as_of(now);
    let spans = projection(dish, missing, run, now);
    dish.steps
        .iter()
        .zip(&spans)
        .map(|(step, span)| Face {
            id: step.id.clone(),
            title: step.title.clone(),
            state: state(dish, missing, run, step, now),
            projected_start: span.start,
            projected_end: span.end,
            warning: warning(dish, step, span, &spans),
        })
        .collect()
}

/// The steps that have begun, by their titles, and how they stand: quicker than all faces, for what is only said.
#[must_use]
pub fn begun(
    dish: &Dish,
    missing: &BTreeSet<Kit>,
    run: &Run,
    now: Instant,
) -> Vec<(String, FaceState)> {
    let run = run.as_of(now);
    let begun = dish.steps.iter().filter_map(|step| {
        let begun = run.steps.get(&step.id)?;
        let state = begun_state(begun, step.lasts_ms(missing), now);
        Some((step.title.clone(), state))
    });
    begun.collect()
}

/// When the plating begins, if nothing more is late.
#[must_use]
pub fn plate_at(dish: &Dish, missing: &BTreeSet<Kit>, run: &Run, now: Instant) -> Instant {
    let spans = projection(dish, missing, &run.as_of(now), now);
    let plating = dish
        .steps
        .iter()
        .zip(&spans)
        .find(|(s, _)| s.station == Some(Station::Plate));
    plating.map_or(now, |(_, span)| span.start)
}

/// The steps that have rung and are not done, by their ids, and when each rang.
#[must_use]
pub fn rung(
    dish: &Dish,
    missing: &BTreeSet<Kit>,
    run: &Run,
    now: Instant,
) -> Vec<(String, Instant)> {
    let run = run.as_of(now);
    let bells = dish.steps.iter().filter_map(|step| {
        let begun = run.steps.get(&step.id)?;
        let ticking = begun.is_open() && begun.held_since.is_none();
        let ends = begun.ends(step.lasts_ms(missing)?);
        (ticking && ends <= now).then(|| (step.id.clone(), ends))
    });
    bells.collect()
}

fn state(dish: &Dish, missing: &BTreeSet<Kit>, run: &Run, step: &Step, now: Instant) -> FaceState {
    match run.steps.get(&step.id) {
        Some(begun) => begun_state(begun, step.lasts_ms(missing), now),
        None => ahead_state(dish, run, step, now),
    }
}

fn begun_state(begun: &StepRun, lasts: Option<i64>, now: Instant) -> FaceState {
    let began = begun.began;
    if let Some(at) = begun.done {
        return FaceState::Done { at: at.max(began) };
    }
    let Some(lasts) = lasts else {
        return FaceState::Running {
            began,
            ends: None,
            left_ms: 0,
            of_ms: 0,
        };
    };
    let (ends, left_ms, of_ms) = (
        begun.ends(lasts),
        begun.left_ms(lasts, now),
        begun.of_ms(lasts),
    );
    if begun.held_since.is_some() {
        FaceState::Held { left_ms, of_ms }
    } else if ends <= now {
        FaceState::Over {
            ends,
            over_ms: now.ms_since(ends),
            of_ms,
        }
    } else {
        FaceState::Running {
            began,
            ends: Some(ends),
            left_ms,
            of_ms,
        }
    }
}

fn ahead_state(dish: &Dish, run: &Run, step: &Step, now: Instant) -> FaceState {
    let (mut on, from) = run.waits(dish, step);
    if let Some(other) = run.taken_by(dish, step)
        && !on.iter().any(|s| s.id == other.id)
    {
        on.push(other);
    }
    let ready_at = on.is_empty().then_some(from);
    match ready_at {
        Some(since) if since <= now => FaceState::Ready { since },
        _ => FaceState::Waiting {
            on: on.into_iter().map(|s| s.title.clone()).collect(),
            ready_at,
        },
    }
}

/// From when to when a step is, or is thought to be.
struct Span {
    start: Instant,
    end: Instant,
    /// Whether it has begun: then nothing moves its start.
    begun: bool,
    done: bool,
    /// Milliseconds from start to end, while it hasn't begun.
    counts_ms: i64,
}

impl Span {
    fn edge(&self, edge: Edge) -> Instant {
        match edge {
            Edge::Start => self.start,
            Edge::End => self.end,
        }
    }

    /// Moves a step that hasn't begun to no sooner than `at`; says whether it moved.
    fn push(&mut self, at: Instant) -> bool {
        let moves = !self.begun && at > self.start;
        if moves {
            self.start = at;
            self.end = at.plus_ms(self.counts_ms);
        }
        moves
    }
}

/// Every step's span: each step that hasn't begun is pushed later until every least gap, every
/// greatest gap, the pan and the cook's hands are respected. A round through all steps settles at
/// least one of them, so what still moves after as many rounds as steps never settles: then the
/// greatest gaps are let go, and the faces warn of them.
fn projection(dish: &Dish, missing: &BTreeSet<Kit>, run: &Run, now: Instant) -> Vec<Span> {
    let steps = &dish.steps;
    let waits = waits(steps);
    let ahead = || -> Vec<Span> {
        steps
            .iter()
            .map(|step| first_span(step, missing, run, now))
            .collect()
    };
    let mut spans = ahead();
    for _ in 0..=steps.len() {
        if !push_round(dish, &waits, &mut spans, true) {
            return spans;
        }
    }
    spans = ahead();
    push_round(dish, &waits, &mut spans, false);
    spans
}

/// For each step, what it waits for: each link, and where the step it is measured from stands.
type Waits<'a> = Vec<Vec<(&'a Link, usize)>>;

fn waits(steps: &[Step]) -> Waits<'_> {
    let on = |id: &str| steps.iter().position(|s| s.id == id);
    let mut waits = Vec::new();
    for step in steps {
        let links = step.links.iter();
        waits.push(links.filter_map(|l| Some((l, on(&l.to)?))).collect());
    }
    waits
}

/// Pushes every step once, in the order of the dish; says whether any moved.
fn push_round(dish: &Dish, waits: &Waits<'_>, spans: &mut [Span], keep_greatest: bool) -> bool {
    let mut moved = false;
    let mut busy = Busy::before(dish, spans, 0);
    for (at, (step, waits)) in dish.steps.iter().zip(waits).enumerate() {
        let linked = waits.iter().filter_map(|(link, on)| {
            let span = spans.get(*on)?;
            Some(span.edge(link.edge).plus_secs(i64::from(link.least)))
        });
        let soonest = linked.chain(busy.until(dish, step)).max();
        if let (Some(from), Some(span)) = (soonest, spans.get_mut(at)) {
            moved |= span.push(from);
        }
        if keep_greatest && draw_near(&dish.steps, waits, spans, at) {
            moved = true;
            busy = Busy::before(dish, spans, at + 1);
        } else if let Some(span) = spans.get(at).filter(|span| !span.begun) {
            busy.add(step, span);
        }
    }
    moved
}

/// Until when the hands and the pan are taken. Of two steps that need the same of them and haven't begun, the one
/// written first goes first.
#[derive(Default)]
struct Busy {
    hands: Option<Instant>,
    pan: Option<Instant>,
}

impl Busy {
    /// By what has begun and isn't done, and by what is written before the step at `at`.
    fn before(dish: &Dish, spans: &[Span], at: usize) -> Self {
        let mut busy = Self::default();
        for (i, (step, span)) in dish.steps.iter().zip(spans).enumerate() {
            if (span.begun && !span.done) || (!span.begun && i < at) {
                busy.add(step, span);
            }
        }
        busy
    }

    fn add(&mut self, step: &Step, span: &Span) {
        if step.hands {
            self.hands = self.hands.max(Some(span.end));
        }
        if step.station.is_some_and(Station::takes_one) {
            self.pan = self.pan.max(Some(span.end));
        }
    }

    fn until(&self, dish: &Dish, step: &Step) -> Option<Instant> {
        let one_pan = dish.pans == 1 && step.station.is_some_and(Station::takes_one);
        let hands = self.hands.filter(|_| step.hands);
        hands.max(self.pan.filter(|_| one_pan))
    }
}

fn first_span(step: &Step, missing: &BTreeSet<Kit>, run: &Run, now: Instant) -> Span {
    let counts_ms = step.counts_ms(missing);
    let begun = run.steps.get(&step.id);
    let start = begun.map_or(now, |b| b.began);
    let end = match begun {
        None => now.plus_ms(counts_ms),
        Some(b) => match (b.done, b.held_since) {
            (Some(done), _) => done.max(start),
            (None, Some(_)) => now.plus_ms(b.left_ms(counts_ms, now)),
            (None, None) => b.ends(counts_ms).max(now),
        },
    };
    let done = begun.is_some_and(|b| !b.is_open());
    Span {
        start,
        end,
        begun: begun.is_some(),
        done,
        counts_ms,
    }
}

/// Moves the steps that may not lie too long before the step at `at` up to it.
fn draw_near(steps: &[Step], waits: &[(&Link, usize)], spans: &mut [Span], at: usize) -> bool {
    let Some(start) = spans.get(at).filter(|s| !s.begun).map(|s| s.start) else {
        return false;
    };
    let mut moved = false;
    for (link, on) in waits {
        let Some(most) = link.most else { continue };
        let earlier = steps.get(*on).zip(spans.get_mut(*on));
        // What begins at once can't be put off.
        if let Some((_, span)) = earlier.filter(|(s, _)| s.begins == Begins::Tap) {
            let edge = start.plus_secs(-i64::from(most));
            moved |= span.push(match link.edge {
                Edge::Start => edge,
                Edge::End => edge.plus_ms(-span.counts_ms),
            });
        }
    }
    moved
}

fn warning(dish: &Dish, step: &Step, span: &Span, spans: &[Span]) -> Option<String> {
    if span.done {
        return None;
    }
    step.links.iter().find_map(|link| {
        let most = i64::from(link.most?).saturating_mul(1000);
        let (earlier, from) = dish
            .steps
            .iter()
            .zip(spans)
            .find(|(s, _)| s.id == link.to)?;
        let gap = span.start.ms_since(from.edge(link.edge));
        let what = match link.edge {
            Edge::Start => "began",
            Edge::End => "was done",
        };
        (gap > most).then(|| {
            format!(
                "This comes more than {} after “{}” {what}.",
                in_words(most),
                earlier.title
            )
        })
    })
}
