//! The whole job of a fish of one's own by touch alone: its taps, its screens and every scroll that was forced.

use crate::bench::{Bench, PHONE, Scheme};
use crate::touch::Finger;

/// So many taps at most, the phone's own keys not counted.
const MOST_TAPS: usize = 40;
/// So many screens at most.
const MOST_SCREENS: usize = 14;
/// A weight is put right and the cook is back with all worked out again in so many taps, its figures counted apart.
const MOST_TO_MEND: usize = 5;

impl Bench {
    #[track_caller]
    fn touch_keys(&self, finger: &mut Finger, keys: &str) {
        for key in keys.chars() {
            let name = match key {
                '.' => "decimal point".to_owned(),
                figure => figure.to_string(),
            };
            let css = ".keys button";
            let nth = format!("{css}[aria-label=\"{name}\"]");
            if key.is_ascii_digit() {
                // A figure is called as it is drawn.
                let at = "123<456+789C.0".find(key).unwrap() + 1;
                self.touch(finger, &format!("{css}:nth-child({at})"), "");
            } else {
                self.touch(finger, &nth, "");
            }
        }
    }

    /// From the first tap to the yield.
    #[track_caller]
    fn weighed_by_touch(&self, finger: &mut Finger) {
        self.touch(finger, "", "Start a fish");
        self.at_stage("delivery");
        self.touch_list(finger, "#species", "gilthead_bream");
        self.touch(finger, "label:has(input[name=form]):nth-of-type(3)", "");
        self.touch_and_type(finger, "#price", "15.40");
        self.touch(finger, ".dock .next", "");
        self.at_stage("weigh-whole");
        self.touch_keys(finger, "648");
        self.touch(finger, ".dock .next", "");
        self.at_stage("fillet/1");
        self.touch(finger, "", "To the scale");
        self.at_stage("weigh-off-bone");
        self.touch_keys(finger, "336");
        self.touch(finger, ".dock .next", "");
        self.touch(finger, "", "To the scale");
        self.at_stage("weigh-ready");
        self.touch(finger, "label:has(input[name=raw]):nth-of-type(1)", "");
        self.touch_keys(finger, "302");
        self.touch(finger, ".dock .next", "");
        self.at_stage("yield");
    }
}

#[test]
fn the_whole_job_is_done_by_touch_in_few_taps_and_screens() {
    let bench = Bench::open(PHONE, Scheme::Light);
    bench.started();
    bench.command(
        "Emulation.setTouchEmulationEnabled",
        serde_json::json!({ "enabled": true }),
    );
    let mut finger = Finger::default();
    bench.weighed_by_touch(&mut finger);
    bench.see("46.6 %");
    let to_yield = (finger.taps, finger.screens.len());

    // A weight put right, and straight back.
    let mut mending = Finger::default();
    bench.touch(&mut mending, ".head .job", "");
    bench.at_stage("");
    bench.touch(&mut mending, "", "Weigh ready to cook");
    bench.at_stage("put-right/ready");
    let mut figures = Finger::default();
    bench.touch(
        &mut figures,
        "[aria-label=\"take the last figure back\"]",
        "",
    );
    bench.touch_keys(&mut figures, "4");
    bench.touch(&mut mending, ".dock .next", "");
    bench.at_stage("");
    bench.see("304 g");
    bench.touch(&mut mending, ".dock .back", "");
    let mend = mending.taps;
    bench.at_stage("yield");
    bench.see("46.9 %");
    bench.touch(&mut finger, "", "Chill and prepare");
    bench.at_stage("prepare");
    bench.touch(&mut finger, "", "Start the service");
    bench.touch(&mut finger, "", "Finger's width: 19 mm");
    bench.see("turned: for this fillet");
    bench.touch(&mut finger, "", "Start anyway");
    bench.at_stage("service");
    let mut gone = 0;
    for _ in 0..120 {
        bench.until(
            "the dock never rested",
            "return !document.querySelector('.dock .due')?.disabled && !document.querySelector('.clockline').innerText.includes('…')",
            &[],
        );
        let offer = "const dock = document.querySelector('nav.dock');
            return dock.querySelector('.due') ? 'due' : dock.innerText.includes('Check the plate') ? 'done' : 'nothing'";
        match bench.run(offer, &[]).as_str().unwrap() {
            "due" => bench.touch(&mut finger, ".dock .due", ""),
            "done" => break,
            _ => {
                gone += 20;
                bench.clock_ahead(gone);
                bench.run(
                    "return new Promise((done) => setTimeout(done, 400)).then(() => 0)",
                    &[],
                );
            }
        }
    }
    bench.touch(&mut finger, "", "Check the plate");
    bench.at_stage("pass");
    bench.touch(&mut finger, "", "All yes");
    bench.not_see("All yes");
    bench.touch(&mut finger, ".dock .next", "");
    bench.at_stage("");
    bench.see("finished");
    let (taps, screens) = (finger.taps, finger.screens.len());
    println!(
        "by touch: {} taps, {} screens to the yield; {taps} taps, {screens} screens to the end (at most 40 and 14), {} keys of the phone, a weight put right in {mend} and {} figures; screens: {}; scrolls forced: {:?}",
        to_yield.0,
        to_yield.1,
        finger.keys,
        figures.taps,
        finger.screens.join(", "),
        finger.scrolls
    );
    assert!(taps <= MOST_TAPS, "{taps} taps");
    assert!(screens <= MOST_SCREENS, "{screens} screens");
    assert_eq!(finger.scrolls, [""; 0], "forced");
    assert!(mend <= MOST_TO_MEND, "{mend} taps to put a weight right");
    assert_eq!(bench.console_errors(), [""; 0]);
}
