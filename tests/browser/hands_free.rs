//! A cook with wet hands: two taps of a knuckle beside the buttons do what is due, and never two things at once.

use serde_json::json;

use crate::bench::{Bench, PHONE, Scheme};

/// The middle of the large timer, which is no control.
const LARGE: &str = "const { left, right, top, bottom } = document.querySelector('.digits').getBoundingClientRect();
    return [(left + right) / 2, (top + bottom) / 2]";

/// How many steps have begun, and how many are done.
const STEPS: &str = "const key = Object.keys(localStorage).filter((key) => key.includes('/fish/'));
    const runs = key.map((key) => localStorage.getItem(key).match(/\"run\":\\{.*/)?.[0] ?? '');
    const most = (of) => Math.max(...runs.map((run) => (run.match(of) ?? []).length));
    return [most(/\"began\":/g), most(/\"done\":\\d/g)]";

impl Bench {
    fn knock(&self, times: usize) {
        let at = self.run(LARGE, &[]);
        for _ in 0..times {
            self.touch_at(at[0].as_f64().unwrap(), at[1].as_f64().unwrap());
        }
    }

    #[track_caller]
    fn due_is(&self, words: &str) {
        self.until(
            format!("“{words}” is not due"),
            "const due = document.querySelector('.dock .due');
            return due && !due.disabled && due.innerText.includes(arguments[0])",
            &[json!(words)],
        );
    }
}

#[test]
fn two_taps_beside_the_buttons_do_what_is_due_and_nothing_begins_and_ends_at_once() {
    let bench = Bench::open(PHONE, Scheme::Light);
    bench.started();
    bench.demo_weighed();
    bench.start_anyway();
    bench.due_is("Warming");
    // One tap, as by a sleeve, does nothing.
    bench.knock(1);
    bench.run(
        "return new Promise((done) => setTimeout(done, 700)).then(() => 0)",
        &[],
    );
    bench.due_is("Warming");
    bench.knock(2);
    bench.due_is("Shimmering");
    bench.knock(2);
    bench.due_is("Begin");
    // A thumb that drums begins one thing and ends none.
    let before = bench.run(STEPS, &[]);
    bench.knock(6);
    bench.until(
        "the fish never went in",
        "return document.querySelector('article.large.runs')?.getAttribute('aria-label') === 'Skin side down'",
        &[],
    );
    let after = bench.run(STEPS, &[]);
    let more = |at: usize| after[at].as_i64().unwrap() - before[at].as_i64().unwrap();
    assert_eq!((more(0), more(1)), (1, 0), "{before} {after}");
    // While only timers run there is nothing to do.
    bench.run(
        "return new Promise((done) => setTimeout(done, 900)).then(() => 0)",
        &[],
    );
    bench.knock(2);
    assert_eq!(bench.run(STEPS, &[]), after);
    // It has rung: the fish is turned without aiming, and it can be taken back.
    bench.clock_ahead(400);
    bench.due_is("Turned, heat off");
    bench.knock(2);
    bench.until(
        "the fish was not turned",
        "return document.querySelector('article.large')?.getAttribute('aria-label').startsWith('Finish in')",
        &[],
    );
    bench.tap("Undo");
    bench.due_is("Turned, heat off");
    // Two taps on a button are that button's.
    bench.tap("How, why");
    bench.see("With wet hands: tap twice");
    assert_eq!(bench.console_errors(), [""; 0]);
}
