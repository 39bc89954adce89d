//! What must come after, or before, a whole set of pieces, and when a set is too much for its stretch of time.

use std::collections::BTreeSet;

use super::backward::Pool;
use super::network::Network;

/// One piece and the stretch of time it must lie in.
#[derive(Clone, Copy, Debug)]
struct Window {
    moment: usize,
    offset: i32,
    secs: i32,
    places: i32,
    from: i32,
    to: i32,
}

/// A gap from or to plating that a set of windows forces on a piece.
#[derive(Clone, Debug)]
pub(super) struct Push {
    pub(super) moment: usize,
    /// At least so far from plating; or else at most.
    pub(super) at_least: bool,
    pub(super) gap: i32,
    /// The moments whose windows force it.
    pub(super) because: Vec<usize>,
}

/// A set of moments whose pieces don't fit in their windows.
pub(super) struct Overfull(pub(super) Vec<usize>);

/// Edge finding on a pool of one place: pieces that can only come after, or only before, all of some set.
///
/// The algorithm is that of Baptiste, Le Pape and Nuijten, 'Constraint-Based Scheduling' (2001), for one machine,
/// run forwards and then on mirrored time (from memory, not verified).
pub(super) fn pushes(pool: &Pool, network: &Network) -> Result<Vec<Push>, Overfull> {
    let mut found = Vec::new();
    for mirrored in [false, true] {
        found.extend(edges(&windows(pool, network, mirrored), mirrored)?);
    }
    Ok(found)
}

/// Whether the work that must lie within some stretch of time is more than the pool can do in it.
pub(super) fn check_load(pool: &Pool, network: &Network) -> Result<(), Overfull> {
    let mut windows = windows(pool, network, false);
    windows.sort_unstable_by_key(|w| w.to);
    for from in windows.iter().map(|w| w.from) {
        let mut work = 0;
        for (k, w) in windows.iter().enumerate().filter(|(_, w)| w.from >= from) {
            work += i64::from(w.secs) * i64::from(w.places);
            if work > i64::from(w.to - from) * i64::from(pool.places) {
                let inside = windows.iter().take(k + 1).filter(|w| w.from >= from);
                return Err(Overfull(inside.map(|w| w.moment).collect()));
            }
        }
    }
    Ok(())
}

/// In the order of their begin.
fn windows(pool: &Pool, network: &Network, mirrored: bool) -> Vec<Window> {
    let mut found: Vec<Window> = (pool.pieces.iter().filter(|p| !p.fixed))
        .map(|p| {
            let from = network.soonest(p.moment) + p.offset;
            let to = network.latest(p.moment) + p.offset + p.secs;
            Window {
                moment: p.moment,
                offset: p.offset,
                secs: p.secs,
                places: p.places,
                from: if mirrored { -to } else { from },
                to: if mirrored { -from } else { to },
            }
        })
        .collect();
    found.sort_unstable_by_key(|w| w.from);
    found
}

fn edges(windows: &[Window], mirrored: bool) -> Result<Vec<Push>, Overfull> {
    let mut found = Vec::new();
    // For each window: when the inside windows after it are done at the soonest, and the first that matters.
    let mut done_after = vec![(0, 0); windows.len()];
    let longest = windows.iter().map(|w| w.secs).max().unwrap_or(0);
    let all_work: i32 = windows.iter().map(|w| w.secs).sum();
    let loose = windows.last().map_or(0, |w| w.from) + all_work + longest;
    // A deadline that leaves room for everything pushes nothing.
    let deadlines: BTreeSet<i32> = (windows.iter().map(|w| w.to))
        .filter(|&to| to < loose)
        .collect();
    for deadline in deadlines {
        let inside = |w: &Window| w.to <= deadline;
        let set = |first: usize| -> Vec<usize> {
            let from_first = windows.iter().skip(first).filter(|w| inside(w));
            from_first.map(|w| w.moment).collect()
        };
        let (mut work, mut done) = (0, (i32::MIN, 0));
        for (k, (w, after)) in windows.iter().zip(&mut done_after).enumerate().rev() {
            *after = done;
            if inside(w) {
                work += w.secs;
                done = done.max((w.from + work, k));
                if done.0 > deadline {
                    return Err(Overfull(set(k)));
                }
            }
        }
        if done.0 <= deadline - longest {
            continue;
        }
        let mut soonest_done = (i32::MIN / 2, 0);
        for (k, (w, after)) in windows.iter().zip(&done_after).enumerate() {
            if inside(w) {
                soonest_done = soonest_done.max((w.from + work, k));
                work -= w.secs;
                continue;
            }
            let (begin, first) = if soonest_done.0 + w.secs > deadline {
                (done.0, soonest_done.1.min(done.1))
            } else if w.from + work + w.secs > deadline {
                (after.0, k + 1)
            } else {
                continue;
            };
            if begin > w.from {
                let mut because = set(first);
                because.push(w.moment);
                found.push(Push {
                    moment: w.moment,
                    at_least: !mirrored,
                    gap: if mirrored {
                        begin + w.offset + w.secs
                    } else {
                        begin - w.offset
                    },
                    because,
                });
            }
        }
    }
    Ok(found)
}
