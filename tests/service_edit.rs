//! A dish changed step by step: what is taken, and the sentence beside what is not.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::indexing_slicing,
    clippy::panic,
    missing_docs
)]

use scaleside::service::dish::Dish;
use scaleside::service::dish::shipped;
use scaleside::service::dish::step::{Edge, Station};
use scaleside::service::menu::draft::{LinkDraft, StepDraft};
use scaleside::service::menu::edit::{Edit, OWN};
use scaleside::service::menu::field::Field;

fn bream() -> &'static Dish {
    shipped::by_id("bream").unwrap()
}

fn draft(step: &str) -> StepDraft {
    StepDraft::of(bream().step(step).unwrap())
}

fn step(id: &str, change: impl FnOnce(&mut StepDraft)) -> Edit {
    let mut draft = draft(id);
    change(&mut draft);
    Edit::Step(id.to_owned(), Box::new(draft))
}

#[test]
fn a_draft_that_is_not_changed_changes_nothing() {
    for dish in shipped::dishes().unwrap() {
        for step in &dish.steps {
            let edit = Edit::Step(step.id.clone(), Box::new(StepDraft::of(step)));
            let edited = dish.edited(&edit).unwrap();
            assert_eq!(edited.id, OWN);
            assert_eq!(edited.steps, dish.steps, "{}", step.id);
        }
    }
}

#[test]
fn what_is_typed_is_what_the_step_becomes() {
    let edited = bream()
        .edited(&step("leeks", |draft| {
            draft.title = " Fennel into the same pan ".to_owned();
            draft.secs = "4:30".to_owned();
            draft.station = Some(Station::Stove);
            draft.hands_first = "25".to_owned();
            draft.links[0].most = "1:40".to_owned();
        }))
        .unwrap();
    let step = edited.step("leeks").unwrap();
    assert_eq!(step.title, "Fennel into the same pan");
    assert_eq!((step.lasts, step.hands_first), (Some(270), 25));
    assert_eq!(step.station, Some(Station::Stove));
    assert_eq!(step.links[0].most, Some(100));
    // A step that ends by eye has no timer; its time is only reckoned with.
    let by_eye = bream()
        .edited(&self::step("rest", |draft| draft.timed = false))
        .unwrap();
    let rest = by_eye.step("rest").unwrap();
    assert_eq!((rest.lasts, rest.takes), (None, 240));
}

#[test]
fn steps_are_added_moved_and_taken_out() {
    let ids = |dish: &Dish| -> Vec<String> { dish.steps.iter().map(|s| s.id.clone()).collect() };
    let added = bream().edited(&Edit::Add).unwrap();
    let at = |dish: &Dish, id: &str| ids(dish).iter().position(|s| s == id).unwrap();
    assert_eq!(at(&added, "own1") + 1, at(&added, "plate"));
    let twice = added.edited(&Edit::Add).unwrap();
    assert!(twice.step("own2").is_some());
    let up = added.edited(&Edit::Up("own1".to_owned())).unwrap();
    assert_eq!(at(&up, "own1") + 1, at(&up, "leaves"));
    let down = up.edited(&Edit::Down("own1".to_owned())).unwrap();
    assert_eq!(ids(&down), ids(&added));
    let without = down.edited(&Edit::Remove("own1".to_owned())).unwrap();
    assert_eq!(without.steps, bream().steps);
    let named = bream()
        .edited(&Edit::Name("Tuesday fish".to_owned()))
        .unwrap();
    assert_eq!(named.name, "Tuesday fish");
}

#[test]
fn what_can_not_be_is_refused_beside_its_field() {
    let long = "x".repeat(300);
    let gap = |to: &str| LinkDraft {
        to: to.to_owned(),
        edge: Edge::End,
        least: String::new(),
        most: String::new(),
    };
    let cases: Vec<(Edit, Field, &str)> = vec![
        (
            step("leeks", |d| d.title.clear()),
            Field::Title,
            "Give the step a name.",
        ),
        (
            step("leeks", |d| d.title = long.clone()),
            Field::Title,
            "60 letters",
        ),
        (
            step("leeks", |d| d.say = " ".to_owned()),
            Field::Say,
            "Say what is to be done.",
        ),
        (
            step("leeks", |d| d.caution = long.clone()),
            Field::Caution,
            "240 letters",
        ),
        (
            step("leeks", |d| d.secs = "three".to_owned()),
            Field::Secs,
            "“three” is no time",
        ),
        (
            step("leeks", |d| d.secs = "1:75".to_owned()),
            Field::Secs,
            "is no time",
        ),
        (
            step("leeks", |d| d.secs = "-5".to_owned()),
            Field::Secs,
            "is no time",
        ),
        (
            step("leeks", |d| d.secs = "0".to_owned()),
            Field::Secs,
            "more than no time",
        ),
        (
            step("leeks", |d| d.secs = "99999".to_owned()),
            Field::Secs,
            "four hours",
        ),
        (
            step("leeks", |d| d.hands_first = "181".to_owned()),
            Field::HandsFirst,
            "longer than the step",
        ),
        (
            step("plate", |d| d.links[1].least = "5:00".to_owned()),
            Field::Gap(1),
            "swap them",
        ),
        (
            step("plate", |d| d.links[2].most = "soon".to_owned()),
            Field::Gap(2),
            "is no time",
        ),
        (
            step("leeks", |d| d.links.push(gap("stew"))),
            Field::Whole,
            "not a step of this dish",
        ),
        (
            step("leeks", |d| d.links.push(gap("leeks"))),
            Field::Whole,
            "waits for itself",
        ),
        (
            step("heat_pan", |d| d.links.push(gap("rest"))),
            Field::Whole,
            "wait for each other",
        ),
        (step("plate", |d| d.station = None), Field::Whole, ""),
        (
            Edit::Step("stew".to_owned(), Box::new(draft("leeks"))),
            Field::Whole,
            "no longer part",
        ),
        (
            Edit::Remove("rest".to_owned()),
            Field::Whole,
            "“Plate” waits for this step",
        ),
        (Edit::Up("skin_side".to_owned()), Field::Whole, "waits for"),
        (
            Edit::Name(String::new()),
            Field::Title,
            "Give the dish a name.",
        ),
    ];
    for (edit, field, sentence) in cases {
        let dish = if sentence.is_empty() {
            // With its garnish gone as well, no step is left at the plate.
            bream()
                .edited(&Edit::Remove("garnish".to_owned()))
                .unwrap()
                .into_dish()
        } else {
            bream().clone()
        };
        let fault = dish.edited(&edit).unwrap_err();
        assert_eq!(fault.field, field, "{edit:?}");
        let said = fault.refusal.to_string();
        assert!(
            said.contains(sentence) && said.ends_with('.'),
            "{edit:?}: {said}"
        );
    }
}

#[test]
fn a_dish_holds_forty_steps() {
    let full = (bream().steps.len()..40).fold(bream().clone(), |dish, _| {
        dish.edited(&Edit::Add).unwrap().into_dish()
    });
    assert_eq!(full.steps.len(), 40);
    assert!(full.edited(&Edit::Add).is_err());
}
