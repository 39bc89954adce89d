//! How many words a cook has to read: at every stage of one fish, before a tap, a scroll away included.

use serde::Deserialize;

use crate::bench::{Bench, PHONE, Scheme};

/// A stage holds no more words: some sixty.
const STAGE: usize = 64;
/// The service holds no more.
const SERVICE: usize = 80;
/// Nor does what is prepared before it.
const PREPARE: usize = 120;

/// What stands behind a tap and is a list of all there is: printed alone.
const ALL: usize = usize::MAX;

#[derive(Deserialize)]
struct Words {
    count: usize,
    text: String,
}

/// What was counted so far.
#[derive(Default)]
struct Counted {
    printed: Vec<String>,
    faults: Vec<String>,
}

impl Counted {
    /// Counts the words on the screen of a stage, which may hold so many.
    #[track_caller]
    fn count(&mut self, bench: &Bench, stage: &str, most: usize) {
        let found = bench.run(include_str!("scripts/words.js"), &[]);
        let found: Words = serde_json::from_value(found).unwrap();
        self.printed.push(format!("{stage} {}", found.count));
        if found.count > most {
            self.faults.push(format!(
                "{stage}: {} words, {most} at most: {}",
                found.count, found.text
            ));
        }
    }
}

/// Each stage of the demo, and the slip of a fish of one's own, on the commonest phone.
#[test]
fn every_stage_says_what_is_needed_in_few_words() {
    let bench = Bench::open(PHONE, Scheme::Light);
    bench.started();
    let mut words = Counted::default();
    bench.tap("Start a fish");
    bench.at_stage("delivery");
    words.count(&bench, "delivery", STAGE);
    bench.go("#/");
    bench.tap("Open the demo");
    bench.at_stage("weigh-whole");
    let fish = bench.fish_place();
    words.count(&bench, "weigh-whole", STAGE);
    bench.tap("Take this weight");
    for step in 1..=7 {
        bench.at_stage(&format!("fillet/{step}"));
        words.count(&bench, &format!("fillet/{step}"), STAGE);
        bench.tap("Next");
    }
    bench.at_stage("weigh-off-bone");
    words.count(&bench, "weigh-off-bone", STAGE);
    bench.tap("Take this weight");
    for step in 8..=12 {
        bench.at_stage(&format!("fillet/{step}"));
        words.count(&bench, &format!("fillet/{step}"), STAGE);
        bench.tap("Next");
    }
    bench.at_stage("weigh-ready");
    words.count(&bench, "weigh-ready", STAGE);
    bench.tap("Raw");
    bench.tap("Take this weight");
    bench.at_stage("yield");
    bench.see("Chill and prepare");
    words.count(&bench, "yield", STAGE);
    bench.tap("Chill and prepare");
    bench.at_stage("prepare");
    bench.see("plate at");
    words.count(&bench, "prepare", PREPARE);
    bench.go(&format!("{fish}/heat"));
    bench.see("How thick is it?");
    words.count(&bench, "heat", STAGE);
    bench.tap("Finger's width: 19 mm");
    bench.see("Turn it after");
    words.count(&bench, "heat, answered", STAGE);
    bench.go(&format!("{fish}/plan"));
    bench.see("Begin");
    words.count(&bench, "plan", STAGE);
    bench.go(&format!("{fish}/prepare"));
    bench.tap("Start the service");
    bench.tap("Start anyway");
    bench.at_stage("service");
    bench.see("Plate about");
    words.count(&bench, "service", SERVICE);
    bench.tap_css(".dock .due");
    bench.see("Shimmering");
    words.count(&bench, "service, begun", SERVICE);
    bench.all_steps();
    words.count(&bench, "all-steps", ALL);
    bench.go(&format!("{fish}/pass"));
    bench.see("Rim clean");
    words.count(&bench, "pass", STAGE);
    bench.go(&fish);
    bench.see("All figures");
    words.count(&bench, "numbers", ALL);
    println!("words before a tap: {}", words.printed.join(", "));
    assert!(words.faults.is_empty(), "{:#?}", words.faults);
}
