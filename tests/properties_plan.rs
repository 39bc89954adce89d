#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::indexing_slicing,
    clippy::panic,
    missing_docs
)]
//! What holds of every plan, for kitchens drawn at random: sensible ones, and ones that make no sense.

mod plan_rules;

use plan_rules::broken_rules;
use proptest::prelude::*;
use scaleside::service::plan::{
    Edge, Kitchen, Need, NoPlan, Plan, PlanLink, PlanStation, Progress, Proof, Slot, Started, Task,
    draw_up, lanes, replan,
};

const LIMIT: u64 = 3_000;

fn edge() -> impl Strategy<Value = Edge> {
    prop_oneof![Just(Edge::Start), Just(Edge::End)]
}

fn task(id: usize, stations: u32) -> impl Strategy<Value = Task> {
    let needs = prop::collection::vec((0..stations, 1..=2_u32), 0..2);
    (0..200_i64, 0..=2_i64, 0..=2_i64, 0..3_u32, needs).prop_map(
        move |(secs, first, last, held, needs)| Task {
            id: id.to_string(),
            name: format!("step {id}"),
            secs,
            hands_first: secs * first / 4,
            hands_last: secs * last / 4,
            held,
            needs: (needs.into_iter())
                .map(|(station, places)| Need {
                    station: station.to_string(),
                    places,
                })
                .collect(),
        },
    )
}

fn link(tasks: usize) -> impl Strategy<Value = PlanLink> {
    let slack = prop::option::of(0..400_i64);
    (0..tasks, edge(), 1..tasks, edge(), -100..60_i64, slack).prop_map(
        move |(from, from_edge, step, to_edge, least, slack)| PlanLink {
            from: from.to_string(),
            from_edge,
            to: (from + step).min(tasks - 1).to_string(),
            to_edge,
            least,
            greatest: slack.map(|s| least + s),
        },
    )
}

/// Sensible kitchens of 3 to 10 steps; some of them fit, some do not, some wait in a circle.
fn kitchen() -> impl Strategy<Value = Kitchen> {
    (
        3..=10_usize,
        1..=2_u32,
        prop::collection::vec(2..=3_u32, 1..=2),
        prop::sample::select(vec![0, 0, 40_i64]),
    )
        .prop_flat_map(|(tasks, cooks, places, ready)| {
            let stations = u32::try_from(places.len()).unwrap();
            let all: Vec<_> = (0..tasks).map(|id| task(id, stations)).collect();
            (all, prop::collection::vec(link(tasks), 0..=tasks)).prop_map(move |(tasks, links)| {
                Kitchen {
                    cooks,
                    stations: (places.iter().enumerate())
                        .map(|(id, &places)| PlanStation {
                            id: id.to_string(),
                            name: format!("station {id}"),
                            places,
                            ready: if id == 0 { ready } else { 0 },
                        })
                        .collect(),
                    plating: (tasks.len() - 1).to_string(),
                    tasks,
                    links,
                }
            })
        })
}

/// The progress of a plan cooked to the second, at `now`.
fn on_time(plan: &Plan, now: i64) -> Progress {
    Progress {
        now,
        plate_at: None,
        started: (plan.slots.iter())
            .filter(|s| s.start < now || s.end <= now && s.start < s.end)
            .map(|s| Started {
                task: s.task.clone(),
                at: s.start,
                ended: (s.end <= now).then_some(s.end),
            })
            .collect(),
    }
}

