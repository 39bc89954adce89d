//! Three tabs on one fish that are tapped in the same instant, each in a process of its own.

use serde_json::{Value, json};
use thirtyfour::WindowHandle;

use crate::bench::{Bench, PHONE, Scheme};
use crate::cook::SNAPPER;

/// What the readout of the scale shows, figures only.
const SHOWN: &str = "return document.querySelector('.readout').innerText.replace(/\\D/g, '')";

impl Bench {
    #[track_caller]
    fn stored_builds(&self) -> Value {
        self.run("return localStorage.getItem('scaleside/build')", &[])
    }

    /// Taps a key of the scale in every tab at the same moment: each waits for it without letting go.
    #[track_caller]
    fn tap_at_once(&self, tabs: &[(WindowHandle, char)]) {
        let at = self.run("return Date.now() + 1500", &[]);
        for (tab, key) in tabs {
            self.turn_to(tab);
            let wait = "const [at, name] = arguments;
                const key = [...document.querySelectorAll('.keys button')].find((key) => key.innerText.trim() === name);
                setTimeout(() => { while (Date.now() < at); key.click(); });
                return Boolean(key)";
            assert_eq!(
                self.run(wait, &[at.clone(), json!(key.to_string())]),
                json!(true)
            );
        }
        self.until(
            "the moment never came",
            "return Date.now() > arguments[0] + 50",
            &[at],
        );
    }

    /// Waits until every tab shows the same figures, each of those tapped once.
    #[track_caller]
    fn all_show(&self, tabs: &[WindowHandle], tapped: &str) {
        let mut first = None;
        for tab in tabs {
            self.turn_to(tab);
            let sorted = "return [...(function () { SHOWN })()].sort().join('') === arguments[0]"
                .replace("SHOWN", SHOWN);
            self.until(
                format!("never showed {tapped} in some order"),
                &sorted,
                &[json!(tapped)],
            );
            let shown = self.run(SHOWN, &[]);
            assert_eq!(*first.get_or_insert(shown.clone()), shown);
            self.reload();
            self.until("the reload lost a figure", &sorted, &[json!(tapped)]);
        }
    }
}

#[test]
fn three_taps_in_the_same_instant_are_three_taps() {
    let bench = Bench::open(PHONE, Scheme::Light);
    bench.start_fish(&SNAPPER);
    let place = bench.fish_place() + "/weigh-whole";
    bench.go(&place);
    let mut tabs = vec![bench.this_tab()];
    for _ in 0..2 {
        tabs.push(bench.new_tab());
        bench.go(&place);
        bench.see("Weigh");
    }
    for (round, keys) in ["123", "456"].into_iter().enumerate() {
        let taps: Vec<(WindowHandle, char)> = tabs.iter().cloned().zip(keys.chars()).collect();
        bench.tap_at_once(&taps);
        bench.all_show(&tabs, ["123", "123456"][round]);
    }
    assert_eq!(bench.console_errors(), [""; 0]);
}

#[test]
fn an_older_build_among_them_stops_and_the_others_lose_nothing() {
    let bench = Bench::open(PHONE, Scheme::Light);
    bench.start_fish(&SNAPPER);
    let place = bench.fish_place() + "/weigh-whole";
    bench.go(&place);
    let mut tabs = vec![bench.this_tab()];
    tabs.push(bench.new_tab());
    bench.go(&place);
    bench.see("Weigh");
    let build = bench.stored_builds();
    // The third reads the mark of a build newer than itself wherever it looks, as an older build would.
    let old = bench.new_tab();
    bench.command("Page.enable", json!({}));
    bench.before_each_load(
        "const get = Storage.prototype.getItem;
        Storage.prototype.getItem = function (key) {
            return key === 'scaleside/build' ? '99999999999' : get.call(this, key);
        };",
    );
    bench.reload();
    bench.go(&place);
    bench.see("so this one has stopped saving");
    let all = [tabs[0].clone(), tabs[1].clone(), old.clone()];
    bench.tap_at_once(&all.into_iter().zip("789".chars()).collect::<Vec<_>>());
    bench.all_show(&tabs, "78");
    bench.turn_to(&old);
    bench.see("so this one has stopped saving");
    assert_eq!(bench.stored_builds(), json!("99999999999"));
    bench.turn_to(&tabs[0]);
    assert_eq!(bench.stored_builds(), build);
}
