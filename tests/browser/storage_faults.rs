//! Local storage that is damaged, full or refused: the app says so, works on, and loses nothing that was kept.

use serde_json::{Value, json};

use crate::bench::{Bench, PHONE, Scheme};
use crate::cook::{DEMO_STEPS, SNAPPER};

/// Ways a stored text can go bad, each as a function in the page.
const DAMAGE: [(&str, &str); 4] = [
    ("cut off", "(text) => text.slice(0, text.length / 2)"),
    (
        "one letter changed",
        "(text) => text.replace('gilthead', 'gilthaed')",
    ),
    ("foreign", "() => '<html>not ours</html>'"),
    ("emptied", "() => ''"),
];

/// Ways in which a browser keeps nothing.
pub const REFUSALS: [(&str, &str); 3] = [
    (
        "storage is refused",
        "Object.defineProperty(window, 'localStorage', { get() { throw new DOMException('no', 'SecurityError'); } });",
    ),
    (
        "there is none",
        "Object.defineProperty(window, 'localStorage', { get() { return null; } });",
    ),
    (
        "every write is refused",
        "Storage.prototype.setItem = () => { throw new DOMException('no', 'QuotaExceededError'); };",
    ),
];

/// The stored copies of a fish, the newest first, as pairs of key and text.
const COPIES: &str = "return Object.entries(localStorage)
    .filter(([key]) => key.includes(`/fish/${arguments[0]}/`) && !key.includes('/aside/'))
    .sort(([, one], [, other]) => JSON.parse(other).counter - JSON.parse(one).counter)";

impl Bench {
    #[track_caller]
    fn id(&self) -> String {
        self.fish_place().rsplit('/').next().unwrap().to_owned()
    }

    /// Fills local storage with what is not ours, up to so many letters.
    #[track_caller]
    pub fn fill_storage(&self, left: usize) {
        let fill = "let size = 1 << 23, text = '';
            while (size >= 1) {
                try { localStorage.setItem('others', text + 'x'.repeat(size)); text += 'x'.repeat(size); }
                catch { size = Math.floor(size / 2); }
            }
            localStorage.setItem('others', text.slice(arguments[0]));
            return text.length > arguments[0]";
        assert_eq!(self.run(fill, &[json!(left)]), json!(true));
    }

    #[track_caller]
    fn copies(&self, id: &str) -> Value {
        self.run(COPIES, &[json!(id)])
    }

    /// Damages the newest so many copies of a fish; returns what stands there now, by key.
    #[track_caller]
    fn damage(&self, id: &str, copies: usize, how: &str) -> Vec<(String, String)> {
        let script = format!(
            "{} .slice(0, arguments[1]).map(([key, text]) => {{
                const bad = ({how})(text);
                localStorage.setItem(key, bad);
                return [key, bad];
            }})",
            COPIES
        );
        let damaged = self.run(&script, &[json!(id), json!(copies)]);
        serde_json::from_value(damaged).unwrap()
    }

    /// The texts that are set aside, by the key they were found under.
    #[track_caller]
    fn aside(&self) -> Vec<(String, String)> {
        let aside = "return Object.entries(localStorage)
            .filter(([key]) => key.startsWith('scaleside/aside/'))
            .map(([key, text]) => [key.split('/').slice(3).join('/'), text])";
        serde_json::from_value(self.run(aside, &[])).unwrap()
    }
}

