//! Every way out of a quarrel is taken, and the service solved again: it fits, and with one second less it does not.
#![cfg(not(target_arch = "wasm32"))]
#![allow(
    clippy::unwrap_used,
    clippy::indexing_slicing,
    clippy::panic,
    missing_docs
)]

use std::collections::BTreeSet;

use proptest::prelude::*;
use scaleside::base::instant::Instant;
use scaleside::service::dish::Dish;
use scaleside::service::dish::laid_out::Laying;
use scaleside::service::dish::shipped;
use scaleside::service::timetable::of_dish::{Change, Service};
use scaleside::service::timetable::{Stuck, Timetable};

fn planned(dish: &Dish, cooks: u32) -> Result<Timetable, Stuck> {
    let service = Service {
        dish,
        missing: &BTreeSet::new(),
        cooks,
    };
    Timetable::of(&service, None, None, Instant(0))
}

/// The dish and the cooks after a way out.
fn taken(dish: &Dish, cooks: u32, change: &Change) -> (Dish, u32) {
    let wants_cook = match change {
        Change::Cook => true,
        Change::All(changes) => changes.contains(&Change::Cook),
        _ => false,
    };
    (dish.eased(change), if wants_cook { 2 } else { cooks })
}

/// The same change with a second less of one gap.
fn stingier(change: &Change) -> Option<Change> {
    match change {
        Change::Gap {
            step,
            to,
            greatest,
            by,
        } => Some(Change::Gap {
            step: step.clone(),
            to: to.clone(),
            greatest: *greatest,
            by: by - 1,
        }),
        _ => None,
    }
}

/// Panics where a way out leads nowhere, or asks for more than it takes. Returns how many there were.
fn hold(dish: &Dish, cooks: u32, what: &str) -> usize {
    let Err(stuck) = planned(dish, cooks) else {
        return 0;
    };
    assert!(
        !stuck.ways.is_empty(),
        "{what}: no way out of: {}",
        stuck.sentence
    );
    assert!(
        stuck.sentence.chars().count() < 330,
        "{what}: {}",
        stuck.sentence
    );
    for (say, change) in &stuck.ways {
        let change = change.as_ref().unwrap_or_else(|| panic!("{what}: {say}"));
        let (eased, with) = taken(dish, cooks, change);
        if let Err(again) = planned(&eased, with) {
            panic!("{what}: {say} leads to: {}", again.sentence);
        }
        if let Some(less) = stingier(change) {
            let (eased, with) = taken(dish, cooks, &less);
            assert!(
                planned(&eased, with).is_err(),
                "{what}: {say} asks for too much"
            );
        }
    }
    stuck.ways.len()
}

fn bream(panfuls: u32, pans: u32) -> Dish {
    let laying = Laying {
        covers: 2,
        panfuls,
        pans,
        fish: None,
    };
    shipped::by_id("bream").unwrap().laid_out(&laying).unwrap()
}

/// From eight panfuls on there was no way out at all.
#[test]
fn any_number_of_panfuls_has_ways_out_that_end_it() {
    let mut ways = 0;
    for panfuls in [2, 3, 8, 10] {
        for pans in [1, 2] {
            for cooks in [1, 2] {
                let what = format!("{panfuls} panfuls, {pans} pans, {cooks} cooks");
                ways += hold(&bream(panfuls, pans), cooks, &what);
            }
        }
    }
    assert!(ways > 20, "{ways}");
}

/// Two greatest gaps that one pan can't keep: loosening one of them is not enough.
#[test]
fn where_one_change_is_not_enough_two_are_offered() {
    let mut dish = bream(7, 6);
    let plate = dish
        .steps
        .iter()
        .position(|step| step.id == "plate")
        .unwrap();
    let mut warm = dish.steps[plate].links[0].clone();
    warm.most = Some(60);
    dish.steps[plate].links[0] = warm;
    for step in &mut dish.steps {
        if step.id == "leaves" {
            step.links[0].most = Some(0);
        }
    }
    let stuck = planned(&dish, 2).unwrap_err();
    let all = stuck
        .ways
        .iter()
        .filter(|(_, way)| matches!(way, Some(Change::All(_))));
    assert!(all.count() > 0, "{:?}", stuck.ways);
    hold(&dish, 2, "two gaps");
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(12))]

    /// The shipped dish with its gaps drawn tighter at random, in whatever kitchen.
    #[test]
    fn random_quarrels_end(
        panfuls in 1..5_u32,
        pans in 1..3_u32,
        cooks in 1..3_u32,
        gaps in prop::collection::vec(prop::option::of(0..150_u32), 24),
    ) {
        let mut dish = bream(panfuls, pans);
        let links = dish.steps.iter_mut().flat_map(|step| &mut step.links);
        for (link, gap) in links.zip(gaps) {
            link.most = gap.map(|gap| gap.max(link.least)).or(link.most);
        }
        hold(&dish, cooks, "drawn at random");
    }
}
