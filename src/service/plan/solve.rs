//! The least holding, then the least lead, with the proof.

use super::alike::in_one_order;
use super::backward::Backward;
use super::first::first;
use super::outcome::Proof;
use super::search::{Goal, Schedule, Search};

/// What came of a search.
#[derive(Clone, Debug)]
pub(super) enum Solved {
    Schedule {
        schedule: Schedule,
        proof: Proof,
        nodes: u64,
    },
    NothingFits,
    Undecided {
        nodes: u64,
    },
}

/// No limit on holding: far more than any schedule can come to.
const ANY_HOLDING: i64 = i64::MAX / 4;

/// The best schedule in at most `limit` choices.
pub(super) fn solve(problem: &Backward, limit: u64) -> Solved {
    as_stated(&in_one_order(problem), limit)
}

/// The same without an order for steps that can take each other's place.
pub(super) fn as_stated(problem: &Backward, limit: u64) -> Solved {
    let Some(mut first) = Search::new(problem, Goal::Holding, first(problem)) else {
        return Solved::NothingFits;
    };
    let proven = first.run(limit);
    let nodes = first.nodes;
    let Some(held) = first.best else {
        return if proven {
            Solved::NothingFits
        } else {
            Solved::Undecided { nodes }
        };
    };
    if !proven {
        let proof = Proof::Best {
            holding_gap: gap(problem, Goal::Holding, held.holding),
            lead_gap: gap(
                problem,
                Goal::Lead {
                    holding: ANY_HOLDING,
                },
                held.lead,
            ),
        };
        let schedule = held;
        return Solved::Schedule {
            schedule,
            proof,
            nodes,
        };
    }
    let goal = Goal::Lead {
        holding: held.holding,
    };
    let Some(mut second) = Search::new(problem, goal, Some(held)) else {
        return Solved::NothingFits;
    };
    let proven = second.run(limit.saturating_sub(nodes));
    let nodes = nodes + second.nodes;
    let Some(schedule) = second.best else {
        return Solved::NothingFits;
    };
    let proof = if proven {
        Proof::Optimal
    } else {
        Proof::Best {
            holding_gap: 0,
            lead_gap: gap(problem, goal, schedule.lead),
        }
    };
    Solved::Schedule {
        schedule,
        proof,
        nodes,
    }
}

/// Whether anything fits.
pub(super) enum Fit {
    /// For instance this.
    Yes(Schedule),
    No,
    /// The limit was too low to tell.
    Unknown,
}

/// Whether anything fits, in at most `limit` choices.
pub(super) fn fit(problem: &Backward, limit: u64) -> Fit {
    let problem = &in_one_order(problem);
    let Some(mut search) = Search::new(problem, Goal::Fit, None) else {
        return Fit::No;
    };
    let proven = search.run(limit);
    match search.best {
        Some(schedule) => Fit::Yes(schedule),
        None if proven => Fit::No,
        None => Fit::Unknown,
    }
}

/// How far a value may be above the least, as far as can be told with no choice made and in a few steps.
fn gap(problem: &Backward, goal: Goal, value: i64) -> i64 {
    let least_told = Search::new(problem, goal, None).map_or(0, |search| search.floor());
    let (mut least, mut most) = (least_told, value);
    while most - least > (value - least_told) / CLOSENESS {
        let middle = least + (most - least) / 2;
        if Search::rules_out(problem, goal, middle) {
            least = middle + 1;
        } else {
            most = middle;
        }
    }
    value - least
}

/// A gap is told to this part of what it could be at most.
const CLOSENESS: i64 = 128;
