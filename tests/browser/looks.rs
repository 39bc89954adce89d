//! Every screen, light and dark, on a phone and on a wide screen: read by an accessibility engine and measured.

use serde_json::json;

use crate::bench::{Bench, PHONE, Scheme, Size};
use crate::cook::SNAPPER;

/// The smallest phone.
const SMALL: Size = Size(320, 568);

/// A tablet or a desk.
const WIDE: Size = Size(1280, 800);

impl Bench {
    /// What is wrong with how this screen looks, one line a fault, and a picture of it.
    #[track_caller]
    pub fn faults(&mut self, name: &str) -> Vec<String> {
        let mut found = Vec::new();
        for scheme in Scheme::BOTH {
            self.show_in(scheme);
            self.run("scrollTo(0, 0)", &[]);
            self.shot(name);
            found.extend(self.unsound());
        }
        found
            .iter()
            .map(|fault| format!("{name}: {fault}"))
            .collect()
    }

    /// The same, and where it is wider than a small phone.
    #[track_caller]
    pub fn every_fault(&mut self, name: &str) -> Vec<String> {
        let mut found = self.faults(name);
        if self.size == PHONE {
            let wide = self.too_wide().into_iter();
            found.extend(wide.map(|fault| format!("{name}: {fault}")));
        }
        found
    }

    /// Where this screen is wider than a small phone, in usual text and in larger: 320 px is also a wide screen at 400 %.
    #[track_caller]
    fn too_wide(&self) -> Vec<String> {
        let mut found = Vec::new();
        for (size, percent) in [
            (SMALL, 100),
            (SMALL, 130),
            (SMALL, 200),
            (PHONE, 130),
            (PHONE, 200),
        ] {
            self.resize(size);
            self.text_at(percent);
            self.painted();
            let across = self.run(include_str!("scripts/across.js"), &[]);
            found.extend(
                across
                    .as_str()
                    .map(|across| format!("text of {percent} %: {across}")),
            );
        }
        self.text_at(100);
        self.resize(PHONE);
        // What was too wide was made smaller, and would stay so.
        self.command(
            "Emulation.setPageScaleFactor",
            json!({ "pageScaleFactor": 1 }),
        );
        self.painted();
        found
    }

    /// What is wrong with this screen as it is now, one line a fault.
    #[track_caller]
    fn unsound(&self) -> Vec<String> {
        let across = self.run(include_str!("scripts/across.js"), &[]);
        let mut found = self.axe();
        found.extend(self.small_targets());
        found.extend(across.as_str().map(str::to_owned));
        found
    }

    /// Nothing is wrong with this screen, and the console was told of no error.
    #[track_caller]
    pub fn is_sound(&self) {
        let address = self.address();
        assert_eq!(self.unsound(), [""; 0], "{address}");
        assert_eq!(self.console_errors(), [""; 0], "{address}");
    }
}

impl Bench {
    /// Waits until nothing on the screen moves any more: the page goes back to its top, and answers come in.
    #[track_caller]
    pub fn at_rest(&self) {
        self.until(
            "the screen never came to rest",
            "return new Promise((done) => {
                const places = () => [...document.querySelectorAll('.page main *')].map((part) => part.getBoundingClientRect().top).join();
                const before = places();
                setTimeout(() => done(before === places()), 500);
            })",
            &[],
        );
    }
}

