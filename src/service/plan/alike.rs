//! Steps that can take each other's place need only one order.
//!
//! Counted backwards from plating, say that step `a` can take the place of `b` when
//!
//! - both take the same places of the same pools, at the same distances from their ends;
//! - waiting for `a` costs no less than waiting for `b`;
//! - whatever keeps `a` away from plating keeps `b` away by as much or more: each arc `x → a` has its arc `x → b` with
//!   a gap no smaller;
//! - whatever `b` keeps away, `a` keeps away by as much or more: each arc `b → x` has its arc `a → x` with a gap no
//!   smaller;
//! - no link lies between the two.
//!
//! Then some best schedule has `a` no further from plating than `b`. For take a best schedule that has `b` nearer, and
//! let the two change places. The pools hold what they held. Of the arcs, those into `a` are kept since they were kept by
//! `b` in that place, with as much to spare; those out of `b` since they were kept by `a`; those into `b` and out of `a`
//! since `b` moved away from plating and `a` towards it. The holding changes by (weight of `b` − weight of `a`) × the
//! seconds between the two, which is nothing or less, and the lead, a soonest moment, can only shrink.
//!
//! "Can take the place of" is transitive, and where it holds both ways the order of the kitchen decides; so the orders
//! have no circle. Of steps of one kind, each change of places leaves fewer pairs in the wrong order, so all the orders
//! can be kept at once.

use super::backward::{Arc, Backward, OUTSET};

/// The same kitchen, in which steps that can take each other's place keep one order.
pub(super) fn in_one_order(problem: &Backward) -> Backward {
    let table = Table::of(problem);
    let steps = || OUTSET + 1..problem.moments;
    let before = |a: usize, b: usize| table.can_take(a, b) && (a < b || !table.can_take(b, a));
    let orders: Vec<(usize, usize)> = steps()
        .flat_map(|a| steps().map(move |b| (a, b)))
        .filter(|&(a, b)| a != b && before(a, b))
        .collect();
    let mut ordered = problem.clone();
    for &(from, to) in &orders {
        // What follows from two others need not be said.
        let between =
            |&(a, step): &(usize, usize)| a == from && orders.binary_search(&(step, to)).is_ok();
        if !orders.iter().any(between) {
            ordered.arcs.push(Arc {
                from,
                to,
                gap: table.between(from),
                cause: None,
            });
        }
    }
    ordered
}

/// What a step takes of a pool, and when.
#[derive(Clone, PartialEq, Eq)]
struct Place {
    pool: usize,
    offset: i32,
    secs: i32,
    places: i32,
    fixed: bool,
    /// Whether the pool is too small for two of them.
    alone: bool,
}

struct Table {
    moments: usize,
    places: Vec<Vec<Place>>,
    weights: Vec<i64>,
    /// The greatest gap of an arc from one moment to another.
    gaps: Vec<i32>,
}

impl Table {
    fn of(problem: &Backward) -> Self {
        let moments = problem.moments;
        let mut table = Self {
            moments,
            places: vec![Vec::new(); moments],
            weights: vec![0; moments],
            gaps: vec![i32::MIN; moments * moments],
        };
        for (k, pool) in problem.pools.iter().enumerate() {
            for p in &pool.pieces {
                if let Some(own) = table.places.get_mut(p.moment) {
                    own.push(Place {
                        pool: k,
                        offset: p.offset,
                        secs: p.secs,
                        places: p.places,
                        fixed: p.fixed,
                        alone: p.places > pool.places - p.places,
                    });
                }
            }
        }
        for &(moment, weight) in &problem.held {
            if let Some(own) = table.weights.get_mut(moment) {
                *own = weight;
            }
        }
        for arc in &problem.arcs {
            if let Some(gap) = table.gaps.get_mut(arc.from * moments + arc.to) {
                *gap = (*gap).max(arc.gap);
            }
        }
        table
    }

    fn gap(&self, from: usize, to: usize) -> i32 {
        let at = from * self.moments + to;
        self.gaps.get(at).copied().unwrap_or(i32::MIN)
    }

    /// How far one step lies from plating before the next of its kind, at the least.
    fn between(&self, step: usize) -> i32 {
        let places = self.places.get(step).into_iter().flatten();
        let alone = places.filter(|p| p.alone && !p.fixed);
        alone.map(|p| p.secs).max().unwrap_or(0)
    }

    fn can_take(&self, a: usize, b: usize) -> bool {
        self.places.get(a) == self.places.get(b)
            && self.weights.get(a) >= self.weights.get(b)
            && self.gap(a, b) == i32::MIN
            && self.gap(b, a) == i32::MIN
            && (0..self.moments)
                .all(|x| self.gap(x, a) <= self.gap(x, b) && self.gap(b, x) <= self.gap(a, x))
    }
}
