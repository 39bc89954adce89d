//! What is heard: a stand-in for the phone's voice keeps what was said, and one for its sound counts the notes.

use serde_json::{Value, json};

use crate::bench::{Bench, PHONE, Scheme};
use crate::cook::SKIN;

/// A voice that lies on the phone, and one that does not, which must never be used.
const VOICE: &str = "window.said = [];
    window.SpeechSynthesisUtterance = class { constructor(text) { this.text = text; } };
    Object.defineProperty(window, 'speechSynthesis', { value: {
        getVoices: () => [{ lang: 'en-US', localService: false, name: 'far' }, { lang: 'en-GB', localService: true, name: 'near' }],
        speak: (words) => window.said.push(words.voice?.name === 'near' ? words.text : `far: ${words.text}`),
    } });";
/// A phone without any.
const NO_VOICE: &str = "Object.defineProperty(window, 'speechSynthesis', { value: undefined });
    delete window.SpeechSynthesisUtterance;";
/// A phone whose voices all lie elsewhere.
const FAR_VOICE: &str = "window.said = [];
    window.SpeechSynthesisUtterance = class { constructor(text) { this.text = text; } };
    Object.defineProperty(window, 'speechSynthesis', { value: {
        getVoices: () => [{ lang: 'en-US', localService: false, name: 'far' }],
        speak: (words) => window.said.push(words.text),
    } });";
const NOTES: &str = "window.notes = 0;
    const sound = AudioContext.prototype.createOscillator;
    AudioContext.prototype.createOscillator = function () { window.notes += 1; return sound.call(this); };";

impl Bench {
    /// Opens the app on a phone prepared by a script, steps and weights read aloud.
    fn hearing(script: &str) -> Self {
        let bench = Self::open(PHONE, Scheme::Light);
        bench.command("Page.enable", json!({}));
        bench.before_each_load(script);
        bench.before_each_load(NOTES);
        bench.reload();
        bench.started();
        bench.go("#/settings");
        bench.tap("Read aloud: steps, weights, result");
        bench.go("#/");
        bench
    }

    fn said(&self) -> Vec<String> {
        serde_json::from_value(self.run("return window.said", &[])).unwrap()
    }

    #[track_caller]
    fn hears(&self, words: &str) {
        self.until(
            format!("“{words}” was never said, but {:?}", self.said()),
            "return window.said.includes(arguments[0])",
            &[json!(words)],
        );
    }

    fn notes(&self) -> i64 {
        self.run("return window.notes", &[]).as_i64().unwrap()
    }

    /// Takes the demo to its fish in the pan.
    #[track_caller]
    pub fn skin_side_runs(&self) {
        self.demo_weighed();
        self.start_anyway();
        for word in ["Warming", "Shimmering", "Begin"] {
            self.due_tap(word);
        }
        self.until(
            "the fish never lay in the pan",
            "return document.querySelector('article.large.runs')?.getAttribute('aria-label') === arguments[0]",
            &[json!(SKIN)],
        );
    }

    #[track_caller]
    fn more_notes_than(&self, before: i64) {
        self.until(
            "it did not ring",
            "return window.notes > arguments[0]",
            &[json!(before)],
        );
    }
}

#[test]
fn a_weight_is_read_back_as_keyed_and_so_is_what_it_comes_to() {
    let bench = Bench::hearing(VOICE);
    bench.tap("Open the demo");
    bench.at_stage("weigh-whole");
    bench.hears("648 grams");
    for _ in 0..3 {
        bench.key("<");
    }
    // As fast as fingers are: a busy machine must not make it look like three weights.
    bench.run(
        "for (const figure of '651') {
            [...document.querySelectorAll('.keys button')].find((key) => key.innerText.trim() === figure).click();
        }",
        &[],
    );
    bench.hears("651 grams");
    let said = bench.said();
    assert!(
        !said.contains(&"6 grams".to_owned()),
        "half a weight was said: {said:?}"
    );
    bench.go("#/");
    bench.tap("Open the demo");
    bench.tap("Take this weight");
    bench.cut(1..=7, "weigh-off-bone");
    bench.hears("336 grams");
    bench.tap("Take this weight");
    bench.cut(8..=12, "weigh-ready");
    bench.hears("302 grams");
    bench.tap("Raw");
    bench.tap("Take this weight");
    bench.at_stage("yield");
    bench.hears("Yield 46.6 percent. 2 equal portions, 151 grams each, €4.99 a portion.");
    assert_eq!(bench.console_errors(), [""; 0]);
}

