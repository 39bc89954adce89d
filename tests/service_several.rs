//! Several dishes in one service: for the same guests, and for later ones.
#![cfg(not(target_arch = "wasm32"))]
#![allow(
    clippy::unwrap_used,
    clippy::indexing_slicing,
    clippy::panic,
    missing_docs
)]

mod service_cooked;

use std::collections::BTreeSet;

use scaleside::base::instant::Instant;
use scaleside::cards::ingredient::{Ingredient, Origin};
use scaleside::cards::larder::Larder;
use scaleside::cards::recipe::{Recipe, RecipeAction, Serves};
use scaleside::fish::action::Action;
use scaleside::fish::alongside::{AlongsideTap, MOST_ALONGSIDE};
use scaleside::fish::demo;
use scaleside::fish::record::Fish;
use scaleside::fish::serving::PlanTap;
use scaleside::fish::settings::Settings;
use scaleside::fish::weighing::Which;
use scaleside::service::dish::Sound;
use scaleside::service::plan::Proof;
use scaleside::store::entry::Entry;
use scaleside::trade::plate::allergens::AllergenList;
use service_cooked::{NOW, begun, cooked};

fn with_larder<T>(work: impl FnOnce(Larder) -> T) -> T {
    work(Larder {
        fish: &|_| None,
        card: &|_| None,
        careful: &|_| None,
        list: AllergenList::Europe,
    })
}

/// A dish of one line, with the steps it starts from.
fn card(name: &str, line: &str, origin: Origin) -> Recipe {
    let mut card = Recipe::new(Serves::Covers, NOW, &Settings::default());
    card.name = name.to_owned();
    card.covers = "4".to_owned();
    card.lines = vec![Ingredient {
        id: "1".to_owned(),
        name: line.to_owned(),
        quantity: "600".to_owned(),
        origin,
        ..Ingredient::default()
    }];
    let is = Box::new(card.starting().unwrap().clone());
    card.apply(&RecipeAction::Steps { was: None, is }, NOW)
        .unwrap()
}

fn beetroot() -> Recipe {
    card("Baked beetroot, dill", "Beetroot", Origin::Bought)
}

fn hake() -> Recipe {
    card("Hake in the pan", "Hake", Origin::TypedFish)
}

fn sound(card: &Recipe) -> Box<Sound> {
    match with_larder(|larder| card.chosen("card", larder)) {
        Some(Ok(PlanTap::Card(_, dish))) => dish,
        other => panic!("{other:?}"),
    }
}

fn tap(fish: &Fish, tap: AlongsideTap) -> Fish {
    fish.apply(&Action::Plan(PlanTap::Alongside(tap)), NOW)
        .unwrap()
}

fn refused(fish: &Fish, tap: AlongsideTap) -> String {
    let tap = Action::Plan(PlanTap::Alongside(tap));
    fish.apply(&tap, NOW).unwrap_err().to_string()
}

fn add(fish: &Fish, id: &str, card: &Recipe) -> Fish {
    let from = Some((id.to_owned(), sound(card)));
    tap(fish, AlongsideTap::Add(id.to_owned(), from))
}

/// The bream of the demo, weighed.
fn bream() -> Fish {
    let fish = demo::bream("a".into(), NOW, &Settings::default());
    let take = |which| Action::Take { which, sure: true };
    [take(Which::Whole), Action::Raw(true), take(Which::Ready)]
        .into_iter()
        .fold(fish, |fish, action| fish.apply(&action, NOW).unwrap())
}

/// Two covers of bream, four of hake with it, and the bream again twenty minutes later.
fn evening() -> Fish {
    let fish = add(&bream(), "k1", &hake());
    let fish = tap(&fish, AlongsideTap::AtOnce("k1".into(), "4".into()));
    let fish = tap(&fish, AlongsideTap::Add("k2".into(), None));
    tap(&fish, AlongsideTap::Later(Some("k2".into()), "20".into()))
}

fn clock(plan_at: Instant) -> i64 {
    plan_at.ms_since(NOW) / 1000
}

#[test]
fn one_plan_holds_them_all() {
    let fish = evening();
    let dish = fish.laid_out().unwrap();
    let names: Vec<&str> = dish.members.iter().map(|one| one.name.as_str()).collect();
    // By their plates: the first of the list last of its guests.
    assert_eq!(names, ["Hake", "Bream", "Bream +20"]);
    let cooks = fish.apply(&Action::Plan(PlanTap::Cooks(2)), NOW).unwrap();
    let cooks = cooks.apply(&Action::Plan(PlanTap::Pans(2)), NOW).unwrap();
    let plan = cooks.timetable(NOW).unwrap();
    let plates = plan.plates(&dish);
    assert_eq!((plates.len(), plates[1] - plates[0]), (2, 20 * 60));
    assert_eq!(plates[0], plan.plating);
    // An hour for the first plate is the hour of the first, and the later ones follow it.
    let at = NOW.plus_secs(7200);
    let asked = cooks
        .apply(&Action::Plan(PlanTap::PlateAt(Some(at))), NOW)
        .unwrap();
    let plan = asked.timetable(NOW).unwrap();
    let hours: Vec<i64> = plan
        .plates(&dish)
        .into_iter()
        .map(|secs| clock(plan.at(secs)))
        .collect();
    assert_eq!(hours, [7200, 8400]);
    // A cook is named, and it is said who does what.
    let named = asked
        .apply(&Action::Plan(PlanTap::Cook(2, "Noor".into())), NOW)
        .unwrap();
    assert_eq!(named.serving().names, ["", "Noor"]);
    let busy: BTreeSet<usize> = (dish.steps.iter())
        .filter_map(|step| plan.whose(&step.id))
        .collect();
    assert_eq!(busy, [1, 2].into());
    // It is kept as it is.
    let kept: Fish = serde_json::from_str(&serde_json::to_string(&named).unwrap()).unwrap();
    assert_eq!(kept, named);
}

