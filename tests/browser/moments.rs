//! What really happened to the fish moves the estimate: it is said beside its figures, and the cook takes it or not.

use serde_json::json;

use crate::bench::{Bench, PHONE, Scheme, Size};

impl Bench {
    /// Measures the fillet of the demo and takes its times.
    #[track_caller]
    fn measured(&self) {
        let fish = self.fish_place();
        self.go(&format!("{fish}/heat"));
        self.fill("#thickness", "14");
        self.tap("Cook it by this");
        self.at_stage("prepare");
    }

    /// Takes the demo to its fish in the pan, its fillet measured and its times taken.
    #[track_caller]
    fn fish_in_the_pan(&self) {
        self.measured();
        self.tap("Start the service");
        self.tap("Start anyway");
        self.at_stage("service");
        for word in ["Warming", "Shimmering", "Begin"] {
            self.due_tap(word);
        }
        self.until(
            "the fish never lay in the pan",
            "return document.querySelector('article.large.runs')?.getAttribute('aria-label') === 'Skin side down'",
            &[],
        );
    }

    /// Taps what is due, once it is this and has rested.
    #[track_caller]
    pub fn due_tap(&self, word: &str) {
        self.until(
            format!("“{word}” never came to be due"),
            "const due = document.querySelector('.dock .due');
            return due && !due.disabled && due.innerText.includes(arguments[0])",
            &[json!(word)],
        );
        self.tap_css(".dock .due");
    }

    /// The seconds on the large timer.
    #[track_caller]
    fn large_left(&self) -> i64 {
        let face = self.run(
            "return document.querySelector('article.large .left').textContent",
            &[],
        );
        let face = face.as_str().unwrap().trim_start_matches('+').to_owned();
        face.split(':')
            .fold(0, |sum, part| sum * 60 + part.parse::<i64>().unwrap())
    }
}

/// In what time the large timer stands, whatever it shows.
const HELD: &str = "return document.querySelector('article.large .face').innerText";

#[test]
fn a_late_turn_is_said_beside_its_figures_and_the_cook_sets_the_timer() {
    let bench = Bench::open(PHONE, Scheme::Light);
    bench.started();
    bench.demo_weighed();
    bench.fish_in_the_pan();
    bench.not_see("by estimate");
    let left = bench.large_left();
    bench.clock_ahead(left + 60);
    bench.see("Not turned yet, 1 min late: turn it now, heat off.");
    bench.see("Middle, by estimate:");
    bench.not_see("Set the timer by this");
    bench.shot("moments-not-turned");
    bench.due_tap("Turned, heat off");
    bench.see("Turned 1 min late: lift");
    bench.see("Middle, by estimate:");
    bench.shot("moments-turned-late");
    // Nothing is set by itself: the cook takes it.
    let before = bench.large_left();
    bench.tap("Set the timer by this");
    bench.until(
        "the timer did not follow",
        "const face = document.querySelector('article.large .left').textContent;
        const secs = face.replace('+', '').split(':').reduce((sum, part) => sum * 60 + Number(part), 0);
        return Math.abs(secs - arguments[0]) > 5",
        &[json!(before)],
    );
    bench.not_see("Set the timer by this");
    for size in [Size(320, 568), Size(740, 360)] {
        bench.resize(size);
        bench.shot(&format!("moments-set-{}", size.0));
    }
    assert_eq!(bench.console_errors(), [""; 0]);
}

#[test]
fn a_held_timer_says_that_the_fish_goes_on_cooking_and_for_how_long() {
    let bench = Bench::open(PHONE, Scheme::Dark);
    bench.started();
    bench.demo_weighed();
    bench.has_probe();
    bench.fish_in_the_pan();
    bench.tap("Hold timer");
    bench.see("What is on the heat goes on cooking");
    bench.clock_ahead(40);
    bench.see("Timer held 40 s, the fish cooks on: turn it 40 s before it rings.");
    bench.shot("moments-held");
    bench.tap("Go on");
    bench.until(
        "how long it was held is not shown",
        &format!("return (() => {{ {HELD} }})().includes('held 0:4')"),
        &[],
    );
    bench.tap("Set the timer by this");
    bench.not_see("Timer held");
    // The probe's box says no other time than the timer.
    bench.tap("Probe");
    bench.see("turn it when it rings");
    bench.shot("moments-probe");
    assert_eq!(bench.console_errors(), [""; 0]);
}

/// Two cooks and two pans: what happens to the first is said also once the second is in.
#[test]
fn both_panfuls_are_followed_each_by_its_number() {
    let bench = Bench::open(PHONE, Scheme::Light);
    bench.started();
    bench.demo_weighed();
    bench.measured();
    let fish = bench.fish_place();
    bench.go(&format!("{fish}/plan"));
    bench.see("Step by step");
    bench.unfold();
    bench.fill("#at-once", "1");
    bench.tap_css("label:has(input[name=pans]):nth-of-type(2)");
    bench.tap_css("label:has(input[name=cooks]):nth-of-type(2)");
    bench.go(&format!("{fish}/prepare"));
    bench.tap("Start the service");
    bench.tap("Start anyway");
    bench.at_stage("service");
    bench.see("Plate about");
    // Both pans are heated, both fish go in; whatever else is due is done on the way.
    let (mut gone, mut turned) = (0, false);
    for _ in 0..60 {
        let in_pans =
            "return document.querySelector('.page').innerText.includes('late: turn it now')
            && document.querySelectorAll('.follows').length";
        if bench.run(in_pans, &[]) == json!(2) {
            break;
        }
        let due = "const due = document.querySelector('.dock .due');
            return !due ? '' : due.disabled ? 'rests' : due.innerText";
        let due = bench.run(due, &[]).as_str().unwrap().to_owned();
        if due.is_empty() || due.contains("Turned") {
            // Nobody turns the fish: a minute and more too late.
            gone += 15;
            bench.clock_ahead(gone);
            turned |= due.contains("Turned");
        } else if due != "rests" {
            bench.tap_css(".dock .due");
        }
        bench.run(
            "return new Promise((done) => setTimeout(done, 250)).then(() => 0)",
            &[],
        );
    }
    assert!(turned, "no fish was ever to be turned");
    for said in ["Batch 1. Not turned yet,", "Batch 2. Not turned yet,"] {
        bench.see(said);
    }
    bench.due_tap("Turned, heat off");
    bench.see("Batch 1. Turned ");
    bench.see("Batch 2. Not turned yet,");
    // On the phone the figures stand with it, once they are worked out.
    bench.see("Middle, by estimate:");
    for size in [Size(320, 568), Size(360, 640), Size(740, 360), PHONE] {
        bench.resize(size);
        bench.shot(&format!("moments-both-{}", size.0));
        let lost = "const dock = document.querySelector('nav.dock').getBoundingClientRect().top;
            return [...document.querySelectorAll('.follows, .stove .digits, .stove .chip, .stove .btn')]
                .filter((part) => part.getBoundingClientRect().bottom > dock).map((part) => part.innerText || 'digits')";
        assert_eq!(bench.run(lost, &[]), json!([]), "{} px", size.0);
    }
    assert_eq!(bench.console_errors(), [""; 0]);
}
