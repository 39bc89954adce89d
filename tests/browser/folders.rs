//! Several copies of the app on one host: each keeps its own, and what all shared once is still found.

use serde_json::{Value, json};

use crate::bench::{Bench, PHONE, Scheme};
use crate::cook::SNAPPER;
use crate::site::Site;

const KITCHEN: &str = "kitchen/";

/// The names of all that this site keeps, but for the locks of workers, which chance names.
const NAMES: &str =
    "return Promise.all([indexedDB.databases(), caches.keys(), navigator.locks.query()]).then(
    ([databases, caches, locks]) => [
        Object.keys(localStorage),
        databases.map(({ name }) => name),
        caches,
        locks.held.map(({ name }) => name).filter((name) => !name.startsWith('scaleside worker')),
    ].flat())";

const UNKEPT: &str = "return (async () => {
    for (const worker of await navigator.serviceWorker.getRegistrations()) await worker.unregister();
    for (const name of await caches.keys()) await caches.delete(name);
    return true;
})()";

const SETTLED: &str = "return localStorage.getItem('/kitchen/ scaleside/settled') !== null";

impl Bench {
    /// Goes to the copy in another folder of the same host.
    #[track_caller]
    fn go_to_copy(&self, below: &str) {
        self.wait(
            self.browser()
                .goto(format!("{}/{below}", self.site.origin())),
        );
        self.started();
    }

    /// A fish with a photo and a fish without, kept at the top of the host, where the names are plain; and one removed.
    #[track_caller]
    fn keep_at_the_top(&self) {
        self.started();
        self.demo_weighed();
        self.journal_with_photo();
        for _ in 0..2 {
            self.go("#/");
            self.start_fish(&SNAPPER);
        }
        let gone = self.fish_place();
        self.go(&gone);
        self.tap("Remove this fish");
        self.tap("Remove it");
        self.at("#/");
        // The second home has heard of it all.
        self.until(
            "the second home was not told",
            "return new Promise((done) => {
                const open = indexedDB.open('scaleside ledger');
                open.onsuccess = () => {
                    const all = open.result.transaction('texts').objectStore('texts').getAllKeys();
                    all.onsuccess = () => { open.result.close(); done(all.result.filter((key) => key.includes('/fish/')).length >= 2); };
                };
            })",
            &[],
        );
        self.kept();
    }

    #[track_caller]
    fn has_settled(&self) {
        self.until("nothing was taken over", SETTLED, &[]);
    }

    /// No copy of the app is known any more to be kept for use without a signal. This one may still be being kept: what
    /// is forgotten before that is there again afterwards.
    #[track_caller]
    fn forgets_copies(&self) {
        self.kept();
        self.run(UNKEPT, &[]);
    }

    /// What was kept at the top is here, and nothing that was removed there.
    #[track_caller]
    fn all_is_here(&self) {
        self.see("Gilthead bream");
        self.see("Snapper");
        let fish =
            "return document.querySelectorAll('.page main a.item[href^=\"#/fish/\"]').length";
        self.until("not two fish", &format!("{fish} === 2"), &[]);
        self.tap("Gilthead bream");
        let place = self.fish_place();
        self.run(
            "location.hash = arguments[0]",
            &[json!(format!("{place}/journal"))],
        );
        self.photos_shown(1);
    }
}

fn copies() -> Bench {
    let site = Site::new();
    site.lay_beside(KITCHEN);
    Bench::open_at(site, PHONE, Scheme::Light)
}

#[test]
fn two_schools_on_one_host_keep_apart() {
    let site = Site::below(KITCHEN);
    site.lay_beside("pantry/");
    let bench = Bench::open_at(site, PHONE, Scheme::Light);
    bench.started();
    bench.demo_weighed();
    bench.journal_with_photo();
    bench.kept();
    bench.has_settled();
    bench.go_to_copy("pantry/");
    bench.see("Try the demo first");
    bench.start_fish(&SNAPPER);
    bench.kept();
    bench.go_to_copy("pantry/");
    bench.see("Snapper");
    bench.not_see("Gilthead bream");
    bench.go_to_copy(KITCHEN);
    bench.see("Gilthead bream");
    bench.not_see("Snapper");

    let names: Vec<String> = serde_json::from_value(bench.run(NAMES, &[])).unwrap();
    let plain: Vec<&String> = names
        .iter()
        .filter(|name| !name.contains("/kitchen/ ") && !name.contains("/pantry/ "))
        // These were looked into for what all copies shared once.
        .filter(|name| !["scaleside", "scaleside ledger"].contains(&name.as_str()))
        .collect();
    assert!(names.len() > 10, "{names:?}");
    assert_eq!(plain, [""; 0], "{names:?}");
    println!("{} names of two copies, each with its folder", names.len());
    assert_eq!(bench.console_errors(), [""; 0]);
}