/// An hour between two guests leaves each as if alone: what waits is the sum of both, and each step comes as long before
/// its own plate.
#[test]
fn guests_far_apart_are_served_as_if_alone() {
    let alone = bream();
    let alone_plan = alone.timetable(NOW).unwrap();
    let both = tap(&alone, AlongsideTap::Add("k1".into(), None));
    let both = tap(&both, AlongsideTap::Later(Some("k1".into()), "60".into()));
    let plan = both.timetable(NOW).unwrap();
    assert_eq!(plan.proof, Proof::Optimal);
    assert_eq!(plan.holding, 2 * alone_plan.holding);
    for slot in &alone_plan.slots {
        let to_plate = alone_plan.plating - slot.start;
        if slot.start > alone_plan.plating {
            continue;
        }
        for (id, plate) in [
            (slot.task.clone(), plan.plating),
            (format!("k1.{}", slot.task), plan.plating + 3600),
        ] {
            let start = plan.slot(&id).unwrap().start;
            // What need not be fresh may come sooner.
            assert!(plate - start >= to_plate, "{id}");
        }
    }
}

#[test]
fn it_is_cooked_to_its_end_by_what_is_due() {
    let fish = evening();
    let fish = fish.apply(&Action::Plan(PlanTap::Cooks(2)), NOW).unwrap();
    let fish = begun(&fish.apply(&Action::Plan(PlanTap::Pans(2)), NOW).unwrap());
    let late = refused(&fish, AlongsideTap::Out("k1".into()));
    assert_eq!(
        late,
        "The service has begun: start it again to change this."
    );
    let (warned, _, over) = cooked(&fish);
    assert_eq!(warned, [""; 0]);
    let run = over.run.as_ref().unwrap();
    let out: Vec<i64> = (over.dish().unwrap().waves().iter())
        .map(|wave| clock(run.steps[&wave.plating.id].began))
        .collect();
    // Looked at every five seconds.
    assert!((1200..1220).contains(&(out[1] - out[0])), "{out:?}");
    assert!(over.is_plated());
    // The plates of both guests are asked about, each dish by its name.
    let asks = &over.dish().unwrap().plate_check;
    assert!(asks.iter().any(|check| check.ask.starts_with("Hake: ")));
}

#[test]
fn what_is_made_ready_and_warned_of_is_everyones() {
    let fish = add(&bream(), "k1", &beetroot());
    let served = fish.served().unwrap();
    let says = |what: &str| {
        served
            .mise
            .iter()
            .filter(|line| line.say.contains(what))
            .count()
    };
    assert_eq!(says("Beetroot (Baked beetroot): 600"), 1);
    // One cloth and warm plates do for both.
    let said: BTreeSet<&str> = served.mise.iter().map(|line| line.say.as_str()).collect();
    assert_eq!(said.len(), served.mise.len());
    let alone = bream();
    assert!(
        fish.not_ready().unwrap().unwrap().to_string()
            != alone.not_ready().unwrap().unwrap().to_string()
    );
    assert!(
        alone
            .served()
            .unwrap()
            .allergens
            .iter()
            .all(|one| served.allergens.contains(one))
    );
}

#[test]
fn what_makes_no_sense_is_a_sentence() {
    let fish = add(&bream(), "k1", &hake());
    for (text, sentence) in [
        ("soon", "Minutes later are a whole number, such as 20."),
        (
            "999",
            "A plate that comes more than 240 minutes later is a service of its own.",
        ),
    ] {
        // What is typed stays, and the plan says what it lacks.
        let typed = tap(&fish, AlongsideTap::Later(Some("k1".into()), text.into()));
        assert_eq!(typed.timetable(NOW).unwrap_err().sentence, sentence);
    }
    let none = tap(&fish, AlongsideTap::Covers("k1".into(), String::new()));
    assert!(none.timetable(NOW).is_err());
    let full = (2..=MOST_ALONGSIDE).fold(fish, |fish, nth| {
        add(&fish, &format!("k{nth}"), &beetroot())
    });
    let more = refused(&full, AlongsideTap::Add("k9".into(), None));
    assert_eq!(
        more,
        "One service takes six dishes at most: start another for the rest."
    );
    let gone = refused(&full, AlongsideTap::Covers("k9".into(), "2".into()));
    assert_eq!(gone, "This dish has been taken out of the service.");
    let six = full.timetable(NOW);
    assert!(six.is_ok() || six.unwrap_err().sentence.ends_with('.'));
}
