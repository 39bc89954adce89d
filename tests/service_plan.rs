//! A dish joined to the plan: what a shipped dish is planned as, what a late tap moves, and what never moves.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::indexing_slicing,
    clippy::panic,
    missing_docs
)]

use std::collections::BTreeSet;

use scaleside::instant::Instant;
use scaleside::service::dish::{self, Dish};
use scaleside::service::laid_out::Laying;
use scaleside::service::plan::of_dish::Service;
use scaleside::service::timetable::Timetable;

#[test]
fn show() {
    let dish = dish::by_id("bream").unwrap();
    let missing = BTreeSet::new();
    for (panfuls, pans, cooks) in [(1, 1, 1), (2, 1, 1), (2, 2, 1), (2, 2, 2), (3, 2, 2)] {
        let dish = dish
            .laid_out(&Laying {
                panfuls,
                pans,
                fish: None,
            })
            .unwrap();
        let service = Service {
            dish: &dish,
            missing: &missing,
            cooks,
        };
        let at = std::time::Instant::now();
        let t = Timetable::of(&service, None, None, Instant(0));
        println!("{panfuls} {pans} {cooks} {:?}", at.elapsed());
        match t {
            Ok(t) => {
                for s in &t.slots {
                    println!("  {} {}..{}", s.task, s.start, s.end);
                }
                println!(
                    "{} {:?} {:?}",
                    t.proof_said(),
                    t.waits,
                    t.lanes
                        .iter()
                        .map(|l| (l.station.clone(), l.turns.len()))
                        .collect::<Vec<_>>()
                );
            }
            Err(e) => println!("{e:#?}"),
        }
    }
}
