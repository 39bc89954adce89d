#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::indexing_slicing,
    clippy::panic,
    missing_docs
)]
//! What holds of every timetable: for dishes changed at random, laid out at random, and tapped at random.

use std::collections::BTreeSet;

use proptest::prelude::*;
use proptest::sample::{Index, select};
use scaleside::base::instant::Instant;
use scaleside::base::kit::Kit;
use scaleside::service::dish::Dish;
use scaleside::service::dish::joined::{Laid, Wave};
use scaleside::service::dish::kitchen_room::Counted;
use scaleside::service::dish::laid_out::{FishTimes, Laying, panful};
use scaleside::service::dish::shipped;
use scaleside::service::dish::step::{Begins, Edge, Station};
use scaleside::service::menu;
use scaleside::service::menu::draft::StepDraft;
use scaleside::service::menu::edit::Edit;
use scaleside::service::plan::Slot;
use scaleside::service::run::{Run, Tap};
use scaleside::service::timetable::Timetable;
use scaleside::service::timetable::of_dish::{Change, Service};

const START: Instant = Instant(1_790_000_000_000);

/// A change of one step, or a step added.
fn edit(
    dish: &Dish,
    kind: u8,
    which: Index,
    secs: u32,
    station: Option<Station>,
    hands: bool,
) -> Edit {
    let step = which.get(&dish.steps);
    let mut draft = StepDraft::of(step);
    match kind {
        0 => draft.secs = secs.to_string(),
        1 if step.station != Some(Station::Plate) => draft.station = station,
        2 => draft.hands = hands,
        3 => draft.links.iter_mut().for_each(|link| link.most.clear()),
        4 => draft
            .links
            .iter_mut()
            .for_each(|link| link.most = secs.to_string()),
        5 if step.begins == Begins::Tap => draft
            .links
            .iter_mut()
            .for_each(|link| link.least = (secs / 4).to_string()),
        6 => draft.hands_first = (secs / 8).to_string(),
        _ => return Edit::Add,
    }
    Edit::Step(step.id.clone(), Box::new(draft))
}

prop_compose! {
    fn any_dish()(
        edits in prop::collection::vec((0..8_u8, any::<Index>(), 1..400_u32, prop::option::of(select(Station::ALL.to_vec())), any::<bool>()), 0..12),
        panfuls in 1..4_u32,
        pans in 1..=2_u32,
        fish in prop::option::of((1..600_u32, 1..180_u32, 1..300_u32)),
        others in prop_oneof![Just(Vec::new()), prop::collection::vec((any::<bool>(), 1..3_u32, 0..5_u32), 1..3)],
        later in 0..2_u32,
        counts in prop::array::uniform3(prop::option::weighted(0.3, 1..4_u32)),
    ) -> Dish {
        let mut dish = shipped::by_id("bream").unwrap().clone();
        for (kind, which, secs, station, hands) in edits {
            // What is refused changes nothing.
            if let Ok(edited) = dish.edited(&edit(&dish, kind, which, secs, station, hands)) {
                dish = edited.into_dish();
            }
        }
        let fish = fish.map(|(skin, finish, rest)| FishTimes { skin, finish, rest });
        let others = others.into_iter().enumerate().map(|(nth, (has_fish, panfuls, later))| Laid {
            key: format!("k{nth}"),
            name: format!("Other {nth}"),
            dish: if has_fish {
                let laying = Laying { covers: 2, panfuls, pans, fish: None };
                shipped::by_id("fillet").unwrap().laid_out(&laying).unwrap()
            } else {
                shipped::plain().unwrap().clone()
            },
            later_secs: later * 420,
        });
        let dish = dish.laid_out(&Laying { covers: 2, panfuls, pans, fish }).unwrap();
        let first = Laid {
            key: String::new(),
            name: "First".to_owned(),
            dish,
            later_secs: later * 420,
        };
        let mut dish = Dish::joined(first, others.collect()).unwrap();
        for (what, count) in Counted::ALL.into_iter().zip(counts) {
            dish.room = dish.room.with(what, count).unwrap();
        }
        dish
    }
}

fn tap(kind: u8, id: String) -> Tap {
    match kind {
        0 => Tap::Hold(id),
        1 => Tap::Resume(id),
        2 => Tap::More(id),
        3 => Tap::NotDone(id),
        4..=7 => Tap::Begin(id),
        _ => Tap::Done(id),
    }
}

