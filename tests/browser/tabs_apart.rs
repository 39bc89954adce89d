//! Three tabs on one fish, each in a process of its own, tapped at random moments up to a fifth of a second apart: every
//! tap is in, and none twice.

use std::time::Instant;

use proptest::prelude::Rng;
use proptest::test_runner::{RngAlgorithm, TestRng};
use serde_json::{Value, json};
use thirtyfour::WindowHandle;

use crate::bench::{Bench, PHONE, Scheme};
use crate::cook::SNAPPER;

/// Two taps for each tab.
const FIGURES: [[char; 2]; 3] = [['1', '2'], ['3', '4'], ['5', '6']];

/// Taps keys of the scale, each at its moment.
const TAPS: &str = "const [at, taps] = arguments;
    window.noted = [];
    for (const [after, name] of taps) {
        const tap = () => {
            while (Date.now() < at + after);
            const keys = [...document.querySelectorAll('.keys button')];
            window.note('tap', name);
            keys.find((key) => key.innerText.trim() === name).click();
            window.note('tapped', document.querySelector('.readout').innerText);
        };
        setTimeout(tap, Math.max(0, at + after - Date.now() - 3));
    }
    return true";

/// Notes what a tab writes to the shelf, and what it is told of the others: told where a round went wrong.
const NOTING: &str = "window.noted = [];
    window.note = (...what) => window.noted.push([Date.now() % 1000000, ...what].join(' '));
    const brief = (text) => {
        try {
            const { counter, tally, body } = JSON.parse(text);
            return `${(counter / 2 ** 20) | 0} ${JSON.stringify(tally)} ${JSON.stringify(body.slip?.whole ?? body).slice(0, 200)}`;
        } catch {
            return String(text).slice(0, 40);
        }
    };
    const write = Storage.prototype.setItem;
    Storage.prototype.setItem = function (key, text) {
        if (key.includes('/fish/')) window.note('writes', key.slice(-2), brief(text));
        return write.call(this, key, text);
    };
    addEventListener('storage', (event) => {
        if (event.key?.includes('/fish/')) window.note('told', event.key.slice(-2), brief(event.newValue));
    });
    return true";

/// The figures on the readout, in order.
const SHOWN: &str =
    "return [...document.querySelector('.readout').innerText.replace(/\\D/g, '')].sort().join('')";

/// How often it is looked, a tenth of a second apart, before a tap is called lost.
const MOST_LOOKS: u32 = 300;

#[derive(Debug, Default)]
struct Rounds {
    rounds: u32,
    taps: usize,
    lost: usize,
    twice: usize,
    bad_rounds: u32,
    not_alike: u32,
    /// How long the slowest round took until every tab showed all, in milliseconds: printed, never asserted.
    slowest_ms: u128,
}

impl Bench {
    fn rounds(&self, rounds: u32, most_ms: u32, seed: u8) -> Rounds {
        let mut chance = TestRng::from_seed(RngAlgorithm::ChaCha, &[seed; 32]);
        self.start_fish(&SNAPPER);
        let place = self.fish_place() + "/weigh-whole";
        self.go(&place);
        let mut tabs = vec![self.this_tab()];
        for _ in 1..FIGURES.len() {
            tabs.push(self.new_tab());
            self.go(&place);
            self.see("Weigh");
        }
        for tab in &tabs {
            self.turn_to(tab);
            self.run(NOTING, &[]);
        }
        let mut tally = Rounds::default();
        for round in 0..rounds {
            self.taps_apart(&tabs, most_ms, &mut chance);
            #[allow(clippy::disallowed_methods)] // Only printed.
            let since = Instant::now();
            let shown = self.shown_by_all(&tabs);
            tally.slowest_ms = tally.slowest_ms.max(since.elapsed().as_millis());
            let (mut lost, mut twice) = (0, 0);
            for figure in FIGURES.iter().flatten() {
                match shown[0].matches(*figure).count() {
                    0 => lost += 1,
                    1 => {}
                    _ => twice += 1,
                }
            }
            tally.rounds += 1;
            tally.taps += FIGURES.iter().flatten().count();
            tally.lost += lost;
            tally.twice += twice;
            tally.bad_rounds += u32::from(lost + twice > 0);
            tally.not_alike += u32::from(shown.iter().any(|other| *other != shown[0]));
            if lost + twice > 0 {
                println!("round {round}: {shown:?}");
                for tab in &tabs {
                    self.turn_to(tab);
                    println!("{:#}", self.run("return window.noted", &[]));
                }
            }
            self.emptied(&tabs);
            if tally.rounds.is_multiple_of(50) {
                println!("{tally:?}");
            }
        }
        println!("{tally:?}");
        tally
    }

    /// Two taps in each tab, at moments of its own.
    fn taps_apart(&self, tabs: &[WindowHandle], most_ms: u32, chance: &mut TestRng) {
        let spread = chance.next_u32() % (most_ms + 1);
        let at = self.run("return Date.now() + 300", &[]).as_i64().unwrap();
        for (tab, keys) in tabs.iter().zip(FIGURES) {
            self.turn_to(tab);
            let mut moments = keys.map(|_| chance.next_u32() % (spread + 1));
            moments.sort_unstable();
            let taps: Vec<Value> = (moments.iter().zip(keys))
                .map(|(after, key)| json!([after, key.to_string()]))
                .collect();
            self.run(TAPS, &[json!(at), json!(taps)]);
        }
        let over = "return Date.now() > arguments[0]";
        self.until("the moment never came", over, &[json!(at + 260)]);
    }

    /// What each tab shows once all have heard of each other. What is lost stays lost, so it is waited for: a tab out of
    /// sight gets its turn as late as a busy machine gives it one.
    fn shown_by_all(&self, tabs: &[WindowHandle]) -> Vec<String> {
        let all: String = FIGURES.iter().flatten().collect();
        let mut shown = Vec::new();
        for _ in 0..MOST_LOOKS {
            shown = (tabs.iter())
                .map(|tab| {
                    self.turn_to(tab);
                    self.run(SHOWN, &[]).as_str().unwrap().to_owned()
                })
                .collect();
            if shown.iter().all(|shown| *shown == all) {
                break;
            }
            std::thread::sleep(std::time::Duration::from_millis(100));
        }
        shown
    }

    /// Takes all figures back, and waits until no tab shows any.
    fn emptied(&self, tabs: &[WindowHandle]) {
        let back = "document.querySelector('.keys [aria-label=\"take all figures back\"]').click(); return true";
        self.run(back, &[]);
        for tab in tabs {
            self.turn_to(tab);
            let empty = format!("return (function () {{ {SHOWN} }})().replaceAll('0', '') === ''");
            self.until("the scale was not emptied", &empty, &[]);
        }
    }
}

/// No tap is lost, none is made twice, and in the end all tabs are alike.
#[track_caller]
fn all_are_in(rounds: u32, seed: u8) {
    let bench = Bench::open(PHONE, Scheme::Light);
    let tally = bench.rounds(rounds, 200, seed);
    assert_eq!(
        (tally.lost, tally.twice, tally.not_alike),
        (0, 0, 0),
        "{tally:?}"
    );
    assert_eq!(bench.console_errors(), [""; 0]);
}

#[test]
fn taps_up_to_a_fifth_of_a_second_apart_are_all_in() {
    all_are_in(20, 21);
}

#[test]
#[ignore = "takes many minutes: run by hand"]
fn six_hundred_rounds_of_three_tabs() {
    all_are_in(600, 22);
}
