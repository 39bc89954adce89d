//! Without a finger on the glass: everything is reached, seen and done from a keyboard.

use std::collections::BTreeMap;

use serde_json::json;
use thirtyfour::Key;

use crate::bench::{Bench, PHONE, Scheme};
use crate::cook::SNAPPER;

/// Most stops of the Tab key on one screen, far more than there are.
const MOST_STOPS: usize = 200;

impl Bench {
    /// What the Tab key stops at, from the heading to the end of the page, each by name and whether it is in sight.
    #[track_caller]
    fn stops(&self) -> BTreeMap<String, bool> {
        self.run("document.querySelector('.page h1').focus()", &[]);
        let mut stops = BTreeMap::new();
        for _ in 0..MOST_STOPS {
            self.type_keys(Key::Tab);
            let stop: Option<(String, bool)> =
                serde_json::from_value(self.run(include_str!("scripts/stop.js"), &[])).unwrap();
            match stop {
                Some((name, _)) if stops.contains_key(&name) => break,
                Some((name, in_sight)) => stops.insert(name, in_sight),
                None => None,
            };
        }
        stops
    }

    /// Waits until nothing is to come on this screen: what asks for the source of the figures comes after them.
    #[track_caller]
    fn stands(&self) {
        self.until(
            "something is still to come",
            "return document.getAnimations().every(({ playState, effect }) =>
                playState === 'finished' || effect.getComputedTiming().endTime === Infinity)",
            &[],
        );
    }

    /// Presses Tab until a button or link of this name has the focus.
    #[track_caller]
    fn tab_to(&self, name: &str) {
        let here = "return document.activeElement.matches('a, button') && document.activeElement.innerText.trim() === arguments[0]";
        for _ in 0..MOST_STOPS {
            if self.run(here, &[json!(name)]) == json!(true) {
                return;
            }
            self.type_keys(Key::Tab);
        }
        panic!("Tab never came to {name:?}");
    }

    #[track_caller]
    fn heading_has_focus(&self, title: &str) {
        self.until(
            format!("the focus is not on the heading {title:?}"),
            "return document.activeElement.matches('.page h1') && document.activeElement.innerText === arguments[0]",
            &[json!(title)],
        );
    }
}

#[test]
fn tab_reaches_everything_and_nothing_is_hidden_under_the_dock() {
    let bench = Bench::open(PHONE, Scheme::Light);
    bench.demo_weighed();
    let fish = bench.fish_place();
    let mut faults = Vec::new();
    for place in [
        "#/",
        "#/settings",
        &format!("{fish}/delivery"),
        &format!("{fish}/yield"),
        &format!("{fish}/prepare"),
    ] {
        bench.go(place);
        bench.at(place);
        bench.started();
        bench.stands();
        let stops = bench.stops();
        let controls = bench.run(include_str!("scripts/controls.js"), &[]);
        let controls: Vec<String> = serde_json::from_value(controls).unwrap();
        assert!(!controls.is_empty());
        for control in controls {
            match stops.get(&control) {
                Some(true) => {}
                Some(false) => {
                    faults.push(format!("{place}: {control} has the focus out of sight"))
                }
                None => faults.push(format!("{place}: Tab never came to {control}")),
            }
        }
    }
    assert!(faults.is_empty(), "{}", faults.join("\n"));
}

#[test]
fn a_weight_is_keyed_and_taken_from_a_keyboard() {
    let bench = Bench::open(PHONE, Scheme::Light);
    bench.started();
    bench.tab_to("Open the demo");
    bench.type_keys(Key::Enter);
    bench.at_stage("weigh-whole");
    bench.heading_has_focus("Weigh it as delivered");
    bench.type_keys(Key::Delete);
    bench.reads("0 g");
    bench.type_keys("6499");
    bench.type_keys(Key::Backspace);
    bench.type_keys(Key::Backspace + "8");
    bench.reads("648 g");
    bench.tab_to("Take this weight");
    bench.type_keys(Key::Enter);
    bench.at_stage("fillet/1");
    bench.heading_has_focus("Steady board, cold fish");
    bench.tab_to("Next");
    bench.type_keys(Key::Enter);
    bench.at_stage("fillet/2");
    bench.heading_has_focus("Spines and fins off first");
    bench.tab_to("Back");
    bench.type_keys(Key::Enter);
    bench.at_stage("fillet/1");
    // Back in the dock was the phone's own, so that the next one leads further back and not to the second cut again.
    bench.back();
    bench.at_stage("weigh-whole");
    bench.heading_has_focus("Weigh it as delivered");
}

