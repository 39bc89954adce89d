//! A dish joined to the plan: what a shipped dish is planned as, what a late tap moves, and what never moves.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::indexing_slicing,
    clippy::panic,
    missing_docs
)]

use std::collections::BTreeSet;

use scaleside::base::instant::Instant;
use scaleside::base::kit::Kit;
use scaleside::service::dish::Dish;
use scaleside::service::dish::kitchen_room::Counted;
use scaleside::service::dish::laid_out::{FishTimes, Laying, panfuls};
use scaleside::service::dish::shipped;
use scaleside::service::dish::step::Station;
use scaleside::service::plan::Proof;
use scaleside::service::run::{Run, Tap};
use scaleside::service::timetable::of_dish::{Change, Service};
use scaleside::service::timetable::{Stuck, Timetable};

const START: Instant = Instant(1_790_000_000_000);

fn at(secs: i64) -> Instant {
    START.plus_secs(secs)
}

fn bream(panfuls: u32, pans: u32, fish: Option<FishTimes>) -> Dish {
    let laying = Laying {
        covers: 2,
        panfuls,
        pans,
        fish,
    };
    shipped::by_id("bream").unwrap().laid_out(&laying).unwrap()
}

fn plan(
    dish: &Dish,
    missing: &BTreeSet<Kit>,
    cooks: u32,
    run: Option<&Run>,
    plate_at: Option<Instant>,
    now: Instant,
) -> Result<Timetable, Stuck> {
    let service = Service {
        dish,
        missing,
        cooks,
    };
    Timetable::of(&service, run, plate_at, now)
}

fn starts(plan: &Timetable) -> Vec<(&str, i64)> {
    let from = plan.base.ms_since(START) / 1000;
    (plan.slots.iter())
        .map(|slot| (slot.task.as_str(), slot.start + from))
        .collect()
}

/// By hand from the times in the data: 90 s for the pan, 270 and 30 for the fish, 15 for the core; then the rest of
/// 240 runs beside leeks of 180 and sugar snaps of 60, and the leaves of 20 end as plating begins.
#[test]
fn the_shipped_dish_meets_at_the_plate() {
    let dish = bream(1, 1, None);
    let none = BTreeSet::new();
    let plan_now = plan(&dish, &none, 1, None, None, START).unwrap();
    let expected = [
        ("warm_plates", 0),
        ("heat_pan", 0),
        ("skin_side", 90),
        ("flesh_side", 360),
        ("check_core", 390),
        ("leeks", 405),
        ("rest", 405),
        ("snaps", 585),
        ("leaves", 625),
        ("plate", 645),
        ("garnish", 705),
    ];
    assert_eq!(starts(&plan_now), expected);
    assert_eq!((plan_now.holding, plan_now.proof), (0, Proof::Optimal));
    // Plate at an hour: the same, counted back from there.
    let hour = plan(&dish, &none, 1, None, Some(at(7200)), START).unwrap();
    assert_eq!(hour.at(hour.plating), at(7200));
    assert_eq!(hour.begins(), at(7200 - 645));
    // Without a non-stick pan, oil, paper and oil take half a minute longer.
    let paper = BTreeSet::from([Kit::NonStickPan]);
    let longer = plan(&dish, &paper, 1, None, None, START).unwrap();
    assert_eq!(longer.plating, 675);
}

