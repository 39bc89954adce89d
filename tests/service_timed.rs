//! How long the fish lies in the pan is known before its service begins: by its thickness, or as the cook chose.
#![cfg(not(target_arch = "wasm32"))]
#![allow(clippy::unwrap_used, missing_docs)]

use scaleside::base::instant::Instant;
use scaleside::fish::action::Action;
use scaleside::fish::demo;
use scaleside::fish::heat_card::HeatTap;
use scaleside::fish::record::Fish;
use scaleside::fish::serving::PlanTap;
use scaleside::fish::settings::Settings;
use scaleside::service::dish::laid_out::FishTimes;

const NOW: Instant = Instant(1_790_000_000_000);
const TIMES: FishTimes = FishTimes {
    skin: 200,
    finish: 30,
    rest: 60,
};
const START: Action = Action::Start { insist: false };

fn after(fish: &Fish, actions: &[Action]) -> Fish {
    let act = |fish: Fish, action: &Action| fish.apply(action, NOW).unwrap();
    actions.iter().fold(fish.clone(), act)
}

/// A bream with everything in its place.
fn in_place() -> Fish {
    let fish = demo::bream("a1".into(), NOW, &Settings::default());
    let lines = fish.dish().unwrap().mise.iter();
    let ticks: Vec<Action> = lines
        .map(|line| Action::Tick(line.id.clone(), true))
        .collect();
    after(&fish, &ticks)
}

fn times(times: Option<FishTimes>) -> Action {
    Action::Plan(PlanTap::Times(times))
}

#[test]
fn nobody_starts_before_the_thickness_was_asked_but_who_insists() {
    let fish = in_place();
    let refusal = fish.apply(&START, NOW).unwrap_err().to_string();
    assert!(refusal.starts_with("How thick is the fillet?"), "{refusal}");
    assert!(refusal.contains("fit up to 12 mm"), "{refusal}");
    let insisted = after(&fish, &[Action::Start { insist: true }]);
    assert!(insisted.run.is_some() && !insisted.insisted);
    // With a thing that is not ready as well, both are said.
    let open = after(&fish, &[Action::Tick("probe".into(), false)]);
    let both = open.apply(&START, NOW).unwrap_err().to_string();
    assert!(
        both.starts_with("One thing is not ready yet, and how thick"),
        "{both}"
    );
}

#[test]
fn by_its_thickness_or_by_the_times_of_the_dish_it_starts() {
    for chosen in [Some(TIMES), None] {
        let fish = after(&in_place(), &[times(chosen)]);
        assert!(!fish.is_untimed());
        let begun = after(&fish, &[START]);
        let skin = begun.dish().unwrap().step("skin_side").unwrap().lasts;
        assert_eq!(skin, Some(chosen.map_or(270, |times| times.skin)));
    }
}

#[test]
fn what_the_times_were_worked_out_from_has_changed_and_it_is_asked_again() {
    let measured = after(&in_place(), &[times(Some(TIMES))]);
    let thicker = after(&measured, &[Action::Heat(HeatTap::ByEye(19))]);
    assert!(thicker.is_untimed());
    // Whoever chose the dish's own times is not asked again.
    let fixed = after(&in_place(), &[times(None)]);
    let thicker = after(&fixed, &[Action::Heat(HeatTap::ByEye(19))]);
    assert!(!thicker.is_untimed());
}