/// Everything a timetable promises, checked from the dish and the run alone.
fn sound(
    dish: &Dish,
    missing: &BTreeSet<Kit>,
    cooks: u32,
    run: Option<&Run>,
    plan: &Timetable,
) -> Result<(), TestCaseError> {
    let from_start = plan.base.ms_since(START).div_euclid(1000);
    prop_assert_eq!(plan.slots.len(), dish.steps.len());
    let begun = |id: &str| run.and_then(|run| run.steps.get(id));
    let slot = |id: &str| plan.slot(id).unwrap().clone();
    let waves = dish.waves();
    let out = |wave: &Wave| slot(&wave.plating.id).start;
    let (first, last) = (waves.first().unwrap(), waves.last().unwrap());
    prop_assert_eq!(out(first), plan.plating);
    if run.is_none() {
        for wave in &waves {
            prop_assert_eq!(out(wave) - out(first), i64::from(wave.later_secs));
        }
        // Only what is kept for its own plate waits, and no longer than for that.
        let waits = plan.waits.iter().map(|(id, secs)| {
            let wave = dish.wave_of(id, &waves).unwrap();
            (out(&wave) - slot(id).end, *secs)
        });
        let waits: Vec<(i64, i64)> = waits.collect();
        prop_assert!(waits.iter().all(|(worked_out, said)| worked_out == said));
        prop_assert_eq!(
            waits.iter().map(|(secs, _)| secs).sum::<i64>(),
            plan.holding
        );
    }
    let (plating, plating_at) = (last.plating, out(last));
    let mut spans: Vec<(&str, Option<Station>, bool, Slot)> = Vec::new();
    for step in &dish.steps {
        let own = slot(&step.id);
        spans.push((&step.id, step.station, step.hands, own.clone()));
        if let Some(begun) = begun(&step.id) {
            // What has begun never moves.
            let began = begun.began.ms_since(START).div_euclid(1000);
            prop_assert_eq!(own.start + from_start, began, "{} moved", step.id);
            continue;
        }
        prop_assert!(own.start >= 0, "{} begins in the past", step.id);
        prop_assert_eq!(own.end - own.start, step.counts_ms(missing) / 1000);
        for link in &step.links {
            let other = slot(&link.to);
            let edge = if link.edge == Edge::Start {
                other.start
            } else {
                other.end
            };
            prop_assert!(
                own.start - edge >= i64::from(link.least),
                "{} too soon after {}",
                step.id,
                link.to
            );
            let past = begun(&link.to)
                .is_some_and(|b| link.edge == Edge::Start || b.done.is_some() || other.end <= 0);
            let lost = past && -edge > i64::from(link.most.unwrap_or(u32::MAX));
            let after = own.start > plating_at;
            if let Some(most) = link.most.filter(|_| !lost && !after) {
                prop_assert!(
                    own.start - edge <= i64::from(most),
                    "{} too late after {}",
                    step.id,
                    link.to
                );
            }
        }
        let before = step.id != plating.id && !own_is_after(dish, &plating.id, &step.id);
        prop_assert!(
            !before || own.end <= plating_at,
            "{} ends after plating begins",
            step.id
        );
    }
    for (at, (id, station, hands, span)) in spans.iter().enumerate() {
        if begun(id).is_some() || span.start == span.end {
            continue;
        }
        let over = |other: &&(&str, Option<Station>, bool, Slot)| {
            other.3.start <= span.start && span.start < other.3.end
        };
        let there = spans
            .iter()
            .enumerate()
            .filter(|(i, _)| *i != at)
            .map(|(_, s)| s);
        let full = |of: &dyn Fn(Station) -> bool, places: usize| {
            let taken = there.clone().filter(over).filter(|s| s.1.is_some_and(of));
            station.is_some_and(of) && taken.count() >= places
        };
        for kind in [Station::Pan, Station::Oven, Station::Board] {
            let is_full = full(&|other| other == kind, dish.planned_places(kind));
            prop_assert!(!is_full, "{id} finds no place at the {}", kind.name());
        }
        let burners = usize::try_from(dish.room.burners.unwrap_or(u32::MAX)).unwrap();
        let on_one = |station| matches!(station, Station::Pan | Station::Stove);
        prop_assert!(!full(&on_one, burners), "{id} finds no burner free");
        if *hands {
            let busy = there.filter(over).filter(|s| s.2).count();
            prop_assert!(
                busy < usize::try_from(cooks).unwrap(),
                "{id} finds no hands free"
            );
        }
    }
    for lane in &plan.lanes {
        let mut held = lane
            .turns
            .windows(2)
            .filter(|pair| pair[0].to > pair[1].from);
        prop_assert!(run.is_some() || held.next().is_none());
    }
    Ok(())
}