/// The rest may be followed by the plate within two minutes; a second panful takes 405 s of pan and the vegetables
/// 240 more. With 15 s of hands at the leeks' start no other step is in the way.
#[test]
fn two_panfuls_in_one_pan_quarrel_and_each_way_out_works() {
    let none = BTreeSet::new();
    let dish = bream(2, 1, None);
    let stuck = plan(&dish, &none, 1, None, None, START).unwrap_err();
    assert_eq!(
        stuck.sentence,
        "With one pan, the fish of one batch waits 6 min 45 s for the plate: you allow 2 min."
    );
    let said: Vec<&str> = stuck.ways.iter().map(|way| way.0.as_str()).collect();
    assert_eq!(
        said,
        [
            "Let the fish wait up to 6 min 45 s after its rest, hot in a low oven: you allow 2 min.",
            "Use a second pan.",
        ]
    );
    for (say, change) in &stuck.ways {
        let eased = dish.eased(change.as_ref().unwrap());
        assert!(plan(&eased, &none, 1, None, None, START).is_ok(), "{say}");
        // Taken on the dish before it is laid out, it is the same way out.
        let base = shipped::by_id("bream")
            .unwrap()
            .eased(change.as_ref().unwrap());
        let laying = Laying {
            covers: 2,
            panfuls: 2,
            pans: if *change == Some(Change::Pans(2)) {
                2
            } else {
                1
            },
            fish: None,
        };
        let again = base.laid_out(&laying).unwrap();
        assert!(plan(&again, &none, 1, None, None, START).is_ok(), "{say}");
    }
}

/// Three panfuls in two pans want a third, four in three a fourth; with one for each panful everything fits.
#[test]
fn one_more_pan_is_a_way_out_whatever_their_number() {
    let none = BTreeSet::new();
    for (panfuls, say) in [(3, "Use a third pan."), (4, "Use a fourth pan.")] {
        let dish = bream(panfuls, panfuls - 1, None);
        let stuck = plan(&dish, &none, 1, None, None, START).unwrap_err();
        let way = stuck.ways.iter().find(|way| way.0 == say).unwrap();
        assert_eq!(way.1, Some(Change::Pans(panfuls)), "{say}");
        let eased = dish.eased(&Change::Pans(panfuls));
        assert_eq!(eased.pans, panfuls);
        let timetable = plan(&eased, &none, 1, None, None, START).unwrap();
        let pans = timetable.lanes.iter();
        let pans = pans.filter(|lane| lane.station.as_deref() == Some("pan"));
        assert_eq!(pans.count(), usize::try_from(panfuls).unwrap());
    }
}

#[test]
fn panfuls_are_counted_and_refused() {
    for (covers, at_once, expect) in [(2, 2, Some(1)), (5, 2, Some(3)), (1, 8, Some(1))] {
        assert_eq!(panfuls(covers, at_once).ok(), expect);
    }
    for (covers, at_once) in [(0, 2), (2, 0), (41, 2)] {
        assert!(
            panfuls(covers, at_once)
                .unwrap_err()
                .to_string()
                .ends_with(['.', '?'])
        );
    }
    for laying in [
        Laying {
            covers: 2,
            panfuls: 0,
            pans: 1,
            fish: None,
        },
        Laying {
            covers: 2,
            panfuls: 21,
            pans: 1,
            fish: None,
        },
        Laying {
            covers: 2,
            panfuls: 1,
            pans: 7,
            fish: None,
        },
    ] {
        assert!(
            shipped::by_id("bream").unwrap().laid_out(&laying).is_err(),
            "{laying:?}"
        );
    }
}

/// A shorter rest leaves the fish as much time as before: 240 s and 120 more, counted from the pan.
#[test]
fn an_estimate_gives_the_fish_its_times_and_keeps_the_window_of_its_rest() {
    let times = FishTimes {
        skin: 300,
        finish: 60,
        rest: 80,
    };
    let dish = bream(2, 2, Some(times));
    for number in ["", "/2"] {
        let lasts = |id: &str| dish.step(&format!("{id}{number}")).unwrap().lasts;
        assert_eq!(
            [lasts("skin_side"), lasts("flesh_side"), lasts("rest")],
            [Some(300), Some(60), Some(80)]
        );
    }
    let most = |dish: &Dish, to: &str| {
        let links = &dish.step("plate").unwrap().links;
        links.iter().find(|link| link.to == to).unwrap().most
    };
    assert_eq!(most(&dish, "rest/2"), Some(120 + 160));
    // A longer rest narrows nothing.
    let long = bream(1, 1, Some(FishTimes { rest: 300, ..times }));
    assert_eq!(most(&long, "rest"), Some(120));
    let plan = plan(&dish, &BTreeSet::new(), 1, None, None, START).unwrap();
    assert_eq!(plan.proof, Proof::Optimal);
    assert!(plan.waits.iter().any(|(id, _)| id == "rest"));
}

