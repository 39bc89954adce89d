//! The same kitchen counted backwards from plating, as gaps between moments and pieces of work at pools.
//!
//! Why backwards: a held step costs its weight for each second between its end and plating, and the lead is the
//! greatest distance of any start from plating. Both only ever grow as a moment moves away from plating. So once
//! the order at every station is chosen, the network's soonest moments are all the least at once, and they are
//! the best schedule for that order, whatever the weights. With no order chosen they bound every schedule.

use super::Edge;
use super::check::Checked;
use super::network::{Network, Reasons};
use super::refusals::NoKitchen;

/// The start of plating: moment 0 of every network.
pub(super) const PLATING: usize = 0;
/// The start of the first step, or now, when the plan is made while cooking.
pub(super) const OUTSET: usize = 1;
/// Longest stretch of time a network may span, in seconds: sums of three fit an `i32`.
const LONGEST: i64 = 1 << 28;

/// One side of one link.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Bound {
    pub(super) link: usize,
    pub(super) greatest: bool,
}

/// A least gap between two moments, and the bound it states, unless it is part of what a plan is.
#[derive(Clone, Copy, Debug)]
pub(super) struct Arc {
    pub(super) from: usize,
    pub(super) to: usize,
    pub(super) gap: i32,
    pub(super) cause: Option<Bound>,
}

/// A stretch of one step that takes places in a pool.
#[derive(Clone, Copy, Debug)]
pub(super) struct Piece {
    /// The end of the step, which is its first moment counted backwards.
    pub(super) moment: usize,
    /// Seconds from the moment to where the piece begins, counted backwards.
    pub(super) offset: i32,
    pub(super) secs: i32,
    pub(super) places: i32,
    /// Whether the step has started: it then can't be moved.
    pub(super) fixed: bool,
}

/// A station, or the cooks' hands, and all that wants it.
#[derive(Clone, Debug)]
pub(super) struct Pool {
    /// The station's position; none for hands.
    pub(super) station: Option<usize>,
    pub(super) places: i32,
    pub(super) pieces: Vec<Piece>,
}

/// A step that has started: where it began and ends, in seconds from now.
#[derive(Clone, Copy, Debug)]
pub(super) struct Fact {
    pub(super) task: usize,
    pub(super) start: i64,
    pub(super) end: i64,
}

/// What a plan made while cooking starts from.
#[derive(Clone, Debug, Default)]
pub(super) struct Facts {
    pub(super) started: Vec<Fact>,
    /// Links that say nothing about what is still to start.
    pub(super) spent: Vec<usize>,
    /// Those of them that can't be kept any more.
    pub(super) overdue: Vec<usize>,
    /// Plating starts no sooner than so many seconds from now.
    pub(super) not_before: i64,
}

impl Facts {
    pub(super) fn of(&self, task: usize) -> Option<Fact> {
        self.started.iter().find(|f| f.task == task).copied()
    }
}

/// The kitchen counted backwards.
#[derive(Clone, Debug)]
pub(super) struct Backward {
    pub(super) moments: usize,
    pub(super) horizon: i32,
    pub(super) arcs: Vec<Arc>,
    pub(super) pools: Vec<Pool>,
    /// Moments whose distance from plating costs, and how much a second.
    pub(super) held: Vec<(usize, i64)>,
}

/// The moment at which a task ends.
pub(super) fn end_of(task: usize) -> usize {
    task + 2
}

impl Backward {
    /// `facts` is given for a plan made while cooking. Refuses a kitchen whose times add up to years.
    pub(super) fn new(checked: &Checked, facts: Option<&Facts>) -> Result<Self, NoKitchen> {
        let mut arcs: Vec<(usize, usize, i64, Option<Bound>)> = Vec::new();
        for (k, task) in checked.kitchen.tasks.iter().enumerate() {
            match facts.and_then(|f| f.of(k)) {
                Some(fact) => {
                    arcs.push((end_of(k), OUTSET, fact.end, None));
                    arcs.push((OUTSET, end_of(k), -fact.end, None));
                }
                None if k != checked.plating => arcs.push((end_of(k), OUTSET, task.secs, None)),
                None => arcs.push((end_of(k), PLATING, task.secs, None)),
            }
            if k == checked.plating {
                arcs.push((PLATING, end_of(k), -task.secs, None));
            } else {
                arcs.push((PLATING, end_of(k), 0, None));
            }
        }
        arcs.push((
            PLATING,
            OUTSET,
            facts.map_or(0, |f| f.not_before.max(0)),
            None,
        ));
        for (k, (link, &(a, b))) in checked.kitchen.links.iter().zip(&checked.ends).enumerate() {
            if facts.is_some_and(|f| f.spent.contains(&k)) {
                continue;
            }
            let before_end = |task, edge| match edge {
                Edge::Start => length(checked, facts, task),
                Edge::End => 0,
            };
            let shift = before_end(b, link.to_edge) - before_end(a, link.from_edge);
            let bound = |greatest| Some(Bound { link: k, greatest });
            arcs.push((end_of(b), end_of(a), link.least + shift, bound(false)));
            if let Some(greatest) = link.greatest {
                arcs.push((end_of(a), end_of(b), -greatest - shift, bound(true)));
            }
        }
        let span = (checked.kitchen.tasks.iter().map(|t| t.secs + 1)).sum::<i64>()
            + arcs.iter().map(|a| a.2.abs()).sum::<i64>()
            + made_ready(checked);
        let horizon =
            (i32::try_from(span).ok().filter(|_| span <= LONGEST)).ok_or(NoKitchen::Years)?;
        Ok(Self {
            moments: checked.kitchen.tasks.len() + 2,
            horizon,
            arcs: (arcs.into_iter())
                .map(|(from, to, gap, cause)| Arc {
                    from,
                    to,
                    gap: small(gap),
                    cause,
                })
                .collect(),
            pools: pools(checked, facts),
            held: (checked.kitchen.tasks.iter().enumerate())
                .filter(|(k, t)| *k != checked.plating && t.held > 0)
                .map(|(k, t)| (end_of(k), i64::from(t.held)))
                .collect(),
        })
    }

