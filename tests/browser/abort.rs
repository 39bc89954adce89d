//! The module has stopped: a plain page says so, and nothing of the app is left to tap.

use serde_json::json;

use crate::bench::{Bench, PHONE, Scheme};
use crate::cook::SNAPPER;
use crate::site::Site;

/// A WebAssembly module whose one function, `f`, does nothing but trap.
const TRAP: &str = "const { instance } = await WebAssembly.instantiate(new Uint8Array([
    0, 97, 115, 109, 1, 0, 0, 0, 1, 4, 1, 96, 0, 0, 3, 2, 1, 0, 7, 5, 1, 1, 102, 0, 0, 10, 5, 1, 3, 0, 0, 11]));";

#[track_caller]
fn stops_and_starts_again(bench: &Bench) {
    bench.see("Scaleside stopped");
    bench.see("Reload: your work is kept.");
    let left = "return [...document.body.children].filter((part) => part.checkVisibility()).map((part) => part.id)";
    assert_eq!(bench.run(left, &[]), json!(["aborted"]));
    assert_eq!(
        bench.run("return document.activeElement.textContent", &[]),
        json!("Reload")
    );
    assert_eq!(bench.small_targets(), [""; 0]);
    assert_eq!(bench.axe(), [""; 0]);
    bench.tap("Reload");
    bench.started();
    bench.not_see("Reload: your work is kept.");
}

#[test]
fn a_trap_shows_the_plain_page() {
    let traps = [
        ("in a tap", "setTimeout(() => instance.exports.f())"),
        (
            "in a promise",
            "Promise.resolve().then(() => instance.exports.f())",
        ),
        (
            "as the app itself says",
            "dispatchEvent(new CustomEvent('scaleside-aborted'))",
        ),
    ];
    for scheme in Scheme::BOTH {
        let bench = Bench::open(PHONE, scheme);
        for (how, trap) in traps {
            bench.started();
            bench.run(&format!("return (async () => {{ {TRAP} {trap}; }})()"), &[]);
            println!("a trap {how}");
            stops_and_starts_again(&bench);
        }
        bench.run(
            &format!("return (async () => {{ {TRAP} setTimeout(() => instance.exports.f()); }})()"),
            &[],
        );
        bench.see("Scaleside stopped");
        bench.shot("stopped");
    }
}

#[test]
fn what_was_typed_before_a_trap_is_still_there() {
    let bench = Bench::open(PHONE, Scheme::Light);
    bench.start_fish(&SNAPPER);
    bench.tap("Weigh it whole");
    bench.at_stage("weigh-whole");
    bench.key("235");
    bench.reads("235 g");
    bench.run(
        &format!("return (async () => {{ {TRAP} setTimeout(() => instance.exports.f()); }})()"),
        &[],
    );
    stops_and_starts_again(&bench);
    bench.reads("235 g");
    bench.key("0");
    bench.reads("2350 g");
    bench.tap("Back");
    bench.at_stage("delivery");
    bench.has("#price", SNAPPER.price);
    bench.has("#species", "snapper");
}

#[test]
fn another_error_does_not_stop_the_app() {
    let bench = Bench::open(PHONE, Scheme::Light);
    bench.started();
    bench.run(
        "setTimeout(() => { throw new TypeError('of no account'); })",
        &[],
    );
    bench.until(
        "no error was seen",
        "return new Promise((done) => setTimeout(() => done(true)))",
        &[],
    );
    bench.started();
    assert_eq!(bench.console_errors().len(), 1);
}

#[test]
fn a_module_that_does_not_arrive_shows_the_plain_page() {
    let site = Site::new();
    let module = site
        .files()
        .into_iter()
        .find(|path| path.starts_with("scaleside_bg-"))
        .unwrap();
    site.remove(&module);
    let bench = Bench::open_at(site, PHONE, Scheme::Light);
    bench.see("A file is missing.");
}

/// The screen of one record stops the app: it is called by its name, and set aside in one tap.
#[test]
fn a_record_whose_screen_stops_the_app_is_named_and_can_be_set_aside() {
    let bench = Bench::open(PHONE, Scheme::Light);
    bench.start_fish(&SNAPPER);
    bench.go("#/dishes");
    bench.tap("Write a dish");
    bench.fill("#dish-name", "Test plate");
    bench.go("#/classes");
    bench.fill("#class-name", "Tuesday");
    bench.tap("Start the class");
    bench.see("Add codes");
    for (list, name, noun) in [
        ("#/", "Snapper", "fish"),
        ("#/dishes", "Test plate", "dish"),
        ("#/classes", "Tuesday", "class"),
    ] {
        bench.go(list);
        bench.tap_in(".page main", name);
        bench.see(name);
        bench.run(
            &format!("return (async () => {{ {TRAP} setTimeout(() => instance.exports.f()); }})()"),
            &[],
        );
        bench.see(&format!("It stopped on “{name}”."));
        assert_eq!(bench.small_targets(), [""; 0]);
        assert_eq!(bench.axe(), [""; 0]);
        bench.shot(&format!("stopped-on-a-{noun}"));
        bench.tap(&format!("Set “{name}” aside"));
        bench.started();
        bench.at("#/");
        bench.see(&format!("The {noun} is in the bin"));
        bench.go(list);
        bench.started();
        bench.not_see(name);
        bench.go("#/bin");
        bench.see(name);
        bench.go("#/");
        bench.reload();
        bench.started();
    }
}
