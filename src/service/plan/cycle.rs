//! Gaps that contradict each other whatever the order at the stations: a circle of them that adds up to more
//! than nothing.

use std::collections::BTreeMap;

use super::backward::{Arc, Bound};

/// The bounds along one circle of gaps with a sum above zero, if there is one: the longest-path method of Bellman
/// and Ford, which would go on for ever round such a circle.
pub(super) fn contradiction(arcs: &[Arc]) -> Option<Vec<Bound>> {
    let moments = arcs.iter().map(|a| a.from.max(a.to) + 1).max().unwrap_or(0);
    let mut at: BTreeMap<usize, i64> = BTreeMap::new();
    let mut last: BTreeMap<usize, Arc> = BTreeMap::new();
    let mut moved = None;
    for _ in 0..=moments {
        moved = None;
        for arc in arcs {
            let reached = at.get(&arc.from).copied().unwrap_or(0) + i64::from(arc.gap);
            if at.get(&arc.to).copied().unwrap_or(0) < reached {
                at.insert(arc.to, reached);
                last.insert(arc.to, *arc);
                moved = Some(arc.to);
            }
        }
        moved?;
    }
    // Far enough back along the chain, one is on the circle.
    let mut on_circle = moved?;
    for _ in 0..moments {
        on_circle = last.get(&on_circle)?.from;
    }
    let mut bounds = Vec::new();
    let mut here = on_circle;
    loop {
        let arc = last.get(&here)?;
        bounds.extend(arc.cause);
        here = arc.from;
        if here == on_circle {
            break;
        }
    }
    bounds.sort_unstable();
    bounds.dedup();
    Some(bounds)
}
