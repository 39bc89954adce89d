//! Three tabs that see each other's writes late, and hear of them later still: nothing is lost, and nothing done twice.

use proptest::prelude::*;

use crate::bench::{Fish, fish, tap};
use crate::browser::{Browser, Step, steps};

const TABS: usize = 3;

/// The taps that were made, and those each tab finds in the end.
fn run(steps: Vec<Step<()>>) -> (Vec<String>, Vec<Vec<String>>) {
    let browser = Browser::open(TABS, fish(&["weighed"]));
    run_in(browser, steps, |tab, number| format!("{tab}:{number}"))
}

fn run_in(
    mut browser: Browser<Fish>,
    steps: Vec<Step<()>>,
    name: impl Fn(usize, usize) -> String,
) -> (Vec<String>, Vec<Vec<String>>) {
    let mut made = vec!["weighed".to_owned()];
    for (number, step) in steps.into_iter().enumerate() {
        match step {
            Step::Tap(tab, ()) => {
                let name = name(tab, number);
                browser.tabs[tab].tap(tap(&name));
                made.push(name);
            }
            Step::Take(tab) => drop(browser.take(tab)),
            Step::Show(tab) => drop(browser.show(tab)),
            Step::Hear(tab) => drop(browser.hear(tab)),
        }
    }
    browser.settle();
    made.sort();
    let found = browser.tabs.iter().map(|tab| {
        assert_eq!(tab.told, []);
        let mut taps = tab.found().taps;
        taps.sort();
        taps
    });
    (made, found.collect())
}

#[test]
fn three_tabs_that_tap_in_the_same_instant_lose_nothing() {
    let taps = (0..TABS).map(|tab| Step::Tap(tab, ())).collect();
    let (made, found) = run(taps);
    assert_eq!(made.len(), 4);
    for found in found {
        assert_eq!(found, made);
    }
}

#[test]
fn the_same_tap_in_three_tabs_in_the_same_instant_is_three_taps() {
    let taps = || (0..TABS).map(|tab| Step::Tap(tab, ())).collect();
    let browser = Browser::open(TABS, fish(&["weighed"]));
    let (made, found) = run_in(browser, taps(), |_, _| "5".to_owned());
    for found in found {
        assert_eq!(found, made);
    }
}

/// Once found at random: a copy that the last tab saw was written over by one with fewer writes before that tab's
/// first tap, and the chain of copies went through it.
#[test]
fn a_copy_seen_before_the_first_tap_still_tells_what_is_in_the_newest() {
    use Step::{Show, Take};
    let tap = |tab| Step::Tap(tab, ());
    let steps = [
        tap(2),
        Take(2),
        tap(2),
        Show(0),
        tap(1),
        Take(2),
        tap(1),
        tap(2),
        Take(2),
        Show(0),
        Show(0),
        Take(1),
        tap(2),
        Take(2),
        Take(1),
        Show(0),
        Show(0),
        Show(0),
        tap(2),
        tap(0),
    ];
    let (made, found) = run(steps.into());
    for found in found {
        assert_eq!(found, made);
    }
}

/// Once found at random: two copies with as many writes, whose checksums began alike, were taken for one.
#[test]
fn copies_whose_checksums_begin_alike_are_told_apart() {
    use Step::{Show, Take};
    let tap = |tab| Step::Tap(tab, ());
    let steps = [
        tap(0),
        Take(0),
        Take(0),
        Take(0),
        Take(0),
        Show(1),
        Take(0),
        Take(0),
        Take(0),
        tap(0),
        tap(0),
        Take(0),
        Show(1),
        Show(0),
        tap(2),
        Take(1),
        Take(2),
        tap(1),
        Show(0),
        tap(1),
        Take(1),
        Show(0),
        tap(0),
        tap(2),
        tap(2),
    ];
    let (made, found) = run(steps.into());
    for found in found {
        assert_eq!(found, made);
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(3_000))]

    #[test]
    fn tabs_that_hear_late_lose_nothing_and_do_nothing_twice(steps in steps(TABS, Just(()))) {
        let (made, found) = run(steps);
        for found in found {
            prop_assert_eq!(&found, &made);
        }
    }
    #[test]
    fn tabs_that_tap_the_same_and_hear_late_lose_nothing_either(steps in steps(TABS, Just(()))) {
        let browser = Browser::open(TABS, fish(&["weighed"]));
        let (made, found) = run_in(browser, steps, |_, _| "5".to_owned());
        for found in found {
            prop_assert_eq!(&found, &made);
        }
    }
}
