#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::indexing_slicing,
    clippy::panic,
    missing_docs
)]
//! The plan against an independent solver: OR-Tools CP-SAT (PyPI `ortools`), a constraint solver by learning, given
//! the same kitchens forwards in time. `vectors/plan_instances.py` draws 200 random kitchens and
//! `vectors/plan_published.py` converts two published scheduling instances; both commit the proven optima. So does
//! `vectors/plan_alike.py`, for kitchens of steps that hardly differ.

#[path = "vectors/plan_instances.rs"]
mod plan_instances;
mod plan_rules;

use plan_instances::{Case, cases};
use plan_rules::broken_rules;
use scaleside::service::plan::{NoPlan, Proof, draw_up};

/// More choices than any of these kitchens takes.
const LIMIT: u64 = 20_000;

/// What differs from the proven optimum, in words.
fn difference(case: &Case) -> Option<String> {
    let told = match (draw_up(&case.kitchen, LIMIT), case.optimum) {
        (Ok(plan), Some(optimum)) => {
            let broken = broken_rules(&case.kitchen, &plan);
            if plan.proof != Proof::Optimal {
                format!("is not proven: {:?}", plan.proof)
            } else if (plan.holding, plan.lead) != optimum {
                format!("comes to {:?}, not {optimum:?}", (plan.holding, plan.lead))
            } else if broken.is_empty() {
                return None;
            } else {
                broken.join(", ")
            }
        }
        (Err(NoPlan::Quarrel(quarrel)), None) => {
            let ways = quarrel.ways_out.iter().filter(|_| !quarrel.more);
            let mut no_way =
                ways.filter(|way| draw_up(&way.applied(&case.kitchen), LIMIT).is_err());
            if quarrel.links.is_empty() {
                "has a quarrel about nothing".to_owned()
            } else if let Some(way) = no_way.next() {
                format!("has a way out that leads nowhere: {way:?}")
            } else {
                return None;
            }
        }
        (other, optimum) => format!("gives {other:?}, not {optimum:?}"),
    };
    Some(format!("kitchen {}: {told}", case.name))
}

fn check(json: &str, kitchens: usize, unfit: usize) {
    let cases = cases(json);
    assert_eq!(cases.len(), kitchens);
    assert_eq!(cases.iter().filter(|c| c.optimum.is_none()).count(), unfit);
    let differences: Vec<String> = cases.iter().filter_map(difference).collect();
    assert!(differences.is_empty(), "{}", differences.join("\n"));
}

#[test]
fn every_random_kitchen_has_the_value_an_independent_solver_proved() {
    check(include_str!("vectors/plan_instances.json"), 200, 34);
}

/// `j301_1` has 43 as its published optimum too (from memory, not verified).
#[test]
fn published_scheduling_instances_have_their_proven_values() {
    check(include_str!("vectors/plan_published.json"), 2, 1);
}

#[test]
fn kitchens_of_nearly_equal_steps_have_the_value_an_independent_solver_proved() {
    check(include_str!("vectors/plan_alike.json"), 16, 0);
}

/// Ovens with temperatures: `vectors/plan_ovens.py` tells CP-SAT two by two which steps are never in the oven together,
/// and how long it takes in between.
#[test]
fn ovens_at_several_temperatures_have_the_value_an_independent_solver_proved() {
    let json = include_str!("vectors/plan_ovens.json");
    let unfit = cases(json).iter().filter(|c| c.optimum.is_none()).count();
    assert!((50..250).contains(&unfit), "{unfit}");
    check(json, 300, unfit);
}
