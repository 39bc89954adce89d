//! When nothing fits: which links can't all be kept, in words, and the nearest ways out.

use std::collections::BTreeSet;

use super::backward::{Arc, Backward, Bound};
use super::check::Checked;
use super::cycle::contradiction;
use super::kitchen::Kitchen;
use super::solve::{Fit, fit};
use super::words::demand;
use crate::base::stretch::stretch;
use crate::service::dish::laid_out::MOST_COOKS;

/// Links that can't all be kept.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Quarrel {
    /// Their positions in the kitchen: without any one of them, this quarrel would be over.
    pub links: Vec<usize>,
    /// The quarrel in one sentence.
    pub sentence: String,
    /// Up to two nearest ways out, each enough by itself for this quarrel.
    pub ways_out: Vec<WayOut>,
    /// Whether something else does not fit either, so that a way out leads to another quarrel.
    pub more: bool,
}

/// One change after which the quarrel is over.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum WayOut {
    /// Let a link's greatest gap be longer.
    Longer {
        /// The link's position.
        link: usize,
        /// By so many seconds.
        by: i64,
    },
    /// Let a link's least gap be shorter.
    Shorter {
        /// The link's position.
        link: usize,
        /// By so many seconds.
        by: i64,
    },
    /// One more place at a station.
    Place {
        /// The station's position.
        station: usize,
    },
    /// One more cook.
    Cook,
}

impl WayOut {
    /// The kitchen with this change made.
    #[must_use]
    pub fn applied(&self, kitchen: &Kitchen) -> Kitchen {
        let mut changed = kitchen.clone();
        match *self {
            Self::Longer { link, by } => {
                if let Some(greatest) = changed
                    .links
                    .get_mut(link)
                    .and_then(|l| l.greatest.as_mut())
                {
                    *greatest = greatest.saturating_add(by);
                }
            }
            Self::Shorter { link, by } => {
                if let Some(link) = changed.links.get_mut(link) {
                    link.least = link.least.saturating_sub(by);
                }
            }
            Self::Place { station } => {
                if let Some(station) = changed.stations.get_mut(station) {
                    station.places = station.places.saturating_add(1);
                }
            }
            Self::Cook => changed.cooks = changed.cooks.saturating_add(1),
        }
        changed
    }

    /// The change in a cook's words.
    fn sentence(&self, checked: &Checked) -> String {
        match *self {
            Self::Longer { link, by } | Self::Shorter { link, by } => {
                let ends = checked.ends.get(link).copied().unwrap_or_default();
                let (from, to) = (checked.name(ends.0), checked.name(ends.1));
                let change = if matches!(self, Self::Longer { .. }) {
                    "longer"
                } else {
                    "shorter"
                };
                format!(
                    "Let the gap from “{from}” to “{to}” be {} {change}.",
                    stretch(by)
                )
            }
            Self::Place { station } => {
                let name = checked
                    .kitchen
                    .stations
                    .get(station)
                    .map_or("", |s| s.name.as_str());
                format!("Find one more place at the {name}.")
            }
            Self::Cook => "Work with one more cook.".to_owned(),
        }
    }

    /// The change in a cook's words, for a kitchen it was found for; empty when its names are gone.
    #[must_use]
    pub fn say(&self, kitchen: &Kitchen) -> String {
        Checked::new(kitchen).map_or_else(|_| String::new(), |checked| self.sentence(&checked))
    }
}

/// Finds a quarrel in a kitchen in which nothing fits. Each question put to the search takes at most `limit`
/// choices; what it can't answer is taken for the worse, so the quarrel may then be wider than it need be.
pub(super) fn find(checked: &Checked, problem: &Backward, limit: u64) -> Quarrel {
    let no_fit = |p: &Backward| matches!(fit(p, limit), Fit::No);
    let bounds = match contradiction(&problem.arcs) {
        Some(bounds) => bounds,
        None => narrow_down(problem, &no_fit),
    };
    let own = problem.with_only_greatest(&bounds);
    let (mut ways, mut more) = (ways_out(checked, problem, &bounds, limit), false);
    if ways.is_empty() {
        more = true;
        ways = ways_out(checked, &own, &bounds, limit);
    }
    let scarce = scarce(checked, &own, &no_fit);
    let sentence = sentence(checked, &bounds, &ways, &scarce, more);
    let mut links: Vec<usize> = bounds.iter().map(|b| b.link).collect();
    links.dedup();
    ways.truncate(2);
    Quarrel {
        links,
        sentence,
        ways_out: ways,
        more,
    }
}

/// The greatest gaps of a quarrel that is about places or hands: leaves out each bound that is not needed for it.
/// Where greatest gaps are not to blame, the least ones are.
fn narrow_down(problem: &Backward, no_fit: &dyn Fn(&Backward) -> bool) -> Vec<Bound> {
    let all = |greatest: bool| -> Vec<Bound> {
        let bounds: BTreeSet<Bound> = problem.arcs.iter().filter_map(|a| a.cause).collect();
        bounds
            .into_iter()
            .filter(|b| b.greatest == greatest)
            .collect()
    };
    let bare = problem.with_only_greatest(&[]);
    let mut kept: BTreeSet<Bound>;
    let (base, candidates) = if no_fit(&bare) {
        (bare, all(false))
    } else {
        (problem.clone(), all(true))
    };
    kept = candidates.iter().copied().collect();
    for bound in candidates {
        kept.remove(&bound);
        let fewer = base.filtered(|b| b.greatest != bound.greatest || kept.contains(&b));
        if !no_fit(&fewer) {
            kept.insert(bound);
        }
    }
    kept.into_iter().collect()
}

