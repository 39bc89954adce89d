//! The least holding that a queue at one pool forces: a bound on every schedule.
//!
//! Where nothing is ordered yet, every held step may lie next to plating in the soonest moments, and the holding they
//! come to says little. But a pool does only so much at a time. Counted backwards, a held step costs its weight for
//! each second until it begins, so what is asked is the least weighted sum of starts on one machine with soonest
//! moments. The relaxation lets a piece be broken off for another, and work at the pace of all places together: then
//! the pieces of the most weight for their work first, each in the first free time there is, have the least weighted
//! sum of middles; and the middle of a piece that is not broken lies half its length after its start. With one place
//! and no soonest moments that is the order of Smith, 'Various optimizers for single-stage production' (1956), and
//! exact; with them it is the bound of Goemans and others, 'Single machine scheduling with release dates' (2002). Both
//! from memory, not verified; that it is a bound is tested against every schedule of small kitchens.
//!
//! Pieces that can't but follow each other count as one: a fish that is turned in its pan. A held step that wants
//! nothing of the pool counts through the piece it hangs on most closely: a fish that rests, as the pan it came from.

use super::backward::{Backward, PLATING, Pool};
use super::network::Network;

/// The least holding, and the gaps of the network that force it.
pub(super) struct QueueBound {
    pub(super) holding: i64,
    pub(super) because: Vec<(usize, usize)>,
    /// Twice the start of each piece, as the relaxation has it, by its moment.
    pub(super) starts: Vec<(usize, i64)>,
}

/// Pieces that follow each other, with the weight of all that waits with them.
struct Queued {
    moments: Vec<usize>,
    from: i64,
    secs: i64,
    places: i64,
    weight: i64,
}

/// The least holding there can be with the orders of the network.
pub(super) fn least_holding(problem: &Backward, network: &Network) -> QueueBound {
    let soonest = QueueBound {
        holding: soonest_holding(problem, network),
        because: problem.held.iter().map(|&(m, _)| (PLATING, m)).collect(),
        starts: Vec::new(),
    };
    let queues = problem
        .pools
        .iter()
        .map(|pool| queue(problem, pool, network));
    queues.fold(soonest, |best, queue| {
        if queue.holding > best.holding {
            queue
        } else {
            best
        }
    })
}

/// What the holding comes to with everything at its soonest.
pub(super) fn soonest_holding(problem: &Backward, network: &Network) -> i64 {
    let held = problem.held.iter();
    held.map(|&(moment, weight)| weight * i64::from(network.soonest(moment)))
        .sum()
}

/// The least holding with one pool in mind.
pub(super) fn queue(problem: &Backward, pool: &Pool, network: &Network) -> QueueBound {
    let soonest = |moment: usize| i64::from(network.soonest(moment));
    let mut found = QueueBound {
        holding: 0,
        because: Vec::new(),
        starts: Vec::new(),
    };
    let mut queued = in_queue(pool, network, &mut found.because);
    let work: i64 = queued.iter().map(|q| q.secs).sum();
    for &(moment, weight) in &problem.held {
        // How far the step lies from plating when the piece it hangs on begins at nothing.
        let through = (queued.iter().enumerate())
            .filter_map(|(k, q)| {
                let piece = *q.moments.first()?;
                let least = soonest(piece) + i64::from(network.gap(piece, moment));
                let close = network.gap(piece, moment) + network.gap(moment, piece);
                Some(((q.moments.contains(&moment), close, least), k, piece))
            })
            .max()
            .filter(|&((_, _, least), _, _)| least + work > soonest(moment));
        let hangs_on = through.and_then(|(at, k, piece)| Some((queued.get_mut(k)?, at.2, piece)));
        let Some((q, least, piece)) = hangs_on else {
            found.holding += weight * soonest(moment);
            found.because.push((PLATING, moment));
            continue;
        };
        if q.weight == 0 {
            found.because.push((PLATING, piece));
        }
        q.weight += weight;
        found.holding += weight * (least - q.from);
        found.because.push((piece, moment));
    }
    found.holding += weighted_starts(queued, i64::from(pool.places), &mut found.starts);
    found
}

