//! The tap that is due stands in the dock, in sight and hit where it is drawn, in every state of a service.

use serde_json::json;

use crate::bench::{Bench, PHONE, Scheme, Size};

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

/// Whether the dock offers something, or a timer runs that can be called done.
const DUE_OR_RUNS: &str = "return Boolean(document.querySelector('nav.dock .due, nav.dock a.next, article.runs .btn.main'))";

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

fn a_whole_service(size: Size) {
    let bench = Bench::open(size, Scheme::Light);
    bench.demo_weighed();
    bench.start_anyway();
    let mut offers = Vec::new();
    for _ in 0..60 {
        let offer = bench.dock_offers();
        match offer.as_str() {
            "all done" => break,
            // Timers run, and nothing else: the cook is before the first of them. Or a plan is on its way.
            "nothing" => {
                bench.run(
                    "document.querySelector('article.runs .btn.main')?.click()",
                    &[],
                );
                bench.until("nothing is ever due", DUE_OR_RUNS, &[]);
            }
            _ => bench.tap_css(".dock .due"),
        }
        offers.push(offer);
        bench.shot(&format!("due-after-{}", offers.len()));
    }
    println!("{}x{}: {offers:?}", size.0, size.1);
    assert_eq!(bench.dock_offers(), "all done");
    let odd = ["only", "out of sight", "covered"];
    let faults: Vec<_> = offers
        .iter()
        .filter(|offer| odd.iter().any(|odd| offer.starts_with(odd)))
        .collect();
    assert!(faults.is_empty(), "{faults:?}");
    assert!(
        offers.iter().filter(|offer| *offer != "nothing").count() > 6,
        "{offers:?}"
    );
    bench.tap("Check the plate");
    bench.at_stage("pass");
    assert_eq!(bench.console_errors(), [""; 0]);
}

#[test]
fn the_due_tap_is_in_sight_through_a_whole_service() {
    a_whole_service(PHONE);
}

#[test]
fn the_due_tap_is_in_sight_on_a_small_phone() {
    a_whole_service(Size(320, 568));
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
    bench.tap("Check the plate before all is done");
    bench.at_stage("pass");
    bench.tap("Finish");
    bench.see("The service is not over: there may be fish in the pan. 5 questions about the plate are not answered.");
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
