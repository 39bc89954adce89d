//! The tap that is due stands in the dock, with a way back from it; what ends a service asks first. `stove.rs` walks whole
//! services.

use serde_json::json;

use crate::bench::{Bench, PHONE, Scheme};

/// What the dock offers: the due step and its word, or that all is done; a fault where it can't be hit.
const OFFERED: &str = "const dock = document.querySelector('nav.dock');
    const due = dock.querySelector('.due');
    if (!due) return dock.innerText.includes('Check the plate') ? 'all done' : 'nothing';
    if (due.disabled) return 'rests';
    const { left, right, top, bottom, height } = due.getBoundingClientRect();
    if (height < 56) return `only ${height} high`;
    if (left < 0 || top < 0 || right > innerWidth || bottom > innerHeight) return 'out of sight';
    if (document.elementFromPoint((left + right) / 2, (top + bottom) / 2)?.closest('.due') !== due) return 'covered';
    return due.innerText";

impl Bench {
    /// What the dock offers once the button has rested.
    #[track_caller]
    fn dock_offers(&self) -> String {
        self.until(
            "the button rests for ever".to_owned(),
            &format!("const offered = (() => {{ {OFFERED} }})(); return offered !== 'rests'"),
            &[],
        );
        self.run(OFFERED, &[]).as_str().unwrap().to_owned()
    }
}

#[test]
fn a_tap_of_the_dock_is_taken_back_and_a_second_one_of_the_same_thumb_does_nothing() {
    let bench = Bench::open(PHONE, Scheme::Light);
    bench.demo_weighed();
    bench.start_anyway();
    let first = bench.dock_offers();
    let twice = "const due = document.querySelector('.dock .due'); due.click();
        await new Promise((done) => setTimeout(done, 120)); document.querySelector('.dock .due')?.click()";
    bench.run(
        &format!("return (async () => {{ {twice} }})()"),
        &[json!(null)],
    );
    let second = bench.dock_offers();
    assert_ne!(first, second);
    bench.tap("Undo");
    bench.until(
        format!("{first} is not offered again"),
        "return document.querySelector('.dock .due')?.innerText === arguments[0]",
        &[json!(first)],
    );
}

#[test]
fn finishing_asks_first_where_something_is_left_open_and_says_so_later() {
    let bench = Bench::open(PHONE, Scheme::Light);
    bench.demo_weighed();
    bench.start_anyway();
    bench.all_steps();
    bench.tap("Check the plate before all is done");
    bench.at_stage("pass");
    bench.tap("Finish");
    bench.see("The service is not over: there may be fish in the pan. 6 questions about the plate are not answered.");
    bench.tap("Go on here");
    bench.at_stage("pass");
    bench.tap("Finish");
    bench.tap("Finish all the same");
    bench.at_stage("");
    bench.see("The plate was not checked.");
    bench.tap("All fish");
    bench.see("finished, plate not checked");
    assert_eq!(bench.console_errors(), [""; 0]);
}