/// All ways out, the two nearest first: the gap that need stretch least, then a place or a cook, then other gaps.
/// A gap with no play is meant so (the fish goes from the pan to its rest at once), and comes last.
fn ways_out(checked: &Checked, problem: &Backward, bounds: &[Bound], limit: u64) -> Vec<WayOut> {
    let any_greatest = bounds.iter().any(|b| b.greatest);
    let no_play = |link: usize| {
        let link = checked.kitchen.links.get(link);
        link.is_some_and(|l| l.greatest == Some(l.least))
    };
    let mut gaps: Vec<(bool, i64, Bound)> = (bounds.iter())
        .filter(|b| b.greatest || !any_greatest)
        .filter_map(|&b| Some((no_play(b.link), stretch_needed(problem, b, limit)?, b)))
        .collect();
    gaps.sort_unstable();
    let mut gaps = gaps.into_iter().map(|(_, by, Bound { link, greatest })| {
        if greatest {
            WayOut::Longer { link, by }
        } else {
            WayOut::Shorter { link, by }
        }
    });
    let mut ways: Vec<WayOut> = gaps.next().into_iter().collect();
    for (k, pool) in problem.pools.iter().enumerate() {
        if matches!(fit(&problem.with_more_places(k, 1), limit), Fit::Yes(_)) {
            match pool.station {
                Some(station) => ways.push(WayOut::Place { station }),
                None if checked.kitchen.cooks < MOST_COOKS => ways.push(WayOut::Cook),
                None => {}
            }
        }
    }
    ways.extend(gaps);
    ways
}

/// The fewest seconds by which a bound must give way for everything to fit; none when that is not enough.
fn stretch_needed(problem: &Backward, bound: Bound, limit: u64) -> Option<i64> {
    let &Arc { from, to, gap, .. } = problem.arcs.iter().find(|a| a.cause == Some(bound))?;
    let try_with = |p: &Backward| {
        let Fit::Yes(schedule) = fit(p, limit) else {
            return None;
        };
        let at = |moment: usize| schedule.moments.get(moment).copied();
        Some(i64::from(gap) - i64::from(at(to)? - at(from)?))
    };
    let mut enough = try_with(&problem.filtered(|b| b != bound))?;
    let mut too_little = 0;
    while too_little + 1 < enough {
        let middle = too_little + (enough - too_little) / 2;
        match try_with(&problem.loosened(bound, middle)) {
            Some(used) => enough = used.clamp(too_little + 1, middle),
            None => too_little = middle,
        }
    }
    Some(enough)
}

/// The pools without whose limits the quarrel would be over, in words.
fn scarce(checked: &Checked, own: &Backward, no_fit: &dyn Fn(&Backward) -> bool) -> Vec<String> {
    let mut found = Vec::new();
    for (k, pool) in own.pools.iter().enumerate() {
        if no_fit(&own.with_more_places(k, i32::MAX / 2)) {
            continue;
        }
        let count = if pool.places == 1 {
            "one".to_owned()
        } else {
            pool.places.to_string()
        };
        let many = if pool.places == 1 { "" } else { "s" };
        found.push(
            match pool.station.and_then(|s| checked.kitchen.stations.get(s)) {
                Some(station) => format!("{count} place{many} at the {}", station.name),
                None => format!("{count} cook{many}"),
            },
        );
    }
    found
}

fn sentence(
    checked: &Checked,
    bounds: &[Bound],
    ways: &[WayOut],
    scarce: &[String],
    more: bool,
) -> String {
    let with = if scarce.is_empty() {
        String::new()
    } else {
        format!("with {} ", scarce.join(" and "))
    };
    let nearest = match ways.first() {
        Some(&WayOut::Longer { link, by }) => {
            let greatest = checked
                .kitchen
                .links
                .get(link)
                .and_then(|l| l.greatest)
                .unwrap_or(0);
            Some((
                Bound {
                    link,
                    greatest: true,
                },
                greatest + by,
                by,
            ))
        }
        _ => None,
    };
    // A gap with no play is how the dish is cooked, and no news; unless there is nothing else to say.
    let no_play = |b: &Bound| {
        let link = checked.kitchen.links.get(b.link);
        link.is_some_and(|l| l.greatest == Some(l.least))
    };
    let all_no_play = bounds.iter().all(no_play);
    let others = bounds
        .iter()
        .filter(|b| nearest.is_none_or(|n| n.0 != **b) && (all_no_play || !no_play(b)));
    let others: Vec<String> = others
        .map(|b| demand(checked, b.link, b.greatest))
        .collect();
    let mut said = match nearest {
        Some((bound, needed, _)) if needed > 0 => {
            let asked = demand(checked, bound.link, true);
            format!("{asked}, but {with}it takes at least {}", stretch(needed))
        }
        Some((bound, _, by)) => {
            let asked = demand(checked, bound.link, true);
            format!("{asked}, but {with}that is {} too early", stretch(by))
        }
        None if others.len() == 1 => format!("This can't be kept {with}").trim_end().to_owned(),
        None => format!("These can't all be kept {with}")
            .trim_end()
            .to_owned(),
    };
    if !others.is_empty() {
        said.push_str(": ");
        said.push_str(&others.join("; "));
    }
    said.push('.');
    if more {
        said.push_str(" Something else does not fit either.");
    }
    said
}
