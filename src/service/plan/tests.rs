//! A dish as it is cooked: what its plan says, what it refuses, and what it says when nothing fits.

use super::*;

fn task(
    id: &str,
    name: &str,
    secs: i64,
    (hands_first, hands_last): (i64, i64),
    at: &str,
    held: u32,
) -> Task {
    let need = |station: &str| Need {
        station: station.to_owned(),
        places: 1,
    };
    Task {
        id: id.to_owned(),
        name: name.to_owned(),
        secs,
        hands_first,
        hands_last,
        needs: at.split_whitespace().map(need).collect(),
        held,
    }
}

/// Fish in the pan, vegetables in the fish pan while it rests, sauce ahead, leaves at the last minute.
fn fish_dish() -> Kitchen {
    let station = |id: &str| PlanStation {
        id: id.to_owned(),
        name: id.to_owned(),
        places: 1,
        ready: 0,
    };
    Kitchen {
        cooks: 1,
        stations: ["pan", "board"].map(station).into(),
        tasks: vec![
            task(
                "sauce",
                "Chop and stir the sauce",
                420,
                (420, 0),
                "board",
                0,
            ),
            task("cut", "Cut the vegetables", 240, (240, 0), "board", 0),
            task("heat", "Heat the pan", 180, (10, 0), "pan", 0),
            task(
                "skin",
                "Cook the fish skin side down",
                300,
                (30, 0),
                "pan",
                0,
            ),
            task("turn", "Turn and finish the fish", 30, (10, 10), "pan", 0),
            task("rest", "Rest the fish on paper", 120, (0, 0), "", 3),
            task("leek", "Cook the leeks", 150, (20, 0), "pan", 0),
            task("snaps", "Cook the sugar snaps", 60, (10, 10), "", 2),
            task("dress", "Dress the leaves", 30, (30, 0), "", 0),
            task("plate", "Plate up", 60, (60, 0), "", 0),
        ],
        links: vec![
            PlanLink::after("cut", "leek"),
            PlanLink::after("heat", "skin").within(0, 30),
            PlanLink::after("skin", "turn").within(0, 0),
            PlanLink::after("turn", "rest").within(0, 0),
            PlanLink::after("rest", "plate").within(0, 180),
            PlanLink::after("turn", "leek"),
            PlanLink {
                from_edge: Edge::Start,
                ..PlanLink::after("leek", "snaps").within(60, 120)
            },
            PlanLink {
                from_edge: Edge::Start,
                ..PlanLink::after("dress", "plate").within(0, 120)
            },
            PlanLink::after("sauce", "plate"),
        ],
        plating: "plate".to_owned(),
    }
}

fn starts(plan: &Plan) -> Vec<(&str, i64)> {
    plan.slots
        .iter()
        .map(|s| (s.task.as_str(), s.start))
        .collect()
}

/// Worked out by hand. The leeks take the pan for 150 s after the fish, which needs only 120 s of rest: 30 s of
/// waiting at the weight of 3 can't be helped. The one stretch of free hands long enough for the sauce is before
/// the pan is heated.
#[test]
fn the_fish_is_planned_backwards_from_plating() {
    let plan = draw_up(&fish_dish(), ENOUGH).unwrap();
    assert_eq!(
        (plan.proof, plan.holding, plan.lead),
        (Proof::Optimal, 90, 1080)
    );
    assert_eq!(
        starts(&plan),
        [
            ("sauce", -1080),
            ("heat", -660),
            ("skin", -480),
            ("cut", -420),
            ("turn", -180),
            ("rest", -150),
            ("leek", -150),
            ("snaps", -60),
            ("dress", -40),
            ("plate", 0),
        ]
    );
    let at_half_past = plan.with_plating_at(1800);
    assert_eq!(
        at_half_past.slot("sauce").map(|s| (s.start, s.end)),
        Some((720, 1140))
    );
}

#[test]
fn each_cook_and_each_place_has_a_lane() {
    let kitchen = fish_dish();
    let plan = draw_up(&kitchen, ENOUGH).unwrap();
    let lanes = lanes(&kitchen, &plan);
    let told: Vec<String> = (lanes.iter())
        .map(|lane| {
            let turns: Vec<&str> = lane.turns.iter().map(|t| t.task.as_str()).collect();
            let station = lane.station.as_deref().unwrap_or("cook");
            format!("{station} {}: {}", lane.number, turns.join(" "))
        })
        .collect();
    assert_eq!(
        told,
        [
            "cook 1: sauce heat skin cut turn turn leek snaps dress snaps plate",
            "pan 1: heat skin turn leek",
            "board 1: sauce cut",
        ]
    );
}

fn started(task: &str, at: i64, ended: Option<i64>) -> Started {
    Started {
        task: task.to_owned(),
        at,
        ended,
    }
}

