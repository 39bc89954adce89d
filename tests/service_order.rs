//! Whatever dish is cooked and whatever is tapped, on whatever clock: nothing happens before what it
//! waits for, and nothing still to come is thought to have happened.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::indexing_slicing,
    clippy::panic,
    missing_docs
)]

use std::collections::BTreeSet;

use proptest::prelude::*;
use scaleside::base::instant::Instant;
use scaleside::base::kit::Kit;
use scaleside::service::dish::Dish;
use scaleside::service::dish::kitchen_room::KitchenRoom;
use scaleside::service::dish::step::{Begins, Detour, Edge, Link, Station, Step};
use scaleside::service::run::state::{StepState, rung};
use scaleside::service::run::{Run, Tap};
use scaleside::service::timetable::Timetable;
use scaleside::service::timetable::face::{faces, plate_at};
use scaleside::service::timetable::of_dish::Service;

prop_compose! {
    /// A step that waits for some of those before it; its number is its id.
    fn any_step(number: usize)(
        links in prop::collection::vec((any::<prop::sample::Index>(), any::<bool>(), 0..90_u32, prop::option::of(0..200_u32)), 0..3),
        station in prop::option::of(prop::sample::select(vec![Station::Pan, Station::Board, Station::Plate])),
        lasts in prop::option::of(1..300_u32),
        takes in 0..60_u32,
        hands: bool,
        at_once: bool,
        adds in prop::option::of(-400..60_i32),
    ) -> Step {
        let links = if number == 0 { vec![] } else { links };
        Step {
            id: number.to_string(),
            title: format!("Step {number}"),
            say: "Do it.".to_owned(),
            caution: None,
            of_fish: None,
            oven_c: None,
            station: if number == 0 { Some(Station::Plate) } else { station },
            lasts,
            takes,
            per_cover: 0,
            hands,
            hands_first: 0,
            begins: if at_once { Begins::AtOnce } else { Begins::Tap },
            links: links
                .into_iter()
                .map(|(to, end, least, width)| {
                    let least = if at_once { 0 } else { least };
                    Link {
                        to: to.index(number).to_string(),
                        edge: if end { Edge::End } else { Edge::Start },
                        least,
                        most: width.map(|w| least + w),
                    }
                })
                .collect(),
            done_word: "Done".to_owned(),
            detours: adds
                .map(|adds_secs| Detour { without: Kit::Probe, say: "Else.".to_owned(), caution: None, adds_secs })
                .into_iter()
                .collect(),
            note: None,
        }
    }
}

prop_compose! {
    fn any_dish()(steps in (1..9_usize).prop_flat_map(|n| (0..n).map(any_step).collect::<Vec<_>>())) -> Dish {
        let dish = Dish {
            id: "any".to_owned(),
            name: "Any dish".to_owned(),
            covers: 1,
            portion_g: 150,
            pans: 1,
            oven_within_c: 10,
            oven_change_secs: 600,
            mise: vec![],
            steps,
            plate_check: vec![],
            allergens: vec![],
            cautions: vec![],
            members: vec![],
            room: KitchenRoom::default(),
        };
        let read = |dish: &Dish| Dish::parse(&serde_json::to_string(dish).unwrap());
        read(&dish).unwrap_or_else(|_| {
            // Greatest gaps that can't be kept together: the same dish without them is sound.
            let mut loose = dish;
            loose.steps.iter_mut().flat_map(|s| &mut s.links).for_each(|l| l.most = None);
            read(&loose).unwrap()
        })
    }
}

fn any_taps() -> impl Strategy<Value = Vec<(u8, prop::sample::Index, i64)>> {
    prop::collection::vec(
        (
            0..9_u8,
            any::<prop::sample::Index>(),
            prop_oneof![4 => 0..200_000_i64, 1 => -90_000..0_i64],
        ),
        0..40,
    )
}

fn tap(word: u8, id: String) -> Tap {
    match word {
        0 => Tap::Hold(id),
        1 => Tap::Resume(id),
        2 => Tap::More(id),
        3 => Tap::NotDone(id),
        4..=6 => Tap::Begin(id),
        _ => Tap::Done(id),
    }
}

/// What holds at every moment of every service.
fn sound(
    dish: &Dish,
    missing: &BTreeSet<Kit>,
    run: &Run,
    now: Instant,
) -> Result<(), TestCaseError> {
    let run = run.as_of(now);
    let shown = faces(dish, missing, &run, &None, now);
    prop_assert_eq!(shown.len(), dish.steps.len());
    let mut over = vec![];
    for (step, face_of) in dish.steps.iter().zip(&shown) {
        let begun = run.steps.get(&step.id);
        prop_assert!(face_of.span.is_none_or(|(start, end)| start <= end));
        prop_assert_eq!(face_of.span.is_some(), begun.is_some());
        match &face_of.state {
            StepState::Done { at } => {
                prop_assert_eq!(begun.unwrap().done, Some(*at));
                prop_assert!(
                    run.started <= begun.unwrap().began
                        && begun.unwrap().began <= *at
                        && *at <= now
                );
                prop_assert_eq!(face_of.span.unwrap().1, *at);
            }
            StepState::Waiting { on, ready_at } => {
                prop_assert!(begun.is_none() && (!on.is_empty() || ready_at.unwrap() > now));
            }
            StepState::Ready { since } => prop_assert!(begun.is_none() && *since <= now),
            open => {
                prop_assert!(begun.unwrap().is_open() && begun.unwrap().began <= now);
                prop_assert!(face_of.span.unwrap().1 >= now);
                match open {
                    StepState::Running { left_ms, of_ms, .. }
                    | StepState::Held { left_ms, of_ms, .. } => {
                        prop_assert!((0..=*of_ms).contains(left_ms));
                    }
                    StepState::Over { ends, over_ms, .. } => {
                        prop_assert!(*ends <= now && *over_ms == now.ms_since(*ends));
                        over.push(step.id.clone());
                    }
                    _ => {}
                }
            }
        }
    }
    let in_pan = dish
        .steps
        .iter()
        .filter(|s| s.station == Some(Station::Pan));
    prop_assert!(
        in_pan
            .filter(|s| run.steps.get(&s.id).is_some_and(|b| b.is_open()))
            .count()
            <= 1
    );
    let rung: Vec<String> = rung(dish, missing, &run, now)
        .into_iter()
        .map(|(id, _)| id)
        .collect();
    prop_assert_eq!(rung, over);
    Ok(())
}