fn tapped(dish: &Dish, run: &Run, taps: &[(i64, Tap)]) -> Run {
    taps.iter().fold(run.clone(), |run, (secs, tap)| {
        run.tap(dish, &BTreeSet::new(), tap, at(*secs)).unwrap()
    })
}

fn begin(id: &str) -> Tap {
    Tap::Begin(id.to_owned())
}

fn done(id: &str) -> Tap {
    Tap::Done(id.to_owned())
}

/// The fish goes in 100 s later than planned: it stays where it is, and everything after it moves by as much.
#[test]
fn a_late_step_moves_what_has_not_begun_and_nothing_else() {
    let dish = bream(1, 1, None);
    let none = BTreeSet::new();
    let run = tapped(
        &dish,
        &Run::start(&dish, START),
        &[
            (0, begin("warm_plates")),
            (1, done("warm_plates")),
            (10, begin("heat_pan")),
            (190, done("heat_pan")),
            (190, begin("skin_side")),
        ],
    );
    let plan_now = plan(&dish, &none, 1, Some(&run), None, at(200)).unwrap();
    let slot = |plan: &Timetable, id: &str| {
        let from = plan.base.ms_since(START) / 1000;
        let slot = plan.slot(id).unwrap();
        (slot.start + from, slot.end + from)
    };
    assert_eq!(slot(&plan_now, "skin_side"), (190, 460));
    assert_eq!(slot(&plan_now, "leeks"), (505, 685));
    assert_eq!(slot(&plan_now, "plate").0, 745);
    // Half a minute more in the pan is counted, a hold as well.
    let more = tapped(&dish, &run, &[(210, Tap::More("skin_side".to_owned()))]);
    let later = plan(&dish, &none, 1, Some(&more), None, at(210)).unwrap();
    assert_eq!(slot(&later, "skin_side"), (190, 490));
    assert_eq!(slot(&later, "plate").0, 775);
    // Early is early: turned at 400, everything comes sooner.
    let early = tapped(&dish, &run, &[(400, done("skin_side"))]);
    let sooner = plan(&dish, &none, 1, Some(&early), None, at(400)).unwrap();
    assert_eq!(slot(&sooner, "flesh_side"), (400, 430));
    assert_eq!(slot(&sooner, "plate").0, 685);
    // With an hour for the plate nothing is plated before it, and the vegetables wait for the fish's sake.
    let hour = plan(&dish, &none, 1, Some(&early), Some(at(760)), at(400)).unwrap();
    assert_eq!(slot(&hour, "plate").0, 760);
    assert!(slot(&hour, "leeks").0 >= slot(&sooner, "leeks").0);
}

#[test]
fn a_service_that_is_plated_has_nothing_left_to_plan() {
    let dish = bream(1, 1, None);
    let mut run = Run::start(&dish, START);
    for (secs, step) in (1..).zip(&dish.steps) {
        if !run.steps.contains_key(&step.id) {
            run = tapped(&dish, &run, &[(secs, begin(&step.id))]);
        }
        run = tapped(&dish, &run, &[(secs, done(&step.id))]);
    }
    let stuck = plan(&dish, &BTreeSet::new(), 1, Some(&run), None, at(60)).unwrap_err();
    assert_eq!(
        stuck.sentence,
        "Plating has begun: nothing is left to plan."
    );
    assert_eq!(stuck.ways, []);
}

#[test]
fn every_lane_holds_one_thing_and_the_list_names_every_step() {
    for (panfuls, pans, cooks) in [(1, 1, 1), (1, 1, 2), (2, 2, 1), (2, 2, 2), (4, 2, 2)] {
        let mut dish = bream(panfuls, pans, None);
        // However long the first panfuls wait.
        for step in &mut dish.steps {
            step.links.iter_mut().for_each(|link| link.most = None);
        }
        let plan = plan(&dish, &BTreeSet::new(), cooks, None, None, START).unwrap();
        assert_eq!(plan.slots.len(), dish.steps.len());
        for lane in &plan.lanes {
            for pair in lane.turns.windows(2) {
                assert!(pair[0].to <= pair[1].from, "{lane:?}");
            }
        }
        let pan_lanes = plan
            .lanes
            .iter()
            .filter(|lane| lane.station.as_deref() == Some(Station::Pan.name()));
        assert!(pan_lanes.count() <= usize::try_from(pans).unwrap());
    }
}

