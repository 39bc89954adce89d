//! Two tabs on one fish, and a tab that a newer build has overtaken.

use serde_json::{Value, json};
use thirtyfour::WindowHandle;

use crate::bench::{Bench, PHONE, Scheme};

/// Everything that is stored for fish, as one text.
const STORED: &str = "return JSON.stringify(Object.entries(localStorage).filter(([key]) => key.includes('/fish/')).sort())";
/// The first two lines of the demo's mise en place.
const LINES: [&str; 2] = ["Two fillets", "Green sauce"];

impl Bench {
    /// Two tabs at the mise en place of the demo; the second is in front.
    #[track_caller]
    fn both_preparing(&self, before_second: &str) -> [WindowHandle; 2] {
        self.demo_weighed();
        self.tap("Chill and prepare");
        self.at_stage("prepare");
        let (place, first) = (self.fish_place() + "/prepare", self.this_tab());
        let second = self.new_tab();
        if !before_second.is_empty() {
            self.command("Page.enable", json!({}));
            self.before_each_load(before_second);
            self.reload();
        }
        self.go(&place);
        self.see("8 things are not ready yet.");
        [first, second]
    }

    #[track_caller]
    fn stored(&self) -> Value {
        self.run(STORED, &[])
    }
}

#[test]
fn a_tap_in_one_tab_shows_in_the_other() {
    let bench = Bench::open(PHONE, Scheme::Light);
    let [first, second] = bench.both_preparing("");
    bench.tap(LINES[0]);
    bench.see("7 things are not ready yet.");
    bench.turn_to(&first);
    bench.see("7 things are not ready yet.");
    bench.tap(LINES[1]);
    bench.tap("Fillets into the fridge");
    bench.turn_to(&second);
    bench.see("6 things are not ready yet.");
    bench.see("In the fridge since");
    // A fish that is begun in one tab stands in the list of the other, and goes from it.
    bench.tap("All fish");
    bench.turn_to(&first);
    bench.tap("All fish");
    bench.tap("Start a fish");
    bench.at_stage("delivery");
    let begun = bench.fish_place();
    bench.turn_to(&second);
    bench.see("A fish");
    bench.turn_to(&first);
    bench.go(&begun);
    bench.tap("Remove this fish…");
    bench.tap("Remove it");
    bench.at("#/");
    bench.turn_to(&second);
    bench.not_see("A fish");
    bench.see("Gilthead bream");
    assert_eq!(bench.console_errors(), [""; 0]);
}

#[test]
fn a_stale_tab_overwrites_nothing() {
    let bench = Bench::open(PHONE, Scheme::Light);
    // The second tab hears nothing of the first.
    let deaf = "addEventListener('storage', (event) => event.stopImmediatePropagation(), true);";
    let [first, second] = bench.both_preparing(deaf);
    bench.turn_to(&first);
    bench.tap(LINES[0]);
    bench.see("7 things are not ready yet.");
    bench.turn_to(&second);
    bench.see("8 things are not ready yet.");
    bench.tap(LINES[1]);
    bench.see("6 things are not ready yet.");
    for tab in [&first, &second] {
        bench.turn_to(tab);
        bench.see("6 things are not ready yet.");
        bench.reload();
        bench.see("6 things are not ready yet.");
    }
}

#[test]
fn a_tab_of_an_older_build_stops_writing() {
    let bench = Bench::open(PHONE, Scheme::Light);
    let [first, second] = bench.both_preparing("");
    let newer = "localStorage.setItem('scaleside/build', '99999999999')";
    bench.run(newer, &[]);
    bench.turn_to(&first);
    bench.see("so this one has stopped saving");
    bench.shot("older-build");
    let before = bench.stored();
    bench.tap(LINES[0]);
    bench.see("7 things are not ready yet.");
    assert_eq!(bench.stored(), before, "it went on writing");
    bench.reload();
    bench.started();
    bench.see("so this one has stopped saving");
    bench.see("8 things are not ready yet.");
    bench.tap(LINES[0]);
    bench.see("7 things are not ready yet.");
    assert_eq!(bench.stored(), before, "it went on writing");

    bench.tap("Go on with this version");
    bench.not_see("so this one has stopped saving");
    bench.tap(LINES[1]);
    bench.see("6 things are not ready yet.");
    assert_ne!(bench.stored(), before);
    bench.reload();
    bench.see("6 things are not ready yet.");
    bench.turn_to(&second);
    bench.see("6 things are not ready yet.");
}