fn waits_for(dish: &Dish, step: &Step, id: &str) -> bool {
    step.links.iter().any(|link| {
        let earlier = dish.step(&link.to).unwrap();
        link.to == id || waits_for(dish, earlier, id)
    })
}

/// What holds of what is still to come, once it is planned: nothing lies in the past, and every least gap is kept.
fn planned_soundly(
    dish: &Dish,
    missing: &BTreeSet<Kit>,
    run: &Run,
    now: Instant,
) -> Result<(), TestCaseError> {
    let service = Service {
        dish,
        missing,
        cooks: 1,
    };
    let plating = dish
        .steps
        .iter()
        .find(|step| step.station == Some(Station::Plate))
        .unwrap();
    if run.steps.contains_key(&plating.id) {
        // Nothing is left to plan.
        return Ok(());
    }
    let planned = Some(Timetable::of(&service, Some(run), None, now));
    let run = run.as_of(now);
    let shown = faces(dish, missing, &run, &planned, now);
    let face = |id: &str| shown.iter().find(|f| f.id == id).unwrap();
    for (step, face_of) in dish.steps.iter().zip(&shown) {
        if run.steps.contains_key(&step.id) {
            continue;
        }
        let (start, end) = face_of.span.unwrap();
        prop_assert!(start >= now && end >= start);
        // Times are planned in whole seconds.
        let start = start.plus_ms(999);
        for link in &step.links {
            let (began, ended) = face(&link.to).span.unwrap();
            let edge = match link.edge {
                Edge::Start => began,
                Edge::End => ended,
            };
            prop_assert!(start >= edge.plus_secs(i64::from(link.least)));
        }
        // A plan that fits keeps every gap that is still to come: no warning at the stove that is not so.
        let to_come = step
            .links
            .iter()
            .all(|link| !run.steps.contains_key(&link.to));
        // What waits for the plating is not planned; it may last no time and end with it.
        let planned_for = step.id == plating.id
            || end <= plate_at(dish, &run, &planned).unwrap().0
                && !waits_for(dish, step, &plating.id);
        let fits = matches!(planned, Some(Ok(_)));
        prop_assert!(!(fits && to_come && planned_for) || face_of.warning.is_none());
    }
    prop_assert!(plate_at(dish, &run, &planned).unwrap().0.plus_ms(999) >= run.started);
    Ok(())
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(300))]

    #[test]
    fn the_order_of_time_is_kept(dish in any_dish(), taps in any_taps(), bare: bool) {
        let missing: BTreeSet<Kit> = bare.then_some(Kit::Probe).into_iter().collect();
        let mut now = Instant(1_790_000_000_000);
        let mut run = Run::start(&dish, now);
        sound(&dish, &missing, &run, now)?;
        for (word, which, later) in taps {
            now = now.plus_ms(later);
            let id = which.get(&dish.steps).id.clone();
            let before = faces(&dish, &missing, &run, &None, now);
            match run.tap(&dish, &missing, &tap(word, id.clone()), now) {
                Ok(after) => {
                    run = after;
                    let state = faces(&dish, &missing, &run, &None, now).into_iter().find(|f| f.id == id).unwrap().state;
                    match word {
                        3 => prop_assert!(!matches!(state, StepState::Done { .. }), "still done"),
                        7.. => prop_assert_eq!(state, StepState::Done { at: now }),
                        _ => prop_assert!(run.steps.contains_key(&id)),
                    }
                }
                Err(refusal) => {
                    prop_assert!(refusal.to_string().ends_with('.'));
                    prop_assert_eq!(before, faces(&dish, &missing, &run, &None, now));
                }
            }
            sound(&dish, &missing, &run, now)?;
            sound(&dish, &missing, &run, now.plus_ms(later / 2))?;
            let kept: Run = serde_json::from_str(&serde_json::to_string(&run).unwrap()).unwrap();
            prop_assert_eq!(faces(&dish, &missing, &kept, &None, now), faces(&dish, &missing, &run, &None, now));
        }
        planned_soundly(&dish, &missing, &run, now)?;
    }

    /// Ready means that a tap is taken, and waiting that it is refused.
    #[test]
    fn a_face_that_says_ready_can_begin(dish in any_dish(), taps in any_taps()) {
        let missing = BTreeSet::new();
        let mut now = Instant(1_790_000_000_000);
        let mut run = Run::start(&dish, now);
        for (word, which, later) in taps {
            now = now.plus_ms(later);
            if let Ok(after) = run.tap(&dish, &missing, &tap(word, which.get(&dish.steps).id.clone()), now) {
                run = after;
            }
        }
        for face in faces(&dish, &missing, &run, &None, now) {
            let ready = matches!(face.state, StepState::Ready { .. });
            prop_assert_eq!(run.tap(&dish, &missing, &Tap::Begin(face.id), now).is_ok(), ready);
        }
    }
}
