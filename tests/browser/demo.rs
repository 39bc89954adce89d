//! The demonstration from an empty app to the list of earlier fish: all its figures are invented.

use serde_json::json;

use crate::bench::{Bench, PHONE, Scheme};
use crate::cook::DEMO_STEPS;

/// What the end of a timer says at once to a screen reader.
const ALARM: &str = "return document.querySelector('[role=alert][aria-live=assertive]').innerText.includes(arguments[0])";

impl Bench {
    /// Takes the demo from the empty app to its yield.
    #[track_caller]
    pub fn demo_weighed(&self) {
        self.tap("Open the demo");
        self.at_stage("weigh-whole");
        self.reads("648 g");
        self.tap("Take this weight");
        self.cut(1..=7, "weigh-off-bone");
        self.reads("336 g");
        self.tap("Take this weight");
        self.cut(8..=12, "weigh-ready");
        self.reads("302 g");
        self.tap("Raw");
        self.tap("Take this weight");
        self.at_stage("yield");
    }

    /// Gives the demo's bench the probe that it lacks, and comes back.
    #[track_caller]
    pub fn has_probe(&self) {
        let here = self.run("return location.hash", &[]);
        self.go(&format!("{}/delivery", self.fish_place()));
        self.at_stage("delivery");
        self.unfold();
        self.tap("No probe thermometer");
        self.go(here.as_str().unwrap());
    }

    /// Takes a weighed fish to its service, with every line of the mise en place open.
    #[track_caller]
    pub fn start_anyway(&self) {
        self.tap("Chill and prepare");
        self.at_stage("prepare");
        self.tap("Start the service");
        self.see("not ready yet");
        self.tap("Start anyway");
        self.at_stage("service");
    }

    /// Goes from the service at a glance to its steps one by one.
    #[track_caller]
    pub fn all_steps(&self) {
        self.tap("All steps");
        self.at_stage("all-steps");
    }

    /// Waits until the end of a step's timer is announced.
    #[track_caller]
    pub fn announced(&self, step: &str) {
        self.until(
            format!("the end of “{step}” was not announced"),
            ALARM,
            &[json!(format!("{step}: time is up."))],
        );
    }
}

#[test]
fn the_demo_runs_from_the_scale_to_the_plate() {
    let bench = Bench::open(PHONE, Scheme::Light);
    bench.started();
    bench.see("Try the demo first");
    bench.demo_weighed();

    bench.see("Demo: invented figures");
    bench.tap("Costs and losses");
    for figure in [
        "Yield from gutted and scaled 46.6 %",
        "Cost per usable kilo €33.04",
        "Cost factor 2.146",
        "Paid €9.98",
        "2 equal portions 151 g each €4.99 a portion",
        "− head, bones and trimmings 312 g 48.1 %",
        "− rib bones, pin bones, edges 34 g 5.2 %",
        "Ready to cook 302 g 46.6 %",
    ] {
        bench.see(figure);
    }
    bench.shot("demo-yield");

    bench.tap("Chill and prepare");
    bench.at_stage("prepare");
    bench.see("Out of the fridge");
    bench.tap("Fillets into the fridge");
    bench.see("In the fridge since");
    bench.see("No probe: a small clean knife");
    bench.tap("Start the service");
    bench.see("not ready yet");
    bench.tap("Start anyway");
    bench.at_stage("service");
    bench.all_steps();

    service(&bench);

    bench.tap("Check the plate");
    bench.at_stage("pass");
    bench.fill("#note", "Drier skin.");
    bench.pass();
    bench.see("Drier skin.");
    bench.see("started before all was ready");
    bench.tap("All fish");
    bench.at("#/");
    bench.see("Gilthead bream");
    bench.see("finished Demo 46.6 %");
    bench.reload();
    bench.started();
    bench.see("finished Demo 46.6 %");
    assert_eq!(bench.console_errors(), [""; 0]);
}

/// Every step, and everything that can be done with a timer.
fn service(bench: &Bench) {
    bench.on_step("Warm the plates", "Begin");
    bench.on_step("Warm the plates", "Warming");
    bench.on_step("Heat the pan", "Shimmering");
    bench.see("Lower the fish away from you");

    let skin = "Skin side down";
    bench.on_step(skin, "Begin");
    bench.step_says(skin, "until");
    bench.see("Finish in the pan's own heat");
    bench.on_step(skin, "Hold");
    bench.step_says(skin, "held");
    let held = bench.left(skin);
    assert!((1..=270).contains(&held), "{held}");
    bench.clock_ahead(60);
    bench.on_step(skin, "+30 s");
    bench.until(
        "thirty seconds were not added to a held timer",
        "return document.querySelector('.timer.held .left').innerText === arguments[0]",
        &[json!(face(held + 30))],
    );
    bench.on_step(skin, "Go on");
    bench.step_says(skin, "until");
    assert!(bench.left(skin) <= held + 30);
    bench.clock_ahead(60 + 400);
    bench.step_says(skin, "time is up");
    bench.announced(skin);
    assert!(bench.left(skin) <= 0);
    bench.on_step(skin, "+30 s");
    bench.step_says(skin, "until");
    assert!((1..=30).contains(&bench.left(skin)), "counted from now");
    bench.on_step(skin, "Turned, heat off");

    // The next one begins by itself and is called done early.
    let flesh = "Finish in the pan's own heat";
    bench.step_says(flesh, "until");
    bench.on_step(flesh, "Time's up");
    bench.on_step("Check the thickest part", "Cooked, out of the pan");

    // Two at once, each with its own time.
    let (rest, leeks) = ("Rest on paper, skin up", "Leeks into the same pan");
    bench.step_says(rest, "until");
    bench.on_step(leeks, "Begin");
    bench.step_says(leeks, "until");
    bench.clock_ahead(460 + 200);
    bench.step_says(leeks, "time is up");
    bench.announced(leeks);
    assert!(bench.left(rest) > 0);
    bench.serve(&DEMO_STEPS[5..]);
    bench.not_see("time is up");
}

fn face(seconds: i64) -> String {
    format!("{}:{:02}", seconds / 60, seconds % 60)
}