/// Kitchens of four short steps and plating, small enough to try every schedule of.
fn small_kitchen() -> impl Strategy<Value = Kitchen> {
    let task = |id: usize| {
        let needs = prop::option::weighted(0.8, 1..=2_u32);
        (0..4_i64, 0..4_i64, 0..4_i64, 0..3_u32, needs).prop_map(
            move |(secs, first, last, held, places)| Task {
                id: id.to_string(),
                name: format!("step {id}"),
                secs,
                hands_first: first.min(secs),
                hands_last: last.min(secs - first.min(secs)),
                held,
                needs: (places.into_iter())
                    .map(|places| Need {
                        station: "0".to_owned(),
                        places,
                    })
                    .collect(),
            },
        )
    };
    let link = (
        0..4_usize,
        edge(),
        1..5_usize,
        edge(),
        -3..3_i64,
        prop::option::of(0..5_i64),
    )
        .prop_map(|(from, from_edge, step, to_edge, least, slack)| PlanLink {
            from: from.to_string(),
            from_edge,
            to: (from + step).min(4).to_string(),
            to_edge,
            least,
            greatest: slack.map(|s| least + s),
        });
    let tasks: Vec<_> = (0..5).map(task).collect();
    (
        tasks,
        prop::collection::vec(link, 0..5),
        1..=2_u32,
        2..=3_u32,
    )
        .prop_map(|(tasks, links, cooks, places)| Kitchen {
            cooks,
            stations: vec![PlanStation {
                id: "0".to_owned(),
                name: "pan".to_owned(),
                places,
                ready: 0,
            }],
            tasks,
            links,
            plating: "4".to_owned(),
        })
}

/// The furthest start from plating that is tried.
const FURTHEST: i64 = 13;

