//! A tab that is killed while it saves, at random moments: what was on the shelf stays whole.

use std::time::Duration;

use proptest::prelude::Rng;
use proptest::test_runner::{RngAlgorithm, TestRng};
use serde_json::json;

use crate::bench::{Bench, PHONE, Scheme};
use crate::cook::SNAPPER;

/// So many in every run, and in the full form: `cargo test --test browser -- --ignored killed::`.
const FEW: u32 = 30;
const MANY: u32 = 100;

/// Types a longer and longer count into the journal, as fast as the page takes it; after each, once the app has
/// answered, notes beside it how far it came.
const TYPES: &str = "let count = Number(arguments[0]);
    const field = document.querySelector('#went-well');
    const turn = () => {
        for (let taps = 0; taps < 5; taps++) {
            count++;
            field.value = `${count} `.repeat(30);
            field.dispatchEvent(new Event('input', { bubbles: true }));
            localStorage.setItem('counted', count);
        }
        setTimeout(turn);
    };
    setTimeout(turn);
    return true";

/// The count in the newest copy of the fish; nothing when there is no whole one.
const KEPT: &str = "const copies = Object.entries(localStorage)
        .filter(([key]) => key.startsWith('scaleside/1/fish/'))
        .map(([, text]) => { try { return JSON.parse(text); } catch { return null; } });
    const whole = copies.filter(Boolean).sort((one, other) => other.counter - one.counter);
    const said = whole[0]?.body.went_well.trim().split(' ') ?? [];
    return [copies.length, new Set(said).size, Number(said[0] ?? 0), Number(localStorage.getItem('counted') ?? 0),
        Object.keys(localStorage).filter((key) => key.startsWith('scaleside/aside/')).length]";

impl Bench {
    /// Kills the process of this tab, as a phone does that is short of memory, and closes what is left of it.
    fn crash(&self) {
        // No answer comes from a tab that is gone.
        let _ = self.runtime().block_on(async {
            let tools = self.browser().cdp();
            let crash = tools.send_raw("Page.crash", json!({}));
            tokio::time::timeout(Duration::from_secs(2), crash).await
        });
        let _ = self.runtime().block_on(self.browser().close_window());
    }
}

#[test]
fn a_tab_killed_while_it_saves_loses_nothing_that_was_on_the_shelf() {
    killed_at(FEW);
}

#[test]
#[ignore = "takes minutes"]
fn a_hundred_tabs_killed_while_they_save_lose_nothing() {
    killed_at(MANY);
}

fn killed_at(moments: u32) {
    let bench = Bench::open(PHONE, Scheme::Light);
    bench.start_fish(&SNAPPER);
    let place = bench.fish_place() + "/journal";
    bench.go("#/");
    let watcher = bench.this_tab();
    let mut chance = TestRng::from_seed(RngAlgorithm::ChaCha, &[7; 32]);
    let (mut last, mut furthest, mut torn) = (0, 0, 0);
    for moment in 0..moments {
        bench.new_tab();
        bench.go(&place);
        bench.see("What went well?");
        bench.run(TYPES, &[json!(last)]);
        std::thread::sleep(Duration::from_micros(u64::from(chance.next_u32() % 60_000)));
        bench.crash();
        bench.turn_to(&watcher);
        // The next start finds it; the watcher, a process of its own, has heard of every write.
        let settled = "return new Promise((done) => setTimeout(() => done(true), 20))";
        bench.run(settled, &[]);
        let found: [u64; 5] = serde_json::from_value(bench.run(KEPT, &[])).unwrap();
        let [copies, words, kept, counted, aside] = found;
        assert!((1..=2).contains(&copies), "moment {moment}: {found:?}");
        assert!(words <= 1, "half a note, moment {moment}: {found:?}");
        assert!(
            kept >= counted && kept <= counted + 1,
            "moment {moment}: {found:?}"
        );
        assert_eq!(aside, 0, "moment {moment}: {found:?}");
        assert!(kept >= last, "moment {moment}: {found:?}, before {last}");
        torn += u64::from(kept > counted);
        furthest += u64::from(kept > last);
        last = kept;
    }
    println!("{last} saves, {moments} kills, {torn} of them between a save and the note of it");
    assert!(
        furthest > u64::from(moments / 2),
        "only {furthest} of the tabs had saved anything"
    );
    bench.reload();
    bench.started();
    bench.not_see("set aside");
    bench.go(&place);
    bench.has("#went-well", &format!("{last} ").repeat(30));
}