/// Six panfuls in one pan: no single change is enough, and so many pans are said at once.
#[test]
fn where_one_more_pan_is_not_enough_as_many_are_offered_as_are() {
    let none = BTreeSet::new();
    for (panfuls, pans, say) in [
        (3, 1, "Use 3 pans."),
        (6, 1, "Use 6 pans."),
        (6, 3, "Use 6 pans."),
        (6, 5, "Use a sixth pan."),
    ] {
        let dish = bream(panfuls, pans, None);
        let stuck = plan(&dish, &none, 1, None, None, START).unwrap_err();
        assert!(stuck.ways.len() <= 2, "{:?}", stuck.ways);
        let pans: Vec<_> = (stuck.ways.iter())
            .filter(|way| matches!(way.1, Some(Change::Pans(_))))
            .collect();
        let [(words, Some(change))] = pans[..] else {
            panic!("{panfuls} panfuls: {:?}", stuck.ways)
        };
        assert_eq!(words, say);
        assert!(plan(&dish.eased(change), &none, 1, None, None, START).is_ok());
    }
}

/// Found by the properties: what only warms at the plate's place was taken for the plating, and nothing was planned.
#[test]
fn a_plate_that_is_only_warmed_is_no_plating() {
    let mut dish = bream(1, 1, None);
    let warm = dish.steps.iter_mut().find(|step| step.id == "warm_plates");
    warm.unwrap().station = Some(Station::Plate);
    let none = BTreeSet::new();
    let told = plan(&dish, &none, 1, None, None, START).unwrap();
    let plain = plan(&bream(1, 1, None), &none, 1, None, None, START).unwrap();
    assert_eq!(starts(&told), starts(&plain));
    assert_eq!(told.plating, 645);
}

/// Found by the properties: two things at one board, after the plating.
#[test]
fn what_follows_the_plating_waits_for_its_place_too() {
    let mut dish = bream(1, 1, None);
    let garnish = dish.steps.iter_mut().find(|step| step.id == "garnish");
    let garnish = garnish.unwrap();
    garnish.station = Some(Station::Board);
    let mut tray = garnish.clone();
    (tray.id, tray.hands, tray.takes) = ("tray".to_owned(), false, 30);
    dish.steps.push(tray);
    let none = BTreeSet::new();
    let at = |dish: &Dish, id: &str| {
        let told = plan(dish, &none, 1, None, None, START).unwrap();
        told.slot(id).unwrap().start
    };
    assert_eq!((at(&dish, "garnish"), at(&dish, "tray")), (705, 705));
    dish.room = dish.room.with(Counted::Boards, Some(1)).unwrap();
    // With one board the leaves wait for the rest as well, twenty seconds longer.
    assert_eq!((at(&dish, "garnish"), at(&dish, "tray")), (725, 745));
}

/// By hand from the data: half a minute for each plate past two, ten seconds for each rim, five for each cover's leaves.
#[test]
fn what_grows_with_the_covers_takes_its_time() {
    let takes = |covers: u32| {
        let laying = Laying {
            covers,
            panfuls: 1,
            pans: 1,
            fish: None,
        };
        let dish = shipped::by_id("bream").unwrap().laid_out(&laying).unwrap();
        let plan = plan(&dish, &BTreeSet::new(), 1, None, None, START).unwrap();
        ["leaves", "plate", "garnish", "heat_pan"].map(|id| {
            let slot = plan.slot(id).unwrap();
            slot.end - slot.start
        })
    };
    assert_eq!(takes(2), [20, 60, 20, 90]);
    assert_eq!(takes(1), [15, 30, 10, 90]);
    assert_eq!(takes(20), [110, 600, 200, 90]);
}
