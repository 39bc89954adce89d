//! Plans of 10, 20 and 40 steps: the committed kitchens, those of nearly equal steps, and a service that is planned
//! again in the middle.
//!
//! `vectors/plan_speed.py` times OR-Tools CP-SAT on the same kitchens.

use divan::{Bencher, black_box};
use scaleside::service::plan::{ENOUGH, Kitchen, Progress, Started, draw_up, replan};

use crate::growth;
use crate::plan_instances::cases;

/// The first three kitchens of so many steps that fit. Of 40 steps the file has too few, so a little fewer count.
const SIZES: [(usize, usize); 3] = [(10, 10), (20, 20), (38, 40)];
const EACH: usize = 3;

const RANDOM: &str = include_str!("../vectors/plan_instances.json");
const ALIKE: &str = include_str!("../vectors/plan_alike.json");

fn kitchens(file: &str, least: usize, most: usize) -> Vec<Kitchen> {
    let mut found = Vec::new();
    for case in cases(file) {
        let size = (least..=most).contains(&case.kitchen.tasks.len());
        if size && found.len() < EACH && case.optimum.is_some() {
            let plan = draw_up(&case.kitchen, ENOUGH).ok();
            let came = plan.map(|plan| (plan.holding, plan.lead));
            assert_eq!(came, case.optimum, "kitchen {}", case.name);
            found.push(case.kitchen);
        }
    }
    found
}

/// The kitchen in the middle of its plan: what should have begun has, and nothing else.
fn midway(kitchen: &Kitchen) -> Progress {
    let plan = draw_up(kitchen, ENOUGH).unwrap();
    let now = -plan.lead / 2;
    let begun = plan.slots.iter().filter(|slot| slot.start < now);
    Progress {
        now,
        plate_at: None,
        started: begun
            .map(|slot| Started {
                task: slot.task.clone(),
                at: slot.start,
                ended: (slot.end <= now).then_some(slot.end),
            })
            .collect(),
    }
}

fn plan_all(kitchens: &[Kitchen]) -> usize {
    let plans = kitchens.iter().map(|kitchen| draw_up(kitchen, ENOUGH));
    plans.filter(Result::is_ok).count()
}

#[divan::bench(args = SIZES)]
fn drawn_up(bencher: Bencher<'_, '_>, (least, most): (usize, usize)) {
    let kitchens = kitchens(RANDOM, least, most);
    bencher.bench(|| plan_all(black_box(&kitchens)));
}

#[divan::bench(args = SIZES)]
fn of_nearly_equal_steps(bencher: Bencher<'_, '_>, (least, most): (usize, usize)) {
    let kitchens = kitchens(ALIKE, least, most);
    bencher.bench(|| plan_all(black_box(&kitchens)));
}

#[divan::bench(args = SIZES)]
fn planned_again(bencher: Bencher<'_, '_>, (least, most): (usize, usize)) {
    let kitchens = kitchens(RANDOM, least, most);
    let midway: Vec<Progress> = kitchens.iter().map(midway).collect();
    bencher.bench(|| {
        let all = kitchens.iter().zip(&midway);
        all.filter(|(kitchen, progress)| replan(kitchen, black_box(progress), ENOUGH).is_ok())
            .count()
    });
}

pub fn ratios() {
    let [ten, twenty, forty] = SIZES.map(|(least, most)| kitchens(RANDOM, least, most));
    let alike = kitchens(ALIKE, 40, 40);
    let time = |kitchens: &[Kitchen]| {
        growth::median(|| {
            black_box(plan_all(kitchens));
        })
    };
    let base = time(&ten);
    println!("three plans of 10 steps                 {base:>12.3?}");
    growth::beside("three of 20 steps", base, time(&twenty));
    growth::beside("three of 38 to 40 steps", base, time(&forty));
    growth::beside("three of 40 nearly equal steps", base, time(&alike));
}
