//! A first schedule, put together step by step: each as near to plating as it fits beside those already there.
//!
//! What hangs together by exact gaps goes in together. A good first schedule is worth many choices: where its holding
//! is the least that the queues allow, nothing is left to search.

use super::backward::{Backward, OUTSET, PLATING, Piece};
use super::network::{Network, Reasons};
use super::queue::{least_holding, queue};
use super::search::Schedule;

/// A schedule that keeps everything; none where each rule for what goes in next runs into a dead end.
pub(super) fn first(problem: &Backward) -> Option<Schedule> {
    let network = problem.network(&mut Reasons::default())?;
    let least = least_holding(problem, &network).holding;
    let mut best: Option<Schedule> = None;
    for rule in [by_turn, by_queue, by_haste] {
        let found = put_together(problem, network.clone(), rule);
        best = (best.into_iter().chain(found)).min_by_key(|s| (s.holding, s.lead));
        if best.as_ref().is_some_and(|best| best.holding <= least) {
            break;
        }
    }
    best
}

/// What goes in next: the step with the least figure.
type Rule = fn(&Backward, &Network) -> Vec<i64>;

/// The steps in the order of the queues they stand in.
fn by_queue(problem: &Backward, network: &Network) -> Vec<i64> {
    let mut rank: Vec<i64> = (0..problem.moments)
        .map(|m| 2 * i64::from(network.soonest(m)))
        .collect();
    for pool in &problem.pools {
        for (moment, twice) in queue(problem, pool, network).starts {
            if let Some(rank) = rank.get_mut(moment) {
                *rank = (*rank).max(twice);
            }
        }
    }
    rank
}

/// What can go in next to plating first, and of those by their queues.
fn by_turn(problem: &Backward, network: &Network) -> Vec<i64> {
    let mut ready: Vec<i64> = (0..problem.moments)
        .map(|m| i64::from(network.soonest(m)))
        .collect();
    for pool in problem.pools.iter().filter(|p| p.places == 1) {
        let end = |p: &Piece| network.soonest(p.moment) + p.offset + p.secs;
        let last = pool
            .pieces
            .iter()
            .filter(|p| is_set(network, p.moment))
            .map(end)
            .max()
            .unwrap_or(0);
        for p in pool.pieces.iter() {
            if let Some(ready) = ready.get_mut(p.moment) {
                *ready = (*ready).max(i64::from(last - p.offset));
            }
        }
    }
    ready
        .iter()
        .zip(by_queue(problem, network))
        .map(|(ready, rank)| ready * 1_000_000 + rank)
        .collect()
}

/// The steps that can wait the least first.
fn by_haste(problem: &Backward, network: &Network) -> Vec<i64> {
    (0..problem.moments)
        .map(|m| i64::from(network.latest(m)))
        .collect()
}

fn put_together(problem: &Backward, mut network: Network, rule: Rule) -> Option<Schedule> {
    let pieces = || problem.pools.iter().flat_map(|pool| &pool.pieces);
    let mut left: Vec<usize> = (OUTSET + 1..problem.moments)
        .filter(|&m| pieces().any(|p| p.moment == m))
        .collect();
    // What has started says where now is, so it goes in last.
    let started: Vec<bool> = (0..problem.moments)
        .map(|m| pieces().any(|p| p.moment == m && p.fixed))
        .collect();
    // What can lie nowhere else from the start is put nowhere, so it is looked at here.
    let set = |p: &Piece| is_set(&network, p.moment).then(|| network.soonest(p.moment) + p.offset);
    if short_by(problem, &set, &|p| set(p).filter(|_| p.fixed)).is_some() {
        return None;
    }
    loop {
        left.retain(|&m| !is_set(&network, m));
        let rank = rule(problem, &network);
        // Never before what must lie nearer to plating.
        let free = |m: usize| {
            (left.iter()).all(|&x| x == m || network.gap(x, m) < 0 || network.gap(m, x) >= 0)
        };
        let next = (left.iter().copied().filter(|&m| free(m)))
            .min_by_key(|&m| (started.get(m), rank.get(m), network.soonest(m), m));
        let Some(next) = next else { break };
        network = put(problem, &network, next)?;
    }
    Some(Schedule::soonest(problem, &network))
}

fn is_set(network: &Network, moment: usize) -> bool {
    network.soonest(moment) == network.latest(moment)
}

/// The network with one step as near to plating as it fits.
fn put(problem: &Backward, before: &Network, moment: usize) -> Option<Network> {
    let placed = |p: &Piece| is_set(before, p.moment).then(|| before.soonest(p.moment) + p.offset);
    let mut at = before.soonest(moment);
    let mut tries = 0;
    while at <= before.latest(moment) && tries < problem.moments {
        let alone = |p: &Piece| match p.moment == moment {
            true => Some(at + p.offset),
            false => placed(p),
        };
        if let Some(secs) = short_by(problem, &alone, &placed) {
            at += secs;
            continue;
        }
        // What hangs on it comes with it.
        tries += 1;
        let mut network = before.clone();
        let mut reasons = Reasons::default();
        network.keep(PLATING, moment, at, Vec::new(), &mut reasons);
        network.keep(moment, PLATING, -at, Vec::new(), &mut reasons);
        let with_it =
            |p: &Piece| is_set(&network, p.moment).then(|| network.soonest(p.moment) + p.offset);
        match short_by(problem, &with_it, &placed) {
            None => return Some(network),
            Some(secs) => at += secs,
        }
    }
    None
}

/// When a piece begins; nothing for one that is not there.
type Begin<'a> = &'a dyn Fn(&Piece) -> Option<i32>;

/// How much further the new pieces must go at the least, where a pool is overfull.
fn short_by(problem: &Backward, begin: Begin, placed: Begin) -> Option<i32> {
    for pool in &problem.pools {
        let there: Vec<(i32, &Piece)> = (pool.pieces.iter())
            .filter_map(|p| Some((begin(p)?, p)))
            .collect();
        for &(at, _) in &there {
            let on = there
                .iter()
                .filter(|&&(from, p)| from <= at && at < from + p.secs);
            let taken = on.clone().map(|(_, p)| i64::from(p.places)).sum::<i64>();
            if taken <= i64::from(pool.places) || on.clone().all(|(_, p)| placed(p).is_some()) {
                continue;
            }
            let (old, new): (Vec<_>, Vec<_>) = on.partition(|(_, p)| placed(p).is_some());
            let until = old
                .iter()
                .map(|(from, p)| from + p.secs)
                .min()
                .unwrap_or(at);
            let from = new.iter().map(|(from, _)| *from).max().unwrap_or(at);
            return Some((until - from).max(1));
        }
    }
    None
}
