//! The browser is asked once to keep what is here, when there is a first weight of the cook's own.

use serde_json::json;

use crate::bench::{Bench, PHONE, Scheme};
use crate::cook::SNAPPER;

/// Counts how often the browser is asked, in this tab.
const COUNTED: &str = "StorageManager.prototype.persist = () => {
    sessionStorage.setItem('asked', 1 + Number(sessionStorage.getItem('asked') ?? 0));
    return HOW;
}";

#[test]
fn the_browser_is_asked_once_to_keep_the_first_weight() {
    for how in [
        "Promise.resolve(true)",
        "Promise.resolve(false)",
        "Promise.reject(new TypeError('no'))",
    ] {
        println!("{how}");
        let bench = Bench::open(PHONE, Scheme::Light);
        bench.command("Page.enable", json!({}));
        bench.before_each_load(&COUNTED.replace("HOW", how));
        bench.reload();
        bench.demo_weighed();
        bench.go("#/");
        for fish in 0..2 {
            bench.start_fish(&SNAPPER);
            let place = bench.fish_place() + "/weigh-whole";
            bench.ledger_holds_all();
            let asked = "return Number(sessionStorage.getItem('asked') ?? 0) === arguments[0]";
            bench.until(
                "asked before there is a weight",
                asked,
                &[json!(fish.min(1))],
            );
            bench.go(&place);
            bench.key("1200");
            bench.tap("Take this weight");
            bench.at_stage("fillet/1");
            bench.ledger_holds_all();
            bench.until("not asked once", asked, &[json!(1)]);
            bench.reload();
            bench.started();
            bench.go("#/");
        }
        assert_eq!(bench.console_errors(), [""; 0]);
    }
}

#[test]
fn a_browser_that_can_t_be_asked_keeps_everything_as_before() {
    let bench = Bench::open(PHONE, Scheme::Light);
    bench.command("Page.enable", json!({}));
    bench.before_each_load(
        "Object.defineProperty(Navigator.prototype, 'storage', { value: undefined })",
    );
    bench.reload();
    bench.start_fish(&SNAPPER);
    bench.go(&(bench.fish_place() + "/weigh-whole"));
    bench.key("1200");
    bench.tap("Take this weight");
    bench.at_stage("fillet/1");
    bench.ledger_holds_all();
    bench.reload();
    bench.at_stage("fillet/1");
    assert_eq!(bench.console_errors(), [""; 0]);
}