/// The least holding and then the least lead of all schedules that start within reach of plating.
fn best_of_all(kitchen: &Kitchen) -> Option<(i64, i64)> {
    let mut best = None;
    let mut starts = [0; 4];
    loop {
        let held = kitchen.tasks.iter().zip(starts);
        let holding = held
            .map(|(t, start)| -(start + t.secs) * i64::from(t.held))
            .sum();
        let lead = -starts.iter().min().unwrap();
        if best.is_none_or(|b| (holding, lead) < b) {
            let timed = kitchen.tasks.iter().zip(starts.into_iter().chain([0]));
            let slot = |(task, start): (&Task, i64)| Slot {
                task: task.id.clone(),
                start,
                end: start + task.secs,
            };
            let plan = Plan {
                slots: timed.map(slot).collect(),
                plating: 0,
                holding,
                lead,
                proof: Proof::Optimal,
                nodes: 0,
                overdue: vec![],
            };
            if broken_rules(kitchen, &plan).is_empty() {
                best = Some((holding, lead));
            }
        }
        let Some(next) = starts.iter().position(|&start| start > -FURTHEST) else {
            return best;
        };
        starts[..next].fill(0);
        starts[next] -= 1;
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(300))]

    #[test]
    fn no_schedule_is_better_than_the_plan(kitchen in small_kitchen()) {
        let planned = draw_up(&kitchen, LIMIT);
        let within_reach = best_of_all(&kitchen);
        match &planned {
            Ok(plan) if plan.lead <= FURTHEST => {
                prop_assert_eq!(plan.proof, Proof::Optimal);
                prop_assert_eq!(Some((plan.holding, plan.lead)), within_reach);
            }
            Ok(plan) => prop_assert!(within_reach.is_none_or(|best| best > (plan.holding, plan.lead))),
            Err(NoPlan::Quarrel(_) | NoPlan::Refused(_)) => prop_assert_eq!(within_reach, None, "{:?}", planned),
            Err(NoPlan::Undecided { .. }) => prop_assert!(false, "a small kitchen is always decided"),
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(400))]

    #[test]
    fn a_plan_keeps_every_rule_and_a_way_out_leads_out(kitchen in kitchen()) {
        match draw_up(&kitchen, LIMIT) {
            Ok(plan) => {
                prop_assert_eq!(broken_rules(&kitchen, &plan), Vec::<String>::new());
                let first = plan.slots.iter().filter(|s| s.task != kitchen.plating).map(|s| s.start).min();
                prop_assert_eq!(plan.lead, -first.unwrap());
            }
            Err(NoPlan::Quarrel(quarrel)) => {
                prop_assert!(!quarrel.links.is_empty() && quarrel.ways_out.len() <= 2);
                for way in quarrel.ways_out.iter().filter(|_| !quarrel.more) {
                    prop_assert!(draw_up(&way.applied(&kitchen), LIMIT).is_ok(), "{way:?}");
                }
            }
            Err(NoPlan::Refused(_)) => {}
            Err(other) => prop_assert!(false, "{other}"),
        }
    }

    /// A lane holds one thing at a time.
    #[test]
    fn no_two_turns_in_a_lane_overlap(kitchen in kitchen()) {
        if let Ok(plan) = draw_up(&kitchen, LIMIT) {
            for lane in lanes(&kitchen, &plan) {
                prop_assert!(lane.turns.windows(2).all(|w| w[0].to <= w[1].from), "{lane:?}");
            }
        }
    }

    /// What is planned again on time is planned the same: the rest of an optimal plan is optimal.
    #[test]
    fn on_time_nothing_gets_worse(kitchen in kitchen(), share in 0..100_i64) {
        let Ok(plan) = draw_up(&kitchen, LIMIT) else { return Ok(()); };
        let now = -1 - plan.lead * share / 100;
        let progress = on_time(&plan, now);
        prop_assume!(!progress.started.is_empty() && plan.proof == Proof::Optimal);
        let again = replan(&kitchen, &progress, LIMIT).unwrap();
        prop_assert_eq!((again.holding, again.plating, again.proof), (plan.holding, 0, Proof::Optimal));
        prop_assert_eq!(broken_rules(&kitchen, &again), Vec::<String>::new());
    }

    /// Late or early, what has started is not moved, nothing else is put before now, and the links among what is
    /// still to start are kept.
    #[test]
    fn replanning_never_moves_what_has_started(
        kitchen in kitchen(),
        share in 0..100_i64,
        late in prop::collection::vec(0..90_i64, 10),
        plate_at in prop::option::of(-100..2000_i64),
    ) {
        let Ok(plan) = draw_up(&kitchen, LIMIT) else { return Ok(()); };
        let now = 90 - plan.lead * share / 100;
        let mut progress = on_time(&plan, now);
        progress.plate_at = plate_at;
        for (started, late) in progress.started.iter_mut().zip(late) {
            started.at = (started.at + late).min(now);
            started.ended = started.ended.map(|e| (e + late).min(now)).filter(|_| late % 3 > 0);
        }
        progress.started.retain(|s| s.task != kitchen.plating);
        let Ok(again) = replan(&kitchen, &progress, LIMIT) else { return Ok(()); };
        prop_assert!(plate_at.is_none_or(|at| again.plating >= at));
        for slot in &again.slots {
            match progress.started.iter().find(|s| s.task == slot.task) {
                Some(started) => {
                    prop_assert_eq!(slot.start, started.at);
                    prop_assert!(started.ended.map_or(slot.end >= now, |ended| slot.end == ended));
                }
                None => prop_assert!(slot.start >= now),
            }
        }
        let has_started = |id: &str| progress.started.iter().any(|s| s.task == id);
        for broken in broken_rules(&kitchen, &again) {
            let Some(link) = broken.strip_prefix("link ") else { continue; };
            let link: usize = link.split(' ').next().unwrap().parse().unwrap();
            let link = &kitchen.links[link];
            prop_assert!(has_started(&link.from) && has_started(&link.to), "{broken}");
        }
    }

    /// Data that makes no sense gives an answer of some kind.
    #[test]
    fn nonsense_never_panics(
        kitchen in kitchen(),
        (task, place, link) in (0..10_usize, 0..4_usize, 0..10_usize),
        (a, b, c, d) in (any::<i64>(), any::<i64>(), any::<i64>(), any::<u32>()),
        (now, at, ended) in (any::<i64>(), any::<i64>(), any::<Option<i64>>()),
    ) {
        let mut kitchen = kitchen;
        let tasks = kitchen.tasks.len();
        let spoilt = &mut kitchen.tasks[task % tasks];
        match place {
            0 => spoilt.secs = a,
            1 => (spoilt.hands_first, spoilt.hands_last) = (b, c),
            2 => spoilt.held = d,
            _ => spoilt.needs.push(Need { station: "0".to_owned(), places: d }),
        }
        let links = kitchen.links.len().max(1);
        if let Some(link) = kitchen.links.get_mut(link % links) {
            (link.least, link.greatest) = (b % 1_000_000, Some(c));
        }
        if d % 5 == 0 {
            kitchen.stations[0].places = d;
            kitchen.cooks = d;
        }
        let progress = Progress { now, plate_at: Some(a), started: vec![Started { task: "0".to_owned(), at, ended }] };
        for plan in [draw_up(&kitchen, 50), replan(&kitchen, &progress, 50)].into_iter().flatten() {
            let _ = lanes(&kitchen, &plan.with_plating_at(a));
        }
    }
}
