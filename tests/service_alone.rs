//! The service of a dish alone: planned and cooked from its card, fish or not, with nothing weighed.
#![cfg(not(target_arch = "wasm32"))]
#![allow(
    clippy::unwrap_used,
    clippy::indexing_slicing,
    clippy::panic,
    missing_docs
)]

mod service_cooked;

use scaleside::cards::demo_dish;
use scaleside::cards::ingredient::{Ingredient, Origin};
use scaleside::cards::larder::Larder;
use scaleside::cards::recipe::{Recipe, RecipeAction, Serves};
use scaleside::compare::table;
use scaleside::compare::test::Test;
use scaleside::fish::action::Action;
use scaleside::fish::record::Fish;
use scaleside::fish::serving::PlanTap;
use scaleside::fish::settings::Settings;
use scaleside::fish::slip::Species;
use scaleside::place::Stage;
use scaleside::store::entry::Entry;
use scaleside::trade::plate::allergens::{Allergen, AllergenList};
use service_cooked::{NOW, begun, cooked};

fn with_larder<T>(cards: &[(&str, Recipe)], work: impl FnOnce(Larder) -> T) -> T {
    work(Larder {
        fish: &|_| None,
        card: &|id| {
            let found = cards.iter().find(|(known, _)| *known == id);
            found.map(|(_, card)| card.clone())
        },
        careful: &|_| None,
        list: AllergenList::Europe,
    })
}

fn line(id: &str, name: &str, origin: Origin) -> Ingredient {
    Ingredient {
        id: id.to_owned(),
        name: name.to_owned(),
        quantity: "200".to_owned(),
        origin,
        ..Ingredient::default()
    }
}

/// A dish of these lines for four covers, with the steps it starts from.
fn dish(lines: Vec<Ingredient>) -> Recipe {
    let mut card = Recipe::new(Serves::Covers, NOW, &Settings::default());
    card.name = "Baked beetroot".to_owned();
    card.covers = "4".to_owned();
    card.lines = lines;
    let is = Box::new(card.starting().unwrap().clone());
    card.apply(&RecipeAction::Steps { was: None, is }, NOW)
        .unwrap()
}

fn served(card: &Recipe) -> Fish {
    let made = with_larder(&[], |larder| {
        card.served_alone("card", "s1".into(), NOW, (&Settings::default(), larder))
    });
    made.unwrap().unwrap()
}

fn beetroot() -> Recipe {
    dish(vec![
        line("1", "Beetroot", Origin::Bought),
        line("2", "Goat's cheese", Origin::Bought),
    ])
}

#[test]
fn a_dish_without_fish_is_planned_cooked_and_put_away() {
    let fish = served(&beetroot());
    assert!(fish.is_alone());
    assert_eq!(
        (fish.name().as_str(), fish.next_stage()),
        ("Baked beetroot", Stage::Prepare)
    );
    assert_eq!(fish.slip.portions, "4");
    let own = fish.dish().unwrap();
    assert!(!own.has_fish() && !fish.is_untimed());
    // Its mise en place is its own lines, and the plates.
    let ready: Vec<&str> = own
        .mise
        .iter()
        .map(|line| line.brief(&fish.slip.missing))
        .collect();
    assert_eq!(
        ready,
        ["Beetroot", "Goat's cheese", "One plate for each cover"]
    );
    assert_eq!(
        own.mise[0].say,
        "Beetroot: 200 g for 4 covers, ready to use."
    );
    assert!(fish.timetable(NOW).is_ok());
    // It is held back as any service is.
    let refusal = fish
        .apply(&Action::Start { insist: false }, NOW)
        .unwrap_err();
    assert!(refusal.to_string().contains("not ready"), "{refusal}");
    let fish = begun(&fish);
    assert!(fish.is_cooking());
    assert_eq!(fish.next_stage(), Stage::Service);
    let (warned, secs, fish) = cooked(&fish);
    assert_eq!(warned, [""; 0]);
    // Ten minutes of the part that stands as an example, two minutes to plate for four, the rims.
    assert!((760..800).contains(&secs), "{secs}");
    assert!(!fish.is_cooking());
    assert_eq!(fish.next_stage(), Stage::Pass);
    let fish = fish.apply(&Action::Finish(true), NOW).unwrap();
    assert_eq!(fish.next_stage(), Stage::Summary);
}