#[test]
fn what_is_damaged_is_set_aside_and_the_rest_untouched() {
    for (kind, how) in DAMAGE {
        for copies in [1, 2] {
            println!("{copies} copies {kind}");
            let bench = Bench::open(PHONE, Scheme::Light);
            bench.start_fish(&SNAPPER);
            let own = bench.id();
            bench.tap("All fish");
            bench.tap("Open the demo");
            bench.at_stage("weigh-whole");
            bench.key("<5");
            bench.reads("645 g");
            let demo = bench.id();
            let untouched = bench.copies(&own);

            // Else it is this page that finds the damage and tells of it.
            bench.until(
                "the shelf is not looked over",
                "return performance.getEntriesByType('resource').some((entry) => entry.name.includes('split_shelf'))",
                &[],
            );
            bench.ledger_holds_all();
            let mut damaged = bench.damage(&demo, copies, how);
            assert_eq!(damaged.len(), copies);
            bench.go("#/");
            bench.reload();
            bench.started();
            bench.see(if copies == 1 {
                "It was set aside whole, and nothing else was touched."
            } else {
                "They were set aside whole, and nothing else was touched."
            });
            bench.see("Snapper");
            let mut aside = bench.aside();
            aside.sort();
            damaged.sort();
            assert_eq!(aside, damaged);
            assert_eq!(bench.copies(&own), untouched);
            // The second home has them whole.
            bench.tap("Gilthead bream");
            bench.at_stage("weigh-whole");
            bench.reads("645 g");
            bench.key("<8");
            bench.reads("648 g");
            bench.tap("All right");
            bench.reload();
            bench.reads("648 g");
            bench.not_see("set aside");
            bench.go("#/kept");
            bench.see(if copies == 1 {
                "Set aside: 1 stored copy"
            } else {
                "Set aside: 2 stored copies"
            });
            bench.tap("Save them as a file");
            let file = std::fs::read(bench.saved(".json")).unwrap();
            let file: std::collections::BTreeMap<String, String> =
                serde_json::from_slice(&file).unwrap();
            let mut texts: Vec<String> = file.into_values().collect();
            let mut expected: Vec<String> = damaged.into_iter().map(|(_, text)| text).collect();
            texts.sort();
            expected.sort();
            assert_eq!(texts, expected, "set aside whole");
            assert_eq!(bench.console_errors(), [""; 0]);
        }
    }
}

#[test]
fn a_full_phone_says_so_at_each_kind_of_write_and_keeps_it_later() {
    let bench = Bench::open(PHONE, Scheme::Light);
    bench.started();
    bench.fill_storage(0);
    bench.go("#/classes");
    bench.fill("#class-name", "Tuesday");
    bench.tap("Start the class");
    bench.see("Not kept");
    bench.go("#/settings");
    bench.tap("Sound");
    bench.see("This phone has no room left for your entries.");
    bench.go("#/");
    bench.tap("Start a fish");
    bench.at_stage("delivery");
    bench.see("Not kept");
    assert_eq!(bench.aside(), []);
    bench.run("localStorage.removeItem('others')", &[]);
    bench.tap("Whole");
    bench.not_see("Not kept");
    bench.go("#/settings");
    bench.tap("Vibration");
    bench.go("#/");
    bench.reload();
    bench.see("A fish");
    bench.go("#/settings");
    bench.see("When a timer ends");
    let set = "return [...document.querySelectorAll('main input')].map((box) => box.checked)";
    assert_eq!(bench.run(set, &[]), json!([false, false, false]));
}

#[test]
fn on_a_full_phone_with_an_empty_bin_a_record_is_removed_for_good() {
    let bench = Bench::open(PHONE, Scheme::Light);
    bench.start_fish(&SNAPPER);
    let place = bench.fish_place();
    bench.journal_with_photo();
    bench.fill_storage(0);
    let ask = || {
        bench.go(&place);
        bench.tap("Remove this fish…");
        bench.tap("Remove it");
        bench.see("This phone has no room left to keep it in the bin");
    };
    ask();
    assert_eq!(bench.axe(), [""; 0]);
    assert_eq!(bench.small_targets(), [""; 0]);
    bench.shot("no-room-in-the-bin");
    // A backup first, and nothing is gone by looking.
    bench.tap("Make a backup");
    bench.at("#/kept");
    bench.tap("Make a backup");
    bench.see("Ready: 2 entries and 1 photo");
    ask();
    bench.tap("Remove for good…");
    bench.see("Only a backup can bring it back.");
    bench.tap("Keep it");
    bench.see("This phone has no room left to keep it in the bin");
    assert_ne!(bench.copies(place.rsplit('/').next().unwrap()), json!([]));
    bench.tap("Remove for good…");
    bench.tap("Remove for good");
    bench.at("#/");
    bench.see("The fish was removed for good.");
    bench.not_see("Snapper");
    bench.has_no_photos();
    // Its room is free, so that another is kept, removed, and found in the bin.
    bench.reload();
    bench.started();
    bench.not_see("Snapper");
    bench.run(
        "localStorage.setItem('others', localStorage.getItem('others').slice(9000))",
        &[],
    );
    bench.start_fish(&SNAPPER);
    bench.go(&bench.fish_place());
    bench.tap("Remove this fish…");
    bench.tap("Remove it");
    bench.see("The fish is in the bin");
    assert_eq!(bench.console_errors(), [""; 0]);
}