/// The fish went in 100 s late, and has 20 s to go: everything after it moves by as much, and the fish does not.
#[test]
fn a_late_fish_moves_what_has_not_started() {
    let progress = Progress {
        now: -100,
        plate_at: None,
        started: vec![
            started("sauce", -1080, Some(-660)),
            started("heat", -660, Some(-480)),
            started("cut", -620, Some(-380)),
            started("skin", -380, None),
        ],
    };
    let plan = replan(&fish_dish(), &progress, ENOUGH).unwrap();
    assert_eq!(
        (plan.proof, plan.holding, plan.plating),
        (Proof::Optimal, 90, 100)
    );
    assert_eq!(
        starts(&plan)[3..],
        [
            ("skin", -380),
            ("turn", -80),
            ("rest", -50),
            ("leek", -50),
            ("snaps", 40),
            ("dress", 60),
            ("plate", 100),
        ]
    );
    // The pan stood empty for longer than it should, which nothing can mend: both steps have started.
    assert!(plan.overdue.is_empty());
}

/// The fish has rested for 400 s and should have been plated within 300: that is said, and the rest is still planned.
#[test]
fn what_time_has_broken_is_left_aside_and_said() {
    let mut started_so_far: Vec<Started> = [
        ("sauce", 420),
        ("cut", 240),
        ("heat", 180),
        ("skin", 300),
        ("turn", 30),
        ("rest", 120),
    ]
    .into_iter()
    .scan(-2000, |at, (id, secs)| {
        let start = *at;
        *at += secs;
        Some(started(id, start, Some(*at)))
    })
    .collect();
    let now = -430;
    started_so_far.push(started("leek", now - 200, None));
    let progress = Progress {
        now,
        plate_at: None,
        started: started_so_far,
    };
    let plan = replan(&fish_dish(), &progress, ENOUGH).unwrap();
    assert_eq!(plan.overdue, [4, 6]);
    assert_eq!(
        starts(&plan)[6..],
        [
            ("leek", -630),
            ("snaps", -430),
            ("dress", -410),
            ("plate", -370)
        ]
    );
}

fn refused(plan: Result<Plan, NoPlan>) -> String {
    match plan {
        Err(NoPlan::Refused(refusal)) => refusal.to_string(),
        other => panic!("{other:?}"),
    }
}

#[test]
fn what_can_not_have_happened_is_refused() {
    let cases = [
        (
            "There is no step called “boil” in this dish.",
            vec![started("boil", 0, None)],
        ),
        (
            "“Heat the pan” has started twice.",
            vec![started("heat", 0, None), started("heat", 5, None)],
        ),
        (
            "“Heat the pan” can't have happened after now.",
            vec![started("heat", 11, None)],
        ),
        (
            "“Heat the pan” can't have happened after now.",
            vec![started("heat", 0, Some(11))],
        ),
        (
            "“Heat the pan” can't have ended before it started.",
            vec![started("heat", 5, Some(4))],
        ),
        (
            "“Heat the pan” started more than two days ago.",
            vec![started("heat", i64::MIN, None)],
        ),
        (
            "Plating has begun: nothing is left to plan.",
            vec![started("plate", 0, None)],
        ),
    ];
    for (sentence, started) in cases {
        let progress = Progress {
            now: 10,
            plate_at: None,
            started,
        };
        assert_eq!(refused(replan(&fish_dish(), &progress, ENOUGH)), sentence);
    }
}

type Spoil = fn(&mut Kitchen);

#[test]
fn what_makes_no_sense_is_refused_in_a_sentence() {
    let cases: [(&str, Spoil); 13] = [
        ("A plan is for 1 to 6 cooks.", |k| k.cooks = 0),
        ("Two steps are both called “cut”.", |k| {
            k.tasks[0].id = "cut".to_owned()
        }),
        ("There is no step called “serve” in this dish.", |k| {
            k.plating = "serve".to_owned()
        }),
        ("There is no step called “boil” in this dish.", |k| {
            k.links[0].to = "boil".to_owned()
        }),
        (
            "“Heat the pan” needs “oven”, which is not in this kitchen.",
            |k| {
                k.tasks[2].needs[0].station = "oven".to_owned();
            },
        ),
        (
            "“Heat the pan” needs 2 places at the pan, and there are 1.",
            |k| k.tasks[2].needs[0].places = 2,
        ),
        (
            "“Heat the pan” must last between nothing and two days.",
            |k| k.tasks[2].secs = -1,
        ),
        (
            "“Heat the pan” takes hands for longer than it lasts.",
            |k| k.tasks[2].hands_last = 171,
        ),
        (
            "“Heat the pan” takes hands for longer than it lasts.",
            |k| k.tasks[2].hands_first = -1,
        ),
        (
            "Waiting for “Heat the pan” may count at most 1000 times.",
            |k| k.tasks[2].held = 1001,
        ),
        (
            "Between “Rest the fish on paper” and “Plate up” the least gap is longer than the greatest.",
            |k| {
                k.links[4].least = 181;
            },
        ),
        (
            "The gap between “cut” and “leek” is longer than two days.",
            |k| k.links[0].least = i64::MAX,
        ),
        (
            "These wait for each other: “Cook the leeks” can't start before “Cut the vegetables” ends; \
             “Cut the vegetables” can't start before “Cook the leeks” ends.",
            |k| k.links.push(PlanLink::after("leek", "cut")),
        ),
    ];
    for (sentence, spoil) in cases {
        let mut kitchen = fish_dish();
        spoil(&mut kitchen);
        assert_eq!(refused(draw_up(&kitchen, ENOUGH)), sentence);
    }
}