fn every_screen(size: Size) {
    let mut bench = Bench::open(size, Scheme::Light);
    bench.started();
    let mut faults = bench.every_fault("home-empty");

    // A fish of one's own, with everything a screen can object to.
    bench.tap("Start a fish");
    bench.at_stage("delivery");
    bench.pick("#species", "another");
    bench.tap("Weigh it whole");
    bench.see("Give the fish a name");
    faults.extend(bench.every_fault("delivery-refused"));
    bench.tap("All fish");
    bench.start_fish(&SNAPPER);
    bench.unfold();
    for kit in [
        "No fish pliers or tweezers",
        "No non-stick pan",
        "No flexible filleting knife",
        "No probe thermometer",
        "No fine grater",
    ] {
        bench.tap(kit);
    }
    let own = bench.fish_place();
    bench.tap("Weigh it whole");
    bench.at_stage("weigh-whole");
    bench.tap("Pounds and ounces");
    bench.key("88l15.75");
    bench.tap("Take this weight");
    // Its size is asked about first, and then the step of the scale.
    bench.see("is heavy for one snapper");
    bench.tap("Yes, take it");
    bench.see("Your scale shows steps of 2 g");
    faults.extend(bench.every_fault("weigh-questioned"));
    bench.tap("Weigh again");
    bench.tap("Kilos");
    bench.key("2.350");
    bench.tap("Take this weight");
    for step in 1..=14 {
        bench.go(&format!("{own}/fillet/{step}"));
        bench.see(&format!("{step} of 14"));
        faults.extend(bench.every_fault(&format!("fillet-{step}")));
    }
    bench.go(&format!("{own}/weigh-ready"));
    bench.see("Weigh ready to cook");
    bench.key("1.034");
    bench.tap("Cooked already");
    bench.see("A cooked weight can't be used");
    faults.extend(bench.every_fault("weigh-refused"));
    bench.tap("Raw");
    bench.tap("Take this weight");
    bench.at_stage("yield");
    bench.tap("Costs and losses");
    bench.tap("Another portion weight");
    bench.fill("#portion", "0.160");
    bench.tap("Parts kept for another dish");
    for part in 0..2 {
        bench.tap("Add a kept part");
        bench.fill(&crate::cook::kept_field("kept-weight", part), "heavy");
    }
    bench.tap("Beside published yields");
    bench.tap("Sources");
    faults.extend(bench.every_fault("yield-own"));

    // The demo, in the middle of its service: one timer over, one held, one that runs.
    bench.go("#/");
    bench.demo_weighed();
    let demo = bench.fish_place();
    bench.tap("Chill and prepare");
    bench.at_stage("prepare");
    bench.at_rest();
    bench.tap("Fillets into the fridge");
    bench.at_rest();
    bench.tap("Start the service");
    bench.see("Start anyway");
    faults.extend(bench.every_fault("prepare-refused"));
    bench.tap("Start anyway");
    bench.at_stage("service");
    faults.extend(bench.every_fault("service-begun"));
    bench.all_steps();
    bench.serve(&crate::cook::DEMO_STEPS[..5]);
    let leeks = "Leeks into the same pan";
    bench.on_step(leeks, "Begin");
    bench.on_step(leeks, "Hold");
    bench.step_says(leeks, "held");
    bench.clock_ahead(250);
    bench.announced("Rest on paper, skin up");
    bench.on_step(leeks, "Go on");
    bench.on_step(leeks, "Sugar snaps in");
    bench.step_says("Sugar snaps, the last minute", "until");
    bench.on_step("Sugar snaps, the last minute", "Hold");
    bench.on_step("Sugar snaps, the last minute", "Go on");
    bench.tap("Done");
    bench.tap("Start the service again…");
    faults.extend(bench.every_fault("all-steps"));
    bench.tap("Keep it");

    let places = [
        ("home", "#/".to_owned()),
        ("settings", "#/settings".to_owned()),
        ("about", "#/about".to_owned()),
        ("kept", "#/kept".to_owned()),
        ("bin", "#/bin".to_owned()),
        ("restore", "#/restore".to_owned()),
        ("journal", format!("{demo}/journal")),
        ("not-here", "#/fish/gone/yield".to_owned()),
        ("service-not-begun", format!("{own}/service")),
        ("summary-own", own),
        ("delivery", format!("{demo}/delivery")),
        ("weigh-whole", format!("{demo}/weigh-whole")),
        ("weigh-off-bone", format!("{demo}/weigh-off-bone")),
        ("weigh-ready", format!("{demo}/weigh-ready")),
        ("yield", format!("{demo}/yield")),
        ("prepare", format!("{demo}/prepare")),
        ("pass", format!("{demo}/pass")),
        ("summary", demo),
    ];
    for (name, place) in &places {
        bench.go(place);
        bench.at(place);
        bench.until(
            "the focus is not on the heading",
            "return document.activeElement === document.querySelector('.page h1')",
            &[],
        );
        faults.extend(bench.every_fault(name));
    }
    bench.tap("Remove this fish…");
    faults.extend(bench.every_fault("summary-remove"));

    bench.run(
        "dispatchEvent(new CustomEvent('scaleside-update-ready'))",
        &[],
    );
    bench.see("A new version is ready.");
    faults.extend(bench.every_fault("update"));
    assert_eq!(bench.console_errors(), [""; 0]);
    assert!(faults.is_empty(), "{}", faults.join("\n"));
}

#[test]
fn every_screen_of_a_phone_is_sound() {
    every_screen(PHONE);
}

#[test]
fn every_screen_of_a_desk_is_sound() {
    every_screen(WIDE);
}

#[test]
fn the_yield_screen_for_the_readme() {
    let bench = Bench::open(PHONE, Scheme::Light);
    bench.demo_weighed();
    bench.see("46.6 %");
    let picture = bench.shot("readme");
    assert!(picture.metadata().unwrap().len() > 10_000);
    assert_eq!(bench.run("return scrollY", &[]), json!(0), "not at its top");
}