#[test]
fn it_is_no_test_of_a_fish_and_is_read_again() {
    let fish = served(&beetroot());
    assert!(Test::of(&fish, 0).is_none());
    assert!(fish.yield_sheet().is_none());
    let written = table::write([&fish]).unwrap();
    assert_eq!(written.lines().count(), 1, "the heading alone");
    let text = serde_json::to_string(&begun(&fish)).unwrap();
    let again: Fish = serde_json::from_str(&text).unwrap();
    assert!(again.is_alone() && again.run.is_some());
    // A fish that an earlier build kept is none.
    let weighed = Fish::new("a1".into(), NOW, &Settings::default());
    let text = serde_json::to_string(&weighed).unwrap();
    assert!(!text.contains("alone"), "{text}");
    assert!(!serde_json::from_str::<Fish>(&text).unwrap().is_alone());
}

#[test]
fn a_dish_of_fish_is_served_alone_with_its_fish_known() {
    let settings = Settings::default();
    let mut card = demo_dish::bream_plate("sauce", NOW, &settings);
    card.lines[0].origin = Origin::PublishedFish(
        "gilthead_bream".into(),
        scaleside::trade::breakdown::DeliveryForm::Whole,
    );
    let is = Box::new(card.starting().unwrap().clone());
    let card = card
        .apply(&RecipeAction::Steps { was: None, is }, NOW)
        .unwrap();
    let fish = served(&card);
    assert!(fish.dish().unwrap().has_fish());
    assert_eq!(
        fish.slip.species,
        Some(Species::Listed("gilthead_bream".into()))
    );
    let raw = &fish.dish().unwrap().mise[0];
    assert!(
        raw.caution.as_ref().unwrap().starts_with("Raw fish"),
        "{raw:?}"
    );
    // Two covers in two panfuls quarrel; all the fish in one pan does not.
    assert!(fish.timetable(NOW).is_ok());
    let halves = fish
        .apply(&Action::Plan(PlanTap::AtOnce("1".into())), NOW)
        .unwrap();
    assert!(halves.timetable(NOW).is_err());
    let (warned, _, _) = cooked(&begun(&fish));
    assert_eq!(warned, [""; 0]);
}

/// A part that takes longer than the fish: nothing waits, and nobody is told that something does.
#[test]
fn a_part_longer_than_the_fish_brings_no_warning() {
    let settings = Settings::default();
    for long in [600, 1800, 2700] {
        let mut card = demo_dish::bream_plate("sauce", NOW, &settings);
        let mut steps = card.starting().unwrap().clone();
        let mut potatoes = steps.step("rest").unwrap().clone();
        potatoes.id = "own1".into();
        potatoes.title = "Potatoes in the oven".into();
        potatoes.of_fish = None;
        potatoes.station = Some(scaleside::service::dish::step::Station::Oven);
        potatoes.begins = scaleside::service::dish::step::Begins::Tap;
        potatoes.lasts = Some(long);
        potatoes.hands_first = 20;
        potatoes.links = Vec::new();
        let plate = steps
            .steps
            .iter()
            .position(|step| step.id == "plate")
            .unwrap();
        let mut link = steps.steps[plate].links[1].clone();
        link.to = "own1".into();
        steps.steps[plate].links.push(link);
        steps.steps.insert(plate, potatoes);
        card.steps = Some(Box::new(steps));
        let fish = served(&card);
        let plan = fish.timetable(NOW).unwrap();
        assert_eq!(plan.holding, 0, "{}", plan.proof_said());
        let (warned, secs, _) = cooked(&begun(&fish));
        assert_eq!(warned, [""; 0], "{long}");
        assert!(secs >= i64::from(long), "{secs}");
    }
}