impl Bench {
    /// Which field or part has the focus, and whether it is marked as refused.
    #[track_caller]
    fn focused(&self) -> (String, bool) {
        let focused = "const focused = document.activeElement;
            return [focused.id || focused.innerText.trim() || focused.tagName, focused.getAttribute('aria-invalid') === 'true'];";
        serde_json::from_value(self.run(focused, &[])).unwrap()
    }

    #[track_caller]
    fn comes_to(&self, field: &str, refused: bool) {
        self.until(
            format!("#{field}: the focus or its mark is another"),
            "return document.activeElement.id === arguments[0]
                && (document.activeElement.getAttribute('aria-invalid') === 'true') === arguments[1]",
            &[json!(field), json!(refused)],
        );
    }
}

#[test]
fn enter_goes_on_and_a_field_that_is_refused_has_the_focus_and_says_so() {
    let bench = Bench::open(PHONE, Scheme::Light);
    bench.started();
    bench.tap("Start a fish");
    bench.at_stage("delivery");
    bench.pick("#species", "another");
    bench.run("document.querySelector('#species-name').focus()", &[]);
    bench.type_keys(Key::Enter);
    bench.see("Give the fish a name");
    bench.comes_to("species-name", true);
    bench.type_keys("Tench");
    bench.comes_to("species-name", false);
    bench.tap("All fish");
    bench.start_fish(&SNAPPER);
    bench.run("document.querySelector('#price').focus()", &[]);
    bench.type_keys(Key::Enter);
    bench.at_stage("weigh-whole");
    bench.heading_has_focus("Weigh it as delivered");
}

#[test]
fn escape_closes_a_question_and_changes_nothing() {
    let bench = Bench::open(PHONE, Scheme::Light);
    bench.demo_weighed();
    let fish = bench.fish_place();
    bench.go(&fish);
    bench.tab_to("Remove this fish…");
    bench.type_keys(Key::Enter);
    bench.see("Keep it");
    assert_ne!(bench.focused().0, "BODY", "the focus went with the button");
    bench.type_keys(Key::Escape);
    bench.until(
        "the question is still asked",
        "return !document.querySelector('.asked')",
        &[],
    );
    assert_ne!(
        bench.focused().0,
        "BODY",
        "the focus went with the question"
    );
    bench.go("#/");
    bench.see("Gilthead bream");
}

#[test]
fn the_focus_stays_at_what_is_due_through_a_service() {
    let bench = Bench::open(PHONE, Scheme::Light);
    bench.demo_weighed();
    bench.tap("Chill and prepare");
    bench.at_stage("prepare");
    bench.tab_to("Start the service");
    bench.type_keys(Key::Enter);
    bench.see("Start anyway");
    bench.tab_to("Start anyway");
    bench.type_keys(Key::Enter);
    bench.at_stage("service");
    let due = "return document.querySelector('.page .dock .next')?.innerText.trim() ?? ''";
    let mut pressed = 0;
    let mut seen = Vec::new();
    for _ in 0..8 {
        let name = bench.run(due, &[]).as_str().unwrap().to_owned();
        if name.is_empty() {
            // Timers run, and nothing is due until one ends.
            break;
        }
        bench.run("document.querySelector('.page .dock .next').focus()", &[]);
        bench.type_keys(Key::Enter);
        pressed += 1;
        // A double tap never begins and ends a step at once: the next one counts a moment later.
        bench.until(
            "the focus is on nothing",
            "return new Promise((done) => setTimeout(() => done(document.activeElement !== document.body), 700))",
            &[],
        );
        seen.push(name);
    }
    assert!(pressed >= 3, "{seen:?}");
    println!("{pressed} buttons by Enter, the focus never lost: {seen:?}");
}