#[test]
fn what_stands_under_the_plain_names_is_found_in_its_folder_once() {
    let bench = copies();
    bench.keep_at_the_top();
    let plain =
        "return Object.keys(localStorage).filter((key) => key.startsWith('scaleside/')).sort()";
    let before = bench.run(plain, &[]);
    // So a phone stands that knows the app from this folder alone, by an older build: no other copy was kept on it.
    bench.forgets_copies();
    bench.run("localStorage.setItem('scaleside/build', '1')", &[]);
    bench.go_to_copy(KITCHEN);
    bench.has_settled();
    bench.all_is_here();
    // A page of the older build, open in another tab, stops writing where nobody reads.
    let told = "return Number(localStorage.getItem('scaleside/build')) > 1";
    assert_eq!(bench.run(told, &[]), json!(true));
    assert_eq!(
        bench.run(plain, &[]),
        before,
        "something left its old place"
    );

    // It is taken over once: what is removed here stays away, also when the mark of it has gone with local storage.
    bench.go_to_copy(KITCHEN);
    bench.tap("Snapper");
    let gone = bench.fish_place();
    bench.run("location.hash = arguments[0]", &[json!(gone)]);
    bench.tap("Remove this fish");
    bench.tap("Remove it");
    bench.at("#/");
    bench.run(
        "return new Promise((done) => setTimeout(done, 1000)).then(() => localStorage.removeItem('/kitchen/ scaleside/settled'))",
        &[],
    );
    bench.go_to_copy(KITCHEN);
    bench.has_settled();
    bench.see("Gilthead bream");
    bench.not_see("Snapper");
    assert_eq!(bench.console_errors(), [""; 0]);
}

#[test]
fn what_only_the_second_home_still_had_is_found_in_its_folder() {
    let bench = copies();
    bench.keep_at_the_top();
    bench.forgets_copies();
    bench.run("localStorage.clear()", &[]);
    bench.go_to_copy(KITCHEN);
    bench.has_settled();
    bench.all_is_here();
}

#[test]
fn a_copy_that_was_never_here_takes_nothing_of_another() {
    let bench = copies();
    bench.keep_at_the_top();
    bench.go_to_copy(KITCHEN);
    bench.has_settled();
    bench.see("Try the demo first");
    bench.wait(bench.browser().goto(bench.site.address()));
    bench.started();
    bench.see("Gilthead bream");
    bench.see("Snapper");
}

#[test]
fn where_there_is_no_room_for_both_what_was_taken_over_leaves_its_old_place() {
    let bench = copies();
    bench.started();
    bench.start_fish(&SNAPPER);
    let copies = "const [id] = location.hash.split('/').slice(2);
        const text = localStorage.getItem(`scaleside/1/fish/${id}/a`) ?? localStorage.getItem(`scaleside/1/fish/${id}/b`);
        for (let count = 10; count < 70; count++) localStorage.setItem(`scaleside/1/fish/copy${count}/a`, text);
        return Object.keys(localStorage).filter((key) => key.startsWith('scaleside/1/fish/')).length";
    let all: Value = bench.run(copies, &[]);
    assert!(all.as_u64().unwrap() > 60, "{all}");
    // The last thing done here: a screen that asks whether all is kept has it kept again.
    bench.forgets_copies();
    bench.go("404.html");
    let fill = "let size = 6e6;
        for (let name = 0; size > 500; name++) {
            try { localStorage.setItem(`filler${name}`, 'x'.repeat(size)); } catch { size = Math.floor(size / 2); name--; }
        }
        localStorage.setItem('filler', '');
        const largest = Object.keys(localStorage).filter((key) => key.startsWith('filler'))
            .sort((one, other) => localStorage[one].length - localStorage[other].length);
        localStorage[largest.at(-1)] = localStorage[largest.at(-1)].slice(8000);";
    bench.run(fill, &[]);
    bench.go_to_copy(KITCHEN);
    bench.has_settled();
    let left = "const of = (start) => new Set(Object.keys(localStorage).filter((key) => key.startsWith(start))
            .map((key) => key.split('/').at(-2)));
        return [of('scaleside/1/fish/').size, of('/kitchen/ scaleside/1/fish/').size]";
    let left: (usize, usize) = serde_json::from_value(bench.run(left, &[])).unwrap();
    println!("{} fish at the old place, {} in the folder", left.0, left.1);
    assert_eq!(left.1, 61, "not all were taken over");
    assert!(left.0 < 61, "none left its old place");
}
