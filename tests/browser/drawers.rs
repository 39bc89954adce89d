//! Records of every kind, told of alike; and a page that starts with many of them.

use serde_json::json;

use crate::bench::{Bench, PHONE, Scheme};

/// Cuts the newest copy of every record of a kind in halves, and takes the other away. Returns how many.
const DAMAGE: &str = "const keys = Object.keys(localStorage).filter((key) => key.startsWith(`scaleside/1/${arguments[0]}/`));
    const ids = new Set(keys.map((key) => key.split('/')[3]));
    for (const key of keys) {
        if (key.endsWith('/b')) localStorage.removeItem(key);
    }
    for (const id of ids) localStorage.setItem(`scaleside/1/${arguments[0]}/${id}/a`, '{\"format\":1,\"cou');
    return ids.size";

/// Keeps so many more fish like the newest of this phone, begun after it.
const MORE: &str =
    "const keys = Object.keys(localStorage).filter((key) => key.startsWith('scaleside/1/fish/'));
    const text = localStorage.getItem(keys.sort().pop());
    for (let count = 0; count < arguments[0]; count++) {
        localStorage.setItem(`scaleside/1/fish/zz${String(count).padStart(5, '0')}/a`, text);
    }";

#[test]
fn a_damaged_record_of_any_kind_is_told_of_in_the_same_visit() {
    let bench = Bench::open(PHONE, Scheme::Light);
    bench.started();
    bench.go("#/classes");
    bench.fill("#class-name", "Tuesday");
    bench.tap("Start the class");
    bench.see("Add codes");
    bench.go("#/dishes");
    bench.tap("Write a dish");
    bench.fill("#dish-name", "Test plate");
    bench.go("#/settings");
    bench.tap("Sound");
    for (kind, told) in [
        ("class", "(class)"),
        ("recipe", "(dish)"),
        ("settings", "(setting)"),
    ] {
        bench.ledger_holds_all();
        assert_eq!(bench.run(DAMAGE, &[json!(kind)]), json!(1), "{kind}");
        bench.go("#/");
        bench.reload();
        bench.started();
        // No screen asks for it: the shelf is looked over.
        bench.see("could not be read. It was set aside whole, and nothing else was touched.");
        bench.see(told);
    }
    // The second home has it whole.
    bench.go("#/dishes");
    bench.see("Test plate");
    bench.go("#/kept");
    bench.see("Set aside: 3 stored copies");
    assert_eq!(bench.console_errors(), [""; 0]);
}

#[test]
fn what_was_not_kept_is_kept_with_the_next_tap_on_any_record() {
    let bench = Bench::open(PHONE, Scheme::Light);
    bench.started();
    bench.go("#/dishes");
    bench.tap("Write a dish");
    bench.fill_storage(0);
    bench.fill("#dish-name", "Test plate");
    bench.see("Not kept");
    bench.run("localStorage.removeItem('others')", &[]);
    bench.go("#/classes");
    bench.fill("#class-name", "Tuesday");
    bench.tap("Start the class");
    bench.see("Add codes");
    bench.not_see("Not kept");
    bench.go("#/dishes");
    bench.reload();
    bench.see("Test plate");
    assert_eq!(bench.console_errors(), [""; 0]);
}

#[test]
fn a_start_reads_the_fish_it_shows_and_the_hint_is_only_a_hint() {
    let bench = Bench::open(PHONE, Scheme::Light);
    bench.demo_weighed();
    bench.run(MORE, &[json!(300)]);
    bench.start_anyway();
    bench.all_steps();
    bench.on_step("Warm the plates", "Warming");
    bench.on_step("Heat the pan", "Shimmering");
    bench.on_step("Skin side down", "Begin");
    bench.go("#/");
    let hint = "return localStorage.getItem('scaleside/cooking')";
    let hinted = bench.run(hint, &[]);
    assert!(hinted.is_string(), "no hint: {hinted}");

    // Which fish are read; the look over the shelf, which begins later, never comes, and the second home never answers.
    let counted = "const get = Storage.prototype.getItem, later = window.setTimeout;
        window.asked = new Set();
        Storage.prototype.getItem = function (key) {
            if (key.startsWith('scaleside/1/fish/')) window.asked.add(key.split('/')[3]);
            return get.call(this, key);
        };
        if (!sessionStorage.getItem('idle')) {
            window.setTimeout = (work, ms, ...more) => ms === 400 ? 0 : later(work, ms, ...more);
            IDBFactory.prototype.open = () => new EventTarget();
        }";
    bench.command("Page.enable", json!({}));
    bench.before_each_load(counted);
    bench.reload();
    bench.started();
    bench.see("Show earlier fish");
    let asked = bench.run("return window.asked.size", &[]);
    println!("{asked} of 301 fish read at the start");
    assert_eq!(
        asked,
        json!(21),
        "twenty of the list, and the one that cooks"
    );
    let ticks = "return document.querySelector('[role=timer]').innerText !== ''";
    bench.until("its timer is not announced", ticks, &[]);
    bench.tap("Show earlier fish");
    bench.until("no more are read", "return window.asked.size === 41", &[]);

    // Without the hint it is found all the same, and the hint is written again.
    bench.run(
        "localStorage.removeItem('scaleside/cooking'); sessionStorage.setItem('idle', 'yes')",
        &[],
    );
    bench.reload();
    bench.started();
    bench.until("the fish that cooks is not found", ticks, &[]);
    assert_eq!(bench.run(hint, &[]), hinted);
    assert_eq!(bench.console_errors(), [""; 0]);
}

#[test]
fn a_line_taken_out_in_one_tab_costs_no_other_in_the_next() {
    let bench = Bench::open(PHONE, Scheme::Light);
    bench.started();
    bench.go("#/dishes");
    bench.tap("Open the demo dish");
    bench.see("Lines");
    let place = bench.run("return location.hash", &[]);
    let place = place.as_str().unwrap();
    let first = bench.this_tab();
    let second = bench.new_tab();
    // The second tab hears nothing of the first.
    bench.command("Page.enable", json!({}));
    bench.before_each_load(
        "addEventListener('storage', (event) => event.stopImmediatePropagation(), true);",
    );
    bench.reload();
    bench.go(&format!("{place}/line/3"));
    bench.see("Line 3");
    let named = "return document.querySelector('#line-name').value";
    let third = bench.run(named, &[]);

    bench.turn_to(&first);
    bench.go(&format!("{place}/line/1"));
    bench.tap("Take this line out");
    bench.tap("Take it out");
    bench.at(place);
    bench.go(&format!("{place}/line/2"));
    bench.see("Line 1");

    bench.turn_to(&second);
    bench.tap_css("#line-quantity");
    bench.run("document.querySelector('#line-quantity').select()", &[]);
    bench.type_keys("310");
    bench.see("Line 2");
    assert_eq!(bench.run(named, &[]), third);
    bench.turn_to(&first);
    bench.has("#line-quantity", "90");
    bench.go(&format!("{place}/line/3"));
    bench.has("#line-quantity", "310");
    // Taken out here, it can't be typed there any more.
    bench.tap("Take this line out");
    bench.tap("Take it out");
    bench.at(place);
    bench.turn_to(&second);
    bench.tap_css("#line-quantity");
    bench.type_keys("4");
    bench.see("This line was removed in another tab.");
    assert_eq!(bench.console_errors(), [""; 0]);
}