    /// The network of all gaps, with no order chosen at any pool; none when they contradict each other.
    pub(super) fn network(&self, reasons: &mut Reasons) -> Option<Network> {
        let mut network = Network::new(self.moments, self.horizon, reasons);
        for a in &self.arcs {
            if !network.allows(a.from, a.to, a.gap) {
                return None;
            }
            network.keep(a.from, a.to, a.gap, Vec::new(), reasons);
        }
        Some(network)
    }
}

/// Variations on the same kitchen, to find out what stands in the way.
impl Backward {
    /// With only those bounds that `keep` keeps.
    pub(super) fn filtered(&self, keep: impl Fn(Bound) -> bool) -> Self {
        let mut other = self.clone();
        other.arcs.retain(|a| a.cause.is_none_or(&keep));
        other
    }

    /// With no greatest gaps but these.
    pub(super) fn with_only_greatest(&self, bounds: &[Bound]) -> Self {
        self.filtered(|b| !b.greatest || bounds.contains(&b))
    }

    /// With one bound easier by so many seconds.
    pub(super) fn loosened(&self, bound: Bound, by: i64) -> Self {
        let mut other = self.clone();
        for arc in other.arcs.iter_mut().filter(|a| a.cause == Some(bound)) {
            arc.gap = small(i64::from(arc.gap) - by);
        }
        other
    }

    /// With more places at one pool.
    pub(super) fn with_more_places(&self, pool: usize, places: i32) -> Self {
        let mut other = self.clone();
        if let Some(pool) = other.pools.get_mut(pool) {
            pool.places = pool.places.saturating_add(places);
        }
        other
    }
}

/// Seconds that the places of all steps take together to be made ready.
fn made_ready(checked: &Checked) -> i64 {
    let stations = &checked.kitchen.stations;
    let each = checked.needs.iter().flatten();
    each.filter_map(|(at, _)| Some(stations.get(*at)?.ready))
        .sum()
}

/// How long a step lasts, or did: one that runs late lasts until it ends.
fn length(checked: &Checked, facts: Option<&Facts>, task: usize) -> i64 {
    (facts.and_then(|f| f.of(task)).map(|f| f.end - f.start))
        .or_else(|| checked.task(task).map(|t| t.secs))
        .unwrap_or(0)
}

/// Times here are all within the horizon, which was checked to fit.
fn small(secs: i64) -> i32 {
    i32::try_from(secs).unwrap_or(if secs < 0 { i32::MIN } else { i32::MAX })
}

/// The pools that can be overfull. Plating comes after everything, and done steps before: neither competes, but for a
/// place that has still to be made ready after a done one.
fn pools(checked: &Checked, facts: Option<&Facts>) -> Vec<Pool> {
    let mut hands = Pool {
        station: None,
        places: i32::try_from(checked.kitchen.cooks).unwrap_or(1),
        pieces: Vec::new(),
    };
    let mut stations: Vec<Pool> = (checked.kitchen.stations.iter().enumerate())
        .map(|(k, s)| Pool {
            station: Some(k),
            places: i32::try_from(s.places).unwrap_or(i32::MAX),
            pieces: Vec::new(),
        })
        .collect();
    for (k, (task, needs)) in checked.kitchen.tasks.iter().zip(&checked.needs).enumerate() {
        let fact = facts.and_then(|f| f.of(k));
        if k == checked.plating {
            continue;
        }
        let is_past = |ready: i64| fact.is_some_and(|f| f.end.saturating_add(ready) <= 0);
        let secs = length(checked, facts, k);
        let piece = |offset: i64, secs: i64, places: i32| Piece {
            moment: end_of(k),
            offset: small(offset),
            secs: small(secs),
            places,
            fixed: fact.is_some(),
        };
        if is_past(0) {
            // What is over takes no hands any more.
        } else if task.hands_first + task.hands_last == secs {
            hands.pieces.push(piece(0, secs, 1));
        } else {
            hands.pieces.push(piece(0, task.hands_last, 1));
            hands
                .pieces
                .push(piece(secs - task.hands_first, task.hands_first, 1));
        }
        for &(at, places) in needs {
            let ready = checked.kitchen.stations.get(at).map_or(0, |s| s.ready);
            if let Some(pool) = stations.get_mut(at).filter(|_| !is_past(ready)) {
                // A place that is made ready is taken from there on.
                pool.pieces.push(piece(0, secs + ready, places));
            }
        }
    }
    stations.push(hands);
    for pool in &mut stations {
        pool.pieces.retain(|p| p.secs > 0);
    }
    stations.retain(|pool| {
        let wanted = pool.pieces.iter().map(|p| i64::from(p.places)).sum::<i64>();
        wanted > i64::from(pool.places)
    });
    stations
}
