//! The whole browser killed outright, every process of it at once, at random moments of a session of taps: a browser puts
//! local storage on the disk up to a minute late, so what was tapped comes back from the second home. What was tapped is
//! noted by this test, which lives on.

use std::process::Stdio;
use std::time::Duration;

use proptest::prelude::Rng;
use proptest::test_runner::{RngAlgorithm, TestRng};
use serde_json::{Value, json};

use crate::bench::{Bench, PHONE, Scheme};
use crate::cook::SNAPPER;

/// Types a number into the journal, and answers once the app has taken it.
const TYPES: &str = "const field = document.querySelector('#went-well');
    field.value = `tap ${arguments[0]}`;
    field.dispatchEvent(new Event('input', { bubbles: true }));
    return true";

/// The number in the journal of the fish on the screen.
const TYPED: &str = "return Number(document.querySelector('#went-well')?.value.split(' ')[1] ?? 0)";

/// The fish on this phone.
const FISH: &str = "return [...new Set(Object.keys(localStorage)
    .filter((key) => key.startsWith('scaleside/1/fish/')).map((key) => key.split('/')[3]))]";

/// How many texts were set aside.
const ASIDE: &str =
    "return Object.keys(localStorage).filter((key) => key.startsWith('scaleside/aside/')).length";

/// Whether the second home has joined in.
const JOINED: &str = "return performance.getEntriesByType('resource').some((entry) => entry.name.includes('split_ledger'))";

/// What came of many kills.
#[derive(Debug, Default)]
struct Tally {
    kills: u32,
    taps: u64,
    lost: u64,
    last_only: u32,
    worse: Vec<(u64, u64)>,
    fish: usize,
    fish_lost: usize,
}

impl Bench {
    /// Kills the browser after a while, and meanwhile taps on; answers the last number that the app had taken.
    fn tapped_until_killed(&mut self, from: u64, after: Duration, chance: &mut TestRng) -> u64 {
        let killing = self.chrome.as_ref().unwrap().killing();
        let killer = std::thread::spawn(move || {
            std::thread::sleep(after);
            let mut killing = killing;
            killing.stdout(Stdio::null()).status().unwrap()
        });
        let mut taken = from;
        while self
            .try_run(TYPES, &[json!(taken + 1)])
            .is_ok_and(|said| said == json!(true))
        {
            taken += 1;
            std::thread::sleep(Duration::from_millis(u64::from(chance.next_u32() % 200)));
        }
        assert!(killer.join().unwrap().success(), "nothing was killed");
        taken
    }

    fn fish_here(&self) -> Vec<String> {
        serde_json::from_value(self.run(FISH, &[])).unwrap()
    }

    fn kills(&mut self, kills: u32, seed: u8) -> Tally {
        let mut chance = TestRng::from_seed(RngAlgorithm::ChaCha, &[seed; 32]);
        let mut tally = Tally::default();
        // The first visit fetches the app; the second home comes with the rest of it.
        self.until("the second home never came", JOINED, &[]);
        let mut begun: Vec<String> = Vec::new();
        for kill in 0..kills {
            self.go("#/");
            self.start_fish(&SNAPPER);
            let place = self.fish_place();
            begun.push(place.rsplit('/').next().unwrap().to_owned());
            let journal = place + "/journal";
            self.go(&journal);
            self.see("What went well?");
            let after = Duration::from_millis(u64::from(chance.next_u32() % 3_000));
            let taken = self.tapped_until_killed(0, after, &mut chance);
            self.chrome.as_mut().unwrap().open_again();
            self.settle_in();
            self.go(&journal);
            // It comes from the second home, which answers a moment later.
            let came = "return Number(document.querySelector('#went-well')?.value.split(' ')[1] ?? 0) >= arguments[0]";
            let settled = self.comes(came, &[json!(taken)]);
            let kept = self.run(TYPED, &[]).as_u64().unwrap();
            let here = self.fish_here();
            let gone = begun.iter().filter(|id| !here.contains(id)).count();
            let lost = taken.saturating_sub(kept);
            assert_eq!(self.run(ASIDE, &[]), json!(0), "in halves");
            // One that the browser took just as it died may be there, and none that nobody made.
            assert!(kept <= taken + 1, "{kept} of {taken}");
            println!(
                "kill {kill}: {taken} taps in {} ms, {lost} lost, {gone} of {} fish gone{}",
                after.as_millis(),
                begun.len(),
                if settled { "" } else { ", waited" }
            );
            tally.kills += 1;
            tally.taps += taken;
            tally.lost += lost;
            tally.last_only += u32::from(lost == 1);
            if lost > 1 {
                tally.worse.push((taken, lost));
            }
            tally.fish = begun.len();
            tally.fish_lost += gone;
            begun.retain(|id| here.contains(id));
        }
        println!("{tally:?}");
        tally
    }

    /// Whether a function body comes to return something true, in three seconds.
    fn comes(&self, script: &str, given: &[Value]) -> bool {
        (0..60).any(|_| {
            std::thread::sleep(Duration::from_millis(50));
            self.try_run(script, given)
                .is_ok_and(|said| said == json!(true))
        })
    }
}

#[test]
fn a_browser_killed_at_any_moment_loses_the_last_tap_at_most() {
    let mut bench = Bench::open(PHONE, Scheme::Light);
    let tally = bench.kills(6, 11);
    assert!(tally.worse.is_empty() && tally.fish_lost == 0, "{tally:?}");
    assert!(tally.taps > 0, "{tally:?}");
}

#[test]
#[ignore = "takes many minutes: run by hand"]
fn a_hundred_kills_of_the_browser() {
    let mut bench = Bench::open(PHONE, Scheme::Light);
    let tally = bench.kills(100, 12);
    assert!(tally.worse.is_empty() && tally.fish_lost == 0, "{tally:?}");
}