#[test]
fn it_follows_its_card_until_it_begins() {
    let card = beetroot();
    let fish = served(&card);
    let renamed = card
        .apply(&RecipeAction::Name("Roast beetroot".into()), NOW)
        .unwrap();
    let followed = |fish: &Fish| with_larder(&[], |larder| renamed.followed(fish, larder));
    let tap = followed(&fish).unwrap().unwrap();
    let after = fish.apply(&Action::Plan(tap), NOW).unwrap();
    assert_eq!(after.name(), "Roast beetroot");
    assert!(followed(&after).is_none());
    assert!(followed(&begun(&fish)).is_none());
}

/// Confirmed line by line, gathered over the parts; what is not confirmed is said so wherever the dish is served.
#[test]
fn allergens_are_gathered_over_parts_and_never_guessed_as_absent() {
    let settings = Settings::default();
    let sauce = demo_dish::green_sauce(NOW, &settings);
    let card = demo_dish::bream_plate("sauce", NOW, &settings);
    let cards = [("sauce", sauce.clone())];
    let gathered = with_larder(&cards, |larder| card.allergens(larder));
    let proposed: Vec<Allergen> = gathered.proposed.iter().map(|(one, _)| *one).collect();
    assert_eq!(proposed, [Allergen::Fish, Allergen::Sulphites]);
    assert!(gathered.confirmed.is_empty());
    assert_eq!(gathered.open.len(), 4 + 6);
    // The part gone, nobody knows what is in it.
    let without = with_larder(&[], |larder| card.allergens(larder));
    assert_eq!(without.open.len(), 5);

    let confirmed = |card: &Recipe| {
        let mut card = card.clone();
        for line in &mut card.lines {
            let sure = with_larder(&cards, |larder| line.with_allergens_confirmed(larder));
            *line = sure.unwrap_or_else(|| line.clone());
        }
        card
    };
    let cards = [("sauce", confirmed(&sauce))];
    let sure = confirmed(&card);
    let gathered = with_larder(&cards, |larder| sure.allergens(larder));
    assert_eq!((gathered.open.len(), gathered.proposed.len()), (0, 0));
    assert_eq!(
        gathered.sentences(),
        [
            "Fish (Gilthead bream, Anchovy fillets)",
            "Sulphites (Capers, Sherry vinegar)"
        ]
    );
    // Under another name it is another ingredient.
    let mut other = sure;
    other.lines[0].name = "Something else".into();
    let gathered = with_larder(&cards, |larder| other.allergens(larder));
    assert_eq!(gathered.open, ["Something else"]);
}

/// Who went by the nine has not looked for the other five.
#[test]
fn what_was_confirmed_by_the_shorter_list_is_open_by_the_longer() {
    let by = |list: AllergenList, work: &dyn Fn(Larder) -> bool| {
        work(Larder {
            fish: &|_| None,
            card: &|_| None,
            careful: &|_| None,
            list,
        })
    };
    let line = line("1", "Celery", Origin::Bought);
    for (first, then, stays) in [
        (AllergenList::UnitedStates, AllergenList::Europe, false),
        (AllergenList::UnitedStates, AllergenList::UnitedStates, true),
        (AllergenList::Europe, AllergenList::UnitedStates, true),
    ] {
        let sure = std::cell::RefCell::new(line.clone());
        by(first, &|larder| {
            *sure.borrow_mut() = line.with_allergens_confirmed(larder).unwrap();
            true
        });
        let line = sure.into_inner();
        let still = by(then, &|larder| {
            line.allergens_said(larder).unwrap().confirmed
        });
        assert_eq!(still, stays, "{first:?} {then:?}");
    }
    // A tick is no word about the rest.
    let ticked = by(AllergenList::Europe, &|larder| {
        let line = line.with_allergen(larder, Allergen::Milk, true).unwrap();
        let said = line.allergens_said(larder).unwrap();
        said.contains.contains(&Allergen::Milk) && !said.confirmed
    });
    assert!(ticked);
}