#[test]
fn a_step_is_said_at_its_start_a_minute_and_ten_seconds_before_its_end_and_at_it() {
    let bench = Bench::hearing(VOICE);
    bench.skin_side_runs();
    let begun = "Skin side down. Salt the fillets, lay them skin side down on the paper and press them flat with the slice.";
    bench.hears(begun);
    bench.clock_ahead(215);
    bench.hears("Skin side down: one minute.");
    bench.clock_ahead(261);
    bench.hears("Skin side down: ten seconds.");
    bench.clock_ahead(280);
    bench.hears("Turn the fish now, and take the heat off.");
    let of_skin = |words: &String| words.starts_with(SKIN) || words.starts_with("Turn the fish");
    let said: Vec<String> = bench.said().into_iter().filter(of_skin).collect();
    let once = [
        begun,
        "Skin side down: one minute.",
        "Skin side down: ten seconds.",
        "Turn the fish now, and take the heat off.",
    ];
    assert_eq!(said, once);
    assert!(bench.said().iter().all(|words| !words.starts_with("far: ")));
    assert_eq!(bench.console_errors(), [""; 0]);
}

/// It rings again and again, and is quiet from the first touch on.
#[test]
fn what_rings_does_so_until_the_phone_is_touched() {
    let bench = Bench::hearing(VOICE);
    bench.skin_side_runs();
    let before = bench.notes();
    bench.clock_ahead(300);
    bench.see("turn it now, heat off");
    bench.more_notes_than(before);
    for again in 1..=3 {
        let before = bench.notes();
        bench.clock_ahead(300 + again * 30);
        bench.more_notes_than(before);
    }
    bench.touch_at(180.0, 300.0);
    bench.run(
        "return new Promise((done) => setTimeout(done, 600)).then(() => 0)",
        &[],
    );
    let touched = bench.notes();
    bench.clock_ahead(600);
    bench.until(
        "the clock stands still",
        "return document.querySelector('article.large .left').textContent.startsWith('+5:')",
        &[],
    );
    bench.run(
        "return new Promise((done) => setTimeout(done, 600)).then(() => 0)",
        &[],
    );
    assert_eq!(bench.notes(), touched, "it rang after it was touched");
    assert_eq!(bench.console_errors(), [""; 0]);
}

#[test]
fn where_there_is_no_voice_of_the_phone_nothing_is_said_and_nothing_breaks() {
    for script in [NO_VOICE, FAR_VOICE] {
        let bench = Bench::hearing(script);
        bench.skin_side_runs();
        bench.clock_ahead(300);
        bench.see("turn it now, heat off");
        bench.due_tap("Turned, heat off");
        let said = bench.run("return window.said ?? []", &[]);
        assert_eq!(said, json!([]));
        assert_eq!(bench.console_errors(), [""; 0]);
    }
}

/// One timer on every other screen, and one tap back to it.
#[test]
fn the_timers_that_run_stand_on_every_other_screen_and_lead_back_in_one_tap() {
    let bench = Bench::open(PHONE, Scheme::Light);
    bench.started();
    bench.skin_side_runs();
    let fish = bench.fish_place();
    let own = [
        "",
        "/delivery",
        "/weigh-whole",
        "/fillet/3",
        "/weigh-ready",
        "/yield",
        "/prepare",
        "/heat",
        "/plan",
        "/pass",
        "/journal",
        "/code",
        "/card",
    ];
    let others = [
        "#/",
        "#/dishes",
        "#/compare",
        "#/classes",
        "#/settings",
        "#/kept",
        "#/bin",
        "#/about",
    ];
    let places = own.map(|stage| format!("{fish}{stage}"));
    for place in places.into_iter().chain(others.map(str::to_owned)) {
        bench.go(&place);
        bench.until(
            format!("{place}: no timer to tap"),
            "const strip = document.querySelector('.running a');
            if (!strip || !/\\d:\\d\\d/.test(strip.innerText)) return false;
            const { left, right, top, bottom } = strip.getBoundingClientRect();
            const on = document.elementFromPoint((left + right) / 2, (top + bottom) / 2);
            return bottom - top >= 48 && strip.contains(on)",
            &[],
        );
        let at: Value = bench.run(
            "const { left, right, top, bottom } = document.querySelector('.running a').getBoundingClientRect();
            return [(left + right) / 2, (top + bottom) / 2]",
            &[],
        );
        bench.touch_at(at[0].as_f64().unwrap(), at[1].as_f64().unwrap());
        bench.at_stage("service");
        bench.until(
            format!("{place}: the strip stands on the service as well"),
            "return !document.querySelector('.running')",
            &[],
        );
    }
    assert_eq!(bench.console_errors(), [""; 0]);
}
