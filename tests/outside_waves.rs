//! Several dishes in waves, in a kitchen that is counted, against an independent solver: OR-Tools CP-SAT (PyPI `ortools`).
//! `vectors/plan_waves.py` draws 300 services as their cards state them and says what it was told of them; the proven
//! optima stand beside. Nothing of how dishes are joined to one, or places counted, is shared with it.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::indexing_slicing,
    clippy::panic,
    missing_docs
)]

use std::collections::BTreeSet;

use scaleside::base::instant::Instant;
use scaleside::service::dish::Dish;
use scaleside::service::dish::joined::Laid;
use scaleside::service::dish::kitchen_room::Counted;
use scaleside::service::dish::laid_out::Laying;
use scaleside::service::plan::Proof;
use scaleside::service::timetable::of_dish::{Change, Service};
use scaleside::service::timetable::{Stuck, Timetable};
use serde_json::{Value, json};

const START: Instant = Instant(1_790_000_000_000);

/// A service as it was drawn.
struct Drawn {
    seed: String,
    dish: Dish,
    cooks: u32,
    /// Seconds of waiting and of lead; none where nothing fits.
    optimum: Option<(i64, i64)>,
}

fn count(value: &Value) -> Option<u32> {
    value.as_u64().map(|count| u32::try_from(count).unwrap())
}

/// A dish of these steps: what it is called and says is no part of a plan.
fn dish(key: &Value, steps: &Value) -> Dish {
    let mut steps = steps.clone();
    for step in steps.as_array_mut().unwrap() {
        let named = [
            ("title", step["id"].clone()),
            ("say", json!("Do it.")),
            ("done_word", json!("Done")),
        ];
        for (field, text) in named {
            step[field] = text;
        }
    }
    let dish = json!({
        "id": "own", "name": format!("Dish {key}"), "covers": 2, "portion_g": 150, "mise": [], "steps": steps,
        "plate_check": [], "allergens": [], "cautions": [],
    });
    Dish::parse(&dish.to_string()).unwrap()
}

fn drawn(service: &Value) -> Drawn {
    let pans = count(&service["pans"]).unwrap();
    let laid = service["dishes"].as_array().unwrap().iter().map(|one| {
        let dish = dish(&one["key"], &one["steps"]);
        let laying = Laying {
            covers: 2,
            panfuls: 1,
            pans,
            fish: None,
        };
        Laid {
            key: one["key"].as_str().unwrap().to_owned(),
            name: dish.name.clone(),
            dish: dish.laid_out(&laying).unwrap(),
            later_secs: count(&one["later"]).unwrap(),
        }
    });
    let mut laid: Vec<Laid> = laid.collect();
    let others = laid.split_off(1);
    let mut dish = Dish::joined(laid.remove(0), others).unwrap();
    for what in Counted::ALL {
        dish.room = dish.room.with(what, count(&service[what.key()])).unwrap();
    }
    let figure = |value: &Value| value.as_i64().unwrap();
    let optimum = service["optimum"].as_array();
    Drawn {
        seed: service["seed"].to_string(),
        dish,
        cooks: count(&service["cooks"]).unwrap(),
        optimum: optimum.map(|both| (figure(&both[0]), figure(&both[1]))),
    }
}

fn all() -> Vec<Drawn> {
    let file: Value = serde_json::from_str(include_str!("vectors/plan_waves.json")).unwrap();
    file["services"]
        .as_array()
        .unwrap()
        .iter()
        .map(drawn)
        .collect()
}

fn planned(dish: &Dish, cooks: u32) -> Result<Timetable, Stuck> {
    let service = Service {
        dish,
        missing: &BTreeSet::new(),
        cooks,
    };
    Timetable::of(&service, None, None, START)
}

/// From the first start to the plates of the last guests.
fn lead(plan: &Timetable, dish: &Dish) -> i64 {
    let last = *plan.plates(dish).last().unwrap();
    last - plan.slots.iter().map(|slot| slot.start).min().unwrap()
}

/// What is told is the optimum, or so near to it as it says itself.
#[test]
fn services_of_several_dishes_have_the_value_an_independent_solver_proved() {
    let (mut proven, mut bounded) = (0, 0);
    for case in all() {
        let Some((holding, least_lead)) = case.optimum else {
            continue;
        };
        let seed = &case.seed;
        let plan = planned(&case.dish, case.cooks);
        let plan = plan.unwrap_or_else(|stuck| panic!("service {seed}: {}", stuck.sentence));
        let told = (plan.holding, lead(&plan, &case.dish));
        match plan.proof {
            Proof::Optimal => {
                assert_eq!(told, (holding, least_lead), "service {seed}");
                proven += 1;
            }
            Proof::Best {
                holding_gap,
                lead_gap,
            } => {
                let least = told.0 - holding_gap;
                assert!((least..=told.0).contains(&holding), "service {seed}");
                if told.0 == holding {
                    assert!(
                        (told.1 - lead_gap..=told.1).contains(&least_lead),
                        "service {seed}"
                    );
                }
                bounded += 1;
            }
        }
    }
    println!("{proven} proven to be the optimum, {bounded} within what is told");
    assert!(proven > 9 * bounded, "{proven} proven, {bounded} not");
}

/// Where nothing fits that is said, and every way out that is offered leads to a plan.
#[test]
fn where_nothing_fits_each_way_out_leads_to_a_plan() {
    let (mut unfit, mut ways) = (0, 0);
    for case in all().iter().filter(|case| case.optimum.is_none()) {
        let stuck = planned(&case.dish, case.cooks).unwrap_err();
        unfit += 1;
        for change in stuck.ways.iter().filter_map(|(_, change)| change.as_ref()) {
            let cooks = case.cooks + u32::from(*change == Change::Cook);
            let eased = planned(&case.dish.eased(change), cooks);
            assert!(eased.is_ok(), "service {}: {change:?}", case.seed);
            ways += 1;
        }
    }
    println!("{unfit} do not fit; {ways} ways out lead to a plan");
    assert!(unfit >= 10 && ways >= unfit, "{unfit} {ways}");
}