#[test]
fn a_full_phone_keeps_the_entries_on_the_screen() {
    let bench = Bench::open(PHONE, Scheme::Light);
    bench.demo_weighed();
    bench.tap("Chill and prepare");
    bench.at_stage("prepare");
    let id = bench.id();
    bench.fill_storage(0);
    let before = bench.copies(&id);
    let line = |line: usize| format!("main .choices.one > label:nth-of-type({line})");
    bench.tap_css(&line(1));
    bench.see("Not kept");
    bench.see("This phone has no room left for your entries.");
    bench.tap_css(&line(2));
    bench.see("6 things are not ready yet.");
    bench.see("Not kept");
    assert_eq!(bench.copies(&id), before, "what was kept is still there");
    assert_eq!(bench.axe(), [""; 0]);
    bench.shot("full");

    bench.run("localStorage.removeItem('others')", &[]);
    bench.tap_css(&line(3));
    bench.not_see("Not kept");
    bench.see("5 things are not ready yet.");
    bench.reload();
    bench.see("5 things are not ready yet.");
    assert_eq!(bench.console_errors(), [""; 0]);
}

#[test]
fn a_fish_is_worked_through_where_storage_is_refused() {
    for (how, script) in REFUSALS {
        println!("{how}");
        let bench = Bench::open(PHONE, Scheme::Light);
        bench.command("Page.enable", json!({}));
        bench.before_each_load(script);
        bench.reload();
        bench.started();
        bench.demo_weighed();
        bench.see("Not kept");
        bench.see("Yield from gutted and scaled 46.6 %");
        bench.start_anyway();
        bench.all_steps();
        bench.serve(&DEMO_STEPS);
        bench.tap("Check the plate");
        bench.pass();
        bench.tap("All fish");
        bench.see("finished Demo 46.6 %");
        // What no shelf takes can be carried away: as a file, and as a code.
        bench.tap("Save everything as a file");
        bench.at("#/kept");
        bench.tap("Make a backup");
        bench.see("Ready: 1 entry");
        bench.tap("All fish");
        bench.tap("Gilthead bream");
        bench.tap("Send the result");
        bench.at_stage("code");
        assert_eq!(bench.console_errors(), [""; 0]);
    }
}

/// As many fish as a browser has room for: the time to the first screen is told, and never asserted.
#[test]
fn a_phone_full_of_fish_opens() {
    let bench = Bench::open(PHONE, Scheme::Light);
    bench.demo_weighed();
    let id = bench.id();
    let copies = "const [[, text]] = (function () { COPIES })(arguments[0]);
        let count = 0;
        try {
            for (; count < 10000; count++)
                localStorage.setItem(`scaleside/1/fish/copy${count}/a`, text);
        } catch {}
        return count"
        .replace("COPIES", COPIES);
    let count = bench.run(&copies, &[json!(id)]).as_u64().unwrap();
    assert!(count > 1_000, "{count} fish");
    bench.go("#/");
    bench.reload();
    bench.started();
    bench.see("Gilthead bream");
    let started = "return Math.round(performance.now())";
    println!(
        "{count} fish: on the screen after {} ms or sooner",
        bench.run(started, &[])
    );
    bench.tap("Show earlier fish");
    assert_eq!(bench.aside(), []);
    assert_eq!(bench.console_errors(), [""; 0]);
}
