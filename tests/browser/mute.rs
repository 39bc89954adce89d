//! An alarm that nobody hears: it is shown on every screen, with how long ago it was, also on a phone that is opened again;
//! and what keeps it from being heard is said.

use serde_json::json;

use crate::bench::{Bench, PHONE, Scheme};

const SUSPENDED: &str =
    "Object.defineProperty(BaseAudioContext.prototype, 'state', { get: () => 'suspended' })";
const NO_SOUND: &str = "delete window.AudioContext; delete window.webkitAudioContext";

const UNTOUCHED: &str = "Touch the screen once, so that the alarms can be heard.";
const HELD_BACK: &str = "The phone keeps its sound back";
const REFUSED: &str = "This browser makes no sound: alarms are only shown.";

impl Bench {
    #[track_caller]
    fn strip_says(&self, words: &str) {
        self.until(
            format!("the strip never said {words:?}"),
            "return Boolean(document.querySelector('.running')?.innerText.includes(arguments[0]))",
            &[json!(words)],
        );
    }
}

#[test]
fn an_end_is_told_with_its_age_on_every_screen_and_after_reopening() {
    let bench = Bench::open(PHONE, Scheme::Light);
    bench.started();
    bench.skin_side_runs();
    bench.clock_ahead(275);
    bench.go("#/settings");
    bench.strip_says("time is up");
    // A phone that lay locked for two minutes, and one whose page was gone for three more.
    bench.clock_ahead(275 + 125);
    bench.strip_says("ended 2:");
    bench.clock_ahead(275 + 300);
    bench.reload();
    bench.started();
    for place in ["#/", "#/settings", "#/dishes", "#/kept", "#/bin"] {
        bench.go(place);
        bench.strip_says("ended 5:");
        bench.strip_says(UNTOUCHED);
    }
    bench.shot("ended-a-while-ago");
    assert_eq!(bench.axe(), [""; 0]);
    bench.touch_at(180.0, 500.0);
    bench.until(
        "it still asks to be touched",
        "return !document.querySelector('.running').innerText.includes('Touch the screen')",
        &[],
    );
    bench.strip_says("ended 5:");
    assert_eq!(bench.console_errors(), [""; 0]);
}

#[test]
fn what_keeps_an_alarm_from_being_heard_is_said() {
    for (script, off, said) in [
        (
            "",
            &["Sound"][..],
            "Sound is off: alarms are shown and felt, not heard.",
        ),
        (
            "",
            &["Sound", "Vibration"][..],
            "Sound and vibration are off: alarms are only shown.",
        ),
        (SUSPENDED, &[][..], HELD_BACK),
        (NO_SOUND, &[][..], REFUSED),
    ] {
        let bench = Bench::open(PHONE, Scheme::Light);
        bench.command("Page.enable", json!({}));
        bench.before_each_load(script);
        bench.reload();
        bench.started();
        bench.go("#/settings");
        for choice in off {
            bench.tap(choice);
        }
        bench.go("#/");
        bench.skin_side_runs();
        bench.touch_at(180.0, 300.0);
        bench.see(said);
        bench.shot(&format!(
            "mute-{}",
            said.split(' ')
                .take(4)
                .collect::<Vec<_>>()
                .join("-")
                .replace(':', "")
        ));
        let scrolls = "return document.scrollingElement.scrollHeight > innerHeight + 1";
        assert_eq!(
            bench.run(scrolls, &[]),
            json!(false),
            "the service scrolls for it"
        );
        bench.all_steps();
        bench.see(said);
        bench.go("#/");
        bench.clock_ahead(400);
        bench.strip_says(said);
        assert_eq!(bench.console_errors(), [""; 0]);
    }
}