/// Whether a step waits for the plating, through whatever steps between.
fn own_is_after(dish: &Dish, plating: &str, id: &str) -> bool {
    let step = dish.step(id).unwrap();
    step.links
        .iter()
        .any(|link| link.to == plating || own_is_after(dish, plating, &link.to))
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(100))]

    #[test]
    fn a_plan_keeps_every_link_every_place_and_all_that_has_begun(
        dish in any_dish(),
        cooks in 1..=3_u32,
        bare: bool,
        taps in prop::collection::vec((0..12_u8, any::<Index>(), 0..120_000_i64), 0..25),
        wait in prop::option::of(0..3600_i64),
    ) {
        let missing: BTreeSet<Kit> = bare.then_some(Kit::NonStickPan).into_iter().collect();
        let service = Service { dish: &dish, missing: &missing, cooks };
        match Timetable::of(&service, None, None, START) {
            Ok(plan) => sound(&dish, &missing, cooks, None, &plan)?,
            Err(stuck) => prop_assert!(stuck.sentence.ends_with('.')),
        }
        let plate_at = wait.map(|secs| START.plus_secs(secs));
        let (mut run, mut now) = (Run::start(&dish, START), START);
        for (kind, which, later) in taps {
            now = now.plus_ms(later);
            run = run.tap(&dish, &missing, &tap(kind, which.get(&dish.steps).id.clone()), now).unwrap_or(run);
            match Timetable::of(&service, Some(&run), plate_at, now) {
                Ok(plan) => {
                    sound(&dish, &missing, cooks, Some(&run), &plan)?;
                    let told = plan.at(plan.plating);
                    prop_assert!(plate_at.is_none_or(|at| told >= at), "plated before its hour");
                }
                Err(stuck) => {
                    prop_assert!(stuck.sentence.ends_with('.'), "{}", stuck.sentence);
                    let ways = stuck.ways.into_iter().filter_map(|(_, change)| change);
                    // A second cook is none of the dish's own.
                    for change in ways.filter(|change| *change != Change::Cook) {
                        prop_assert_ne!(dish.eased(&change), dish.clone(), "{:?}", change);
                    }
                }
            }
        }
    }

    /// A dish that no check has seen ends in a sentence, never in a panic.
    #[test]
    fn what_makes_no_sense_is_a_sentence(
        secs in prop::collection::vec(any::<u32>(), 4),
        which in any::<Index>(),
        to in any::<String>(),
        pans: u32,
        cooks: u32,
    ) {
        let mut dish = shipped::by_id("bream").unwrap().clone();
        let at = which.index(dish.steps.len());
        let step = &mut dish.steps[at];
        step.lasts = Some(secs[0]);
        step.hands_first = secs[1];
        if let Some(link) = step.links.first_mut() {
            (link.least, link.most, link.to) = (secs[2], Some(secs[3]), to);
        }
        dish.pans = pans;
        let service = Service { dish: &dish, missing: &BTreeSet::new(), cooks };
        for now in [START, Instant(i64::MAX), Instant(i64::MIN)] {
            let run = Run::start(&dish, START);
            for run in [None, Some(&run)] {
                if let Err(stuck) = Timetable::of(&service, run, Some(START), now) {
                    prop_assert!(stuck.sentence.ends_with('.'), "{}", stuck.sentence);
                }
            }
        }
        dish.take_times(FishTimes { skin: secs[0], finish: secs[1], rest: secs[2] }, |step| panful(&step.id).1 >= secs[3]);
        let twenty = Laying { covers: 2, panfuls: 20, pans: 2, fish: None };
        let laid = dish.laid_out(&twenty).is_ok();
        prop_assert!(laid || menu::sound(dish).is_err());
    }
}
