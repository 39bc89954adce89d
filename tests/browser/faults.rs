//! The bench's own checks, on a page whose faults are known: each must be found, and nothing else.

use serde_json::json;
use thirtyfour::Key;

use crate::bench::{Bench, PHONE, Scheme};
use crate::site::Site;

fn faulty() -> Bench {
    let site = Site::new();
    site.edit("index.html", |_| {
        include_str!("scripts/faults.html").to_owned()
    });
    Bench::open_at(site, PHONE, Scheme::Light)
}

#[test]
fn each_fault_is_found() {
    let bench = faulty();
    let broken: Vec<String> = bench
        .axe()
        .iter()
        .filter_map(|line| Some(line.split_once(':')?.0.to_owned()))
        .collect();
    assert_eq!(broken, ["color-contrast", "image-alt"]);
    let small = bench.small_targets();
    assert_eq!(small.len(), 1, "{small:?}");
    assert!(
        small[0].contains("id=\"small\"") && small[0].ends_with("47.0 by 48.0"),
        "{small:?}"
    );
    let errors = bench.console_errors();
    assert_eq!(errors.len(), 1, "{errors:?}");
    assert!(errors[0].contains("missing.png"), "{errors:?}");
}

#[test]
fn what_is_tapped_typed_and_seen_is_meant() {
    let bench = faulty();
    bench.see("Too pale to read");
    bench.not_see("Never shown");
    bench.tap("Next step");
    bench.at("#/next");
    bench.tap("another fish");
    bench.at("#/next-fish");
    bench.back();
    bench.at("#/next");
    bench.tap_css("#note");
    bench.type_keys("bream");
    bench.type_keys(Key::Backspace);
    assert_eq!(
        bench.run("return document.getElementById('note').value", &[]),
        json!("brea")
    );
    let screen = "return [innerWidth, innerHeight, navigator.maxTouchPoints > 0]";
    assert_eq!(bench.run(screen, &[]), json!([PHONE.0, PHONE.1, true]));
}

#[test]
fn light_and_dark_are_shown_as_asked() {
    for (scheme, dark) in [(Scheme::Light, false), (Scheme::Dark, true)] {
        let bench = Bench::open(PHONE, scheme);
        let asked = "return matchMedia('(prefers-color-scheme: dark)').matches";
        assert_eq!(bench.run(asked, &[]), json!(dark));
        bench.new_tab();
        assert_eq!(bench.run(asked, &[]), json!(dark));
    }
}