#[test]
fn local_storage_cleared_while_the_app_is_closed_costs_nothing() {
    let bench = Bench::open(PHONE, Scheme::Light);
    let mut begun = Vec::new();
    for _ in 0..3 {
        bench.go("#/");
        bench.start_fish(&SNAPPER);
        begun.push(bench.fish_place());
    }
    bench.go(&(begun[0].clone() + "/weigh-whole"));
    bench.key("845");
    bench.reads("845 g");
    bench.ledger_holds_all();
    bench.away();
    bench.run("localStorage.clear(); return true", &[]);
    bench.go("");
    bench.started();
    bench.until(
        "the fish did not come back",
        "return document.querySelectorAll('.page main a[href^=\"#/fish/\"]').length >= 3",
        &[],
    );
    bench.go(&(begun[0].clone() + "/weigh-whole"));
    bench.reads("845 g");
    bench.key("<9");
    bench.reads("849 g");
    bench.reload();
    bench.reads("849 g");

    // A screen that was asked for what is not here yet shows it once it came.
    bench.ledger_holds_all();
    bench.away();
    bench.run("localStorage.clear(); return true", &[]);
    bench.go(&(begun[0].clone() + "/weigh-whole"));
    bench.reads("849 g");
    bench.not_see("set aside");
    assert_eq!(bench.console_errors(), [""; 0]);
}

#[test]
fn the_second_home_deleted_or_refused_costs_nothing() {
    let bench = Bench::open(PHONE, Scheme::Light);
    bench.start_fish(&SNAPPER);
    let place = bench.fish_place() + "/weigh-whole";
    bench.go(&place);
    bench.key("84");
    bench.reads("84 g");
    bench.ledger_holds_all();
    bench.away();
    let delete = "return new Promise((done) => {
        const gone = indexedDB.deleteDatabase('scaleside ledger');
        gone.onsuccess = () => done(true);
        gone.onerror = gone.onblocked = () => done(false);
    })";
    assert_eq!(bench.run(delete, &[]), json!(true));
    bench.go(&place);
    bench.reads("84 g");
    bench.key("5");
    bench.reads("845 g");
    // It holds everything again.
    bench.ledger_holds_all();

    for how in [
        "Object.defineProperty(window, 'indexedDB', { value: undefined })",
        "IDBFactory.prototype.open = () => { throw new DOMException('no', 'SecurityError') }",
        "IDBFactory.prototype.open = () => new EventTarget()",
        "const open = IDBFactory.prototype.open;
         IDBFactory.prototype.open = function (...given) {
             const request = open.apply(this, given);
             Object.defineProperty(request, 'onsuccess', { set() {} });
             return request;
         }",
    ] {
        bench.new_tab();
        bench.command("Page.enable", json!({}));
        bench.before_each_load(how);
        bench.go(&place);
        bench.reload();
        bench.reads("845 g");
        bench.key("<");
        bench.reads("84 g");
        bench.key("5");
        bench.reads("845 g");
        bench.reload();
        bench.reads("845 g");
        bench.not_see("does not let Scaleside");
    }
}

#[test]
fn what_was_removed_does_not_come_back_from_the_second_home() {
    let mut bench = Bench::open(PHONE, Scheme::Light);
    bench.until("the second home never came", JOINED, &[]);
    bench.start_fish(&SNAPPER);
    let place = bench.fish_place();
    bench.ledger_holds_all();
    bench.go(&place);
    bench.tap("Remove this fish…");
    bench.tap("Remove it");
    bench.see("is in the bin");
    let id = place.rsplit('/').next().unwrap().to_owned();
    // The first home never heard of it: it had the fish on the disk, and not yet its removal.
    bench.ledger_holds_all();
    bench.killed_browser();
    bench.started();
    bench.go("#/bin");
    bench.see("Snapper");
    let listed = "return Object.keys(localStorage).some((key) => key.startsWith(`scaleside/1/fish/${arguments[0]}/`))";
    assert_eq!(bench.run(listed, &[json!(id)]), json!(false));
    bench.away();
    bench.run("localStorage.clear(); return true", &[]);
    bench.go("#/bin");
    bench.see("Snapper");
    assert_eq!(bench.run(listed, &[json!(id)]), json!(false));
    // It can still be put back, and stays then.
    bench.tap("Put it back");
    bench.see("back in its place");
    bench.ledger_holds_all();
    bench.killed_browser();
    bench.go("#/");
    bench.started();
    bench.see("Snapper");
}

impl Bench {
    /// Leaves the app for a page of the same host that is none of it.
    #[track_caller]
    fn away(&self) {
        // It names an empty picture of its own, or the browser would ask the host for one.
        self.site
            .put("away.html", b"<!doctype html><link rel=icon href=data:,>");
        self.go("away.html");
    }

    /// Waits until the second home holds every text that local storage does.
    #[track_caller]
    pub fn ledger_holds_all(&self) {
        let same = "return new Promise((done) => {
            const open = indexedDB.open('scaleside ledger');
            open.onupgradeneeded = () => open.transaction.abort();
            open.onerror = () => done(false);
            open.onsuccess = () => {
                const texts = open.result.transaction('texts').objectStore('texts');
                const keys = texts.getAllKeys();
                const all = texts.getAll();
                all.onsuccess = () => {
                    open.result.close();
                    const held = new Map(keys.result.map((key, at) => [key, all.result[at]]));
                    done(Object.entries(localStorage)
                        .filter(([key]) => key.startsWith('scaleside/'))
                        .every(([key, text]) => held.get(key) === text));
                };
            };
        })";
        self.until("the second home lacks something", same, &[]);
    }
}
