//! Nothing moves under a thumb: for a second after a screen has come, what can be tapped stays where it was drawn.

use crate::bench::{Bench, PHONE, Scheme};

impl Bench {
    /// Waits a second on the screen that has just come.
    #[track_caller]
    fn stays(&self) {
        let moved = "return new Promise((done) => setTimeout(() => done(window.moved), 1100))";
        let moved = self.run(moved, &[]);
        let moved: Vec<String> = serde_json::from_value(moved).unwrap();
        assert!(moved.is_empty(), "{moved:#?}");
    }

    /// Taps, and looks at the screen that comes.
    #[track_caller]
    fn tap_to(&self, name: &str, stage: &str) {
        self.tap(name);
        self.at_stage(stage);
        self.stays();
    }
}

#[test]
fn no_screen_of_the_job_moves_what_can_be_tapped() {
    let bench = Bench::open(PHONE, Scheme::Light);
    bench.started();
    bench.run(include_str!("scripts/still.js"), &[]);
    bench.stays();
    bench.tap_to("Start a fish", "delivery");
    bench.tap("All fish");
    bench.stays();
    // What came earlier is on its way no longer: the first visit to each part is looked at as well.
    bench.tap("Open the demo");
    bench.at_stage("weigh-whole");
    bench.stays();
    bench.tap_to("Take this weight", "fillet/1");
    bench.tap_to("Next", "fillet/2");
    bench.tap_to("To the scale", "weigh-off-bone");
    bench.tap_to("Take this weight", "fillet/8");
    bench.tap_to("To the scale", "weigh-ready");
    bench.tap("Raw");
    bench.tap_to("Take this weight", "yield");
    bench.tap_to("Chill and prepare", "prepare");
    bench.tap_to("How the fillet cooks", "heat");
    bench.tap_to("Back", "prepare");
    bench.tap_to("Plan of the service", "plan");
    bench.tap_to("Back", "prepare");
    bench.tap("Start the service");
    bench.tap_to("Start anyway", "service");
    bench.tap_to("All steps", "all-steps");
    bench.tap_to("Check the plate before all is done", "pass");
    // What is chosen grows no wider: it would push the other answer below it.
    let answers = "return [...document.querySelectorAll('.checks .choice')].map((each) => {
        const { x, y } = each.getBoundingClientRect();
        return [x + scrollX, y + scrollY];
    })";
    let before = bench.run(answers, &[]);
    bench.tap("All yes");
    bench.not_see("All yes");
    assert_eq!(bench.run(answers, &[]), before);
    bench.tap_css(".head .job");
    bench.at_stage("");
    bench.stays();
    bench.tap_to("Weigh ready to cook", "put-right/ready");
    assert_eq!(bench.console_errors(), [""; 0]);
}