/// The pieces of a pool, those as one that can't but follow each other.
fn in_queue(pool: &Pool, network: &Network, because: &mut Vec<(usize, usize)>) -> Vec<Queued> {
    let mut pieces: Vec<(i32, usize)> = (pool.pieces.iter().enumerate())
        .map(|(k, p)| (network.soonest(p.moment) + p.offset, k))
        .collect();
    pieces.sort_unstable();
    let mut queued: Vec<Queued> = Vec::new();
    for (from, p) in pieces
        .into_iter()
        .filter_map(|(from, k)| Some((from, pool.pieces.get(k)?)))
    {
        let (from, secs, places) = (i64::from(from), i64::from(p.secs), i64::from(p.places));
        let before = queued.iter_mut().find(|q| {
            let tight = q.moments.last().is_some_and(|&last| {
                network.gap(last, p.moment) + network.gap(p.moment, last) == 0
            });
            tight && q.from + q.secs == from && q.places == places
        });
        match before {
            Some(q) => {
                for &last in q.moments.last().iter().filter(|m| ***m != p.moment) {
                    because.extend([(*last, p.moment), (p.moment, *last)]);
                }
                q.moments.push(p.moment);
                q.secs += secs;
            }
            None => queued.push(Queued {
                moments: vec![p.moment],
                from,
                secs,
                places,
                weight: 0,
            }),
        }
    }
    queued
}

/// At most the least sum of weight times start, when work goes at the pace of all places and none begins before its
/// time. The starts are noted, doubled.
fn weighted_starts(mut queued: Vec<Queued>, all: i64, starts: &mut Vec<(usize, i64)>) -> i64 {
    // The most weight for its work first.
    queued.sort_by(|a, b| {
        let (left, right) = (a.weight * b.secs * b.places, b.weight * a.secs * a.places);
        right.cmp(&left).then(a.from.cmp(&b.from))
    });
    // Time in parts of a second, one for each place: stretches of work, by their begin.
    let mut busy: Vec<(i64, i64)> = Vec::new();
    let mut sum = 0;
    for q in &queued {
        let work = q.secs * q.places;
        let done = fill(&mut busy, q.from * all, work);
        // Twice the middle less the length, in parts of a second, and so many times over.
        let (start, times) = match done.as_slice() {
            &[(from, to)] => (i128::from(from + to - q.secs * all), 1),
            broken => {
                let middles = (broken.iter()).map(|(a, b)| i128::from(b - a) * i128::from(a + b));
                let length = i128::from(work) * i128::from(q.secs * all);
                (middles.sum::<i128>() - length, i128::from(work))
            }
        };
        let by = times * i128::from(all);
        starts.extend(q.moments.iter().map(|&m| (m, quotient(start, by))));
        sum += quotient(i128::from(q.weight) * start, 2 * by);
    }
    sum
}

/// Does some work in the first free time there is, and notes it. Returns its stretches.
fn fill(busy: &mut Vec<(i64, i64)>, from: i64, work: i64) -> Vec<(i64, i64)> {
    let (mut at, mut left, mut done) = (from, work, Vec::new());
    let mut k = busy.partition_point(|&(_, to)| to <= at);
    while left > 0 {
        let next = busy.get(k).copied();
        if let Some((_, to)) = next.filter(|&(from, _)| from <= at) {
            at = to;
        } else {
            let room = next.map_or(left, |(from, _)| (from - at).min(left));
            done.push((at, at + room));
            busy.insert(k, (at, at + room));
            at += room;
            left -= room;
        }
        k += 1;
    }
    done
}

/// Rounded down. Almost always of small numbers, for which there is no need of slow division.
fn quotient(of: i128, by: i128) -> i64 {
    match (i64::try_from(of), i64::try_from(by)) {
        (Ok(of), Ok(by)) => of.div_euclid(by.max(1)),
        _ => i64::try_from(of.div_euclid(by.max(1))).unwrap_or(0),
    }
}
