//! What the search leans on, put to the proof on kitchens drawn at random, whose steps are much alike.

use proptest::prelude::*;

use super::backward::Backward;
use super::check::Checked;
use super::first::first;
use super::network::Reasons;
use super::outcome::Proof;
use super::queue::{least_holding, queue};
use super::solve::{Solved, as_stated, solve};
use super::*;

/// More choices than any of these kitchens takes.
const LIMIT: u64 = 200_000;

/// Few lengths, weights and links, so that many steps can take each other's place.
fn task(id: usize) -> impl Strategy<Value = Task> {
    let secs = prop::sample::select(vec![4_i64, 4, 4, 7]);
    let needs = prop::option::of(Just(Need {
        station: "pan".to_owned(),
        places: 1,
    }));
    (secs, 0..=2_i64, 0..=1_i64, 0..=2_u32, needs).prop_map(
        move |(secs, first, last, held, needs)| Task {
            id: id.to_string(),
            name: format!("step {id}"),
            secs,
            hands_first: first * secs / 2,
            hands_last: last.min(2 - first) * secs / 2,
            needs: needs.into_iter().collect(),
            held,
        },
    )
}

fn kitchen() -> impl Strategy<Value = Kitchen> {
    let link = (
        0..7_usize,
        1..7_usize,
        0..9_i64,
        prop::option::of(0..30_i64),
        any::<bool>(),
    );
    let links = prop::collection::vec(link, 0..4);
    let tasks: Vec<_> = (0..7).map(task).collect();
    // Made ready or not: what takes a place before it begins is no other step than one that is longer there.
    let bench = (1..=2_u32, 1..=2_u32, prop::sample::select(vec![0, 0, 3]));
    (tasks, links, bench).prop_map(|(mut tasks, links, (cooks, places, ready))| {
        if let Some(plating) = tasks.last_mut() {
            (plating.held, plating.needs) = (0, Vec::new());
        }
        Kitchen {
            cooks,
            stations: vec![PlanStation {
                id: "pan".to_owned(),
                name: "pan".to_owned(),
                places,
                ready,
            }],
            tasks,
            links: (links.into_iter())
                .map(|(from, on, least, slack, to_plating)| {
                    let to = if to_plating { 6 } else { (from + on).min(6) };
                    PlanLink {
                        least,
                        greatest: slack.map(|slack| least + slack),
                        ..PlanLink::after(&from.to_string(), &to.to_string())
                    }
                })
                .filter(|link| link.from != link.to)
                .collect(),
            plating: "6".to_owned(),
        }
    })
}

/// The value of what was found, proven; none where nothing fits.
fn value(solved: Solved) -> Option<(i64, i64)> {
    match solved {
        Solved::Schedule {
            schedule,
            proof: Proof::Optimal,
            ..
        } => Some((schedule.holding, schedule.lead)),
        Solved::NothingFits => None,
        other => panic!("not proven: {other:?}"),
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(3000))]

    /// One order for steps that can take each other's place loses nothing; no bound is above the best; and what is
    /// put together first is never better than the best.
    #[test]
    fn no_shortcut_loses_the_best(kitchen in kitchen()) {
        let checked = Checked::new(&kitchen).unwrap();
        let problem = Backward::new(&checked, None).unwrap();
        let best = value(as_stated(&problem, LIMIT));
        prop_assert_eq!(value(solve(&problem, LIMIT)), best);
        let Some(best) = best else {
            prop_assert!(first(&problem).is_none());
            return Ok(());
        };
        let network = problem.network(&mut Reasons::default()).unwrap();
        prop_assert!(least_holding(&problem, &network).holding <= best.0);
        for pool in &problem.pools {
            prop_assert!(queue(&problem, pool, &network).holding <= best.0);
        }
        if let Some(first) = first(&problem) {
            prop_assert!((first.holding, first.lead) >= best);
        }
    }
}

/// The rule is at work: of forty equal steps each but the last has its order to the next, and nothing is chosen.
#[test]
fn forty_equal_steps_need_no_choice() {
    let mut tasks: Vec<Task> = (0..40)
        .map(|id| Task {
            id: id.to_string(),
            name: format!("step {id}"),
            secs: 60,
            hands_first: 60,
            hands_last: 0,
            needs: Vec::new(),
            held: 1,
        })
        .collect();
    tasks[39].held = 0;
    let kitchen = Kitchen {
        cooks: 1,
        stations: Vec::new(),
        tasks,
        links: Vec::new(),
        plating: "39".to_owned(),
    };
    let checked = Checked::new(&kitchen).unwrap();
    let problem = Backward::new(&checked, None).unwrap();
    let ordered = super::alike::in_one_order(&problem);
    assert_eq!(ordered.arcs.len() - problem.arcs.len(), 38);
    let plan = draw_up(&kitchen, 0).unwrap();
    // Smith's rule: any order; the sum of 0, 60, 120 and so on.
    assert_eq!(
        (plan.proof, plan.holding, plan.lead, plan.nodes),
        (Proof::Optimal, 60 * 39 * 38 / 2, 60 * 39, 0)
    );
}
