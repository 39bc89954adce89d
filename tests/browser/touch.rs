//! A finger on the glass: taps that go where they are aimed, counted, with every scroll that was needed before them.

use serde::Deserialize;
use serde_json::{Value, json};

use crate::bench::Bench;

/// What a finger did.
#[derive(Default)]
pub struct Finger {
    pub taps: usize,
    /// Letters and figures on the phone's own keys.
    pub keys: usize,
    pub scrolls: Vec<String>,
    pub screens: Vec<String>,
}

#[derive(Deserialize)]
struct Place {
    x: f64,
    y: f64,
    /// It lies whole above the dock and below the head.
    in_sight: bool,
}

/// Where something is hit: by a selector, or by the words of a control.
const FIND: &str = "const [css, name] = arguments;
    const words = (found) => (found.getAttribute('aria-label') ?? found.innerText ?? '').replace(/\\s+/g, ' ').trim();
    const found = css
        ? [...document.querySelectorAll(css)].find((one) => one.checkVisibility())
        : [...document.querySelectorAll('button, a, label, summary')].filter((one) => one.checkVisibility() && !one.disabled)
            .sort((one, other) => words(one).length - words(other).length).find((one) => words(one).includes(name));
    if (!found || found.disabled) return null;
    const box = found.getBoundingClientRect();
    const [x, y] = [(box.left + box.right) / 2, (box.top + box.bottom) / 2];
    const dock = document.querySelector('.dock').getBoundingClientRect().top;
    const foot = found.closest('.dock') ? innerHeight : dock;
    return { x, y, in_sight: box.top >= 0 && box.bottom <= foot + 0.5 };";

impl Bench {
    fn glass(&self, kind: &str, points: Value) {
        self.command(
            "Input.dispatchTouchEvent",
            json!({ "type": kind, "touchPoints": points }),
        );
    }

    /// Puts a finger down and lifts it, wherever that is.
    pub fn touch_at(&self, x: f64, y: f64) {
        self.glass("touchStart", json!([{ "x": x, "y": y }]));
        self.glass("touchEnd", json!([]));
    }

    #[track_caller]
    fn place_of(&self, css: &str, name: &str) -> Place {
        let given = [json!(css), json!(name)];
        self.until(
            format!("there is no {css}{name} to touch"),
            &format!("return (function () {{ {FIND} }}).apply(null, arguments) !== null"),
            &given,
        );
        serde_json::from_value(self.run(FIND, &given)).unwrap()
    }

    /// Taps something with a finger: dragged into sight first where it is not, and that is counted.
    #[track_caller]
    pub fn touch(&self, finger: &mut Finger, css: &str, name: &str) {
        let screen = self.run(
            "return location.hash.split('/').slice(3).join('/') || location.hash",
            &[],
        );
        let screen = screen.as_str().unwrap().to_owned();
        if finger.screens.last() != Some(&screen) {
            finger.screens.push(screen.clone());
        }
        let mut place = self.place_of(css, name);
        for _ in 0..8 {
            if place.in_sight {
                break;
            }
            finger.scrolls.push(format!("{screen}: {css}{name}"));
            let middle = self.run("return [innerWidth / 2, innerHeight / 2]", &[]);
            let (x, y) = (middle[0].as_f64().unwrap(), middle[1].as_f64().unwrap());
            // The finger drags the page the way that what is wanted comes.
            let by = (y - place.y).clamp(-y * 0.7, y * 0.7);
            let from = y - by / 2.0;
            self.glass("touchStart", json!([{ "x": x, "y": from }]));
            for part in 1..=8 {
                let at = from + by * f64::from(part) / 8.0;
                self.glass("touchMove", json!([{ "x": x, "y": at }]));
            }
            self.glass("touchEnd", json!([]));
            // What is still gliding is not aimed at.
            self.run(
                "return (async () => {
                    for (let still = 0, at = scrollY; still < 5; still = scrollY === at ? still + 1 : 0, at = scrollY)
                        await new Promise((done) => setTimeout(done, 60));
                })().then(() => 0)",
                &[],
            );
            place = self.place_of(css, name);
        }
        assert!(
            place.in_sight,
            "{screen}: {css}{name} never came into sight"
        );
        finger.taps += 1;
        self.touch_at(place.x, place.y);
    }

    /// Taps a field and types into it on the phone's own keys.
    #[track_caller]
    pub fn touch_and_type(&self, finger: &mut Finger, field: &str, text: &str) {
        self.touch(finger, field, "");
        self.until(
            format!("{field} has not the cursor"),
            "return document.activeElement === document.querySelector(arguments[0])",
            &[json!(field)],
        );
        finger.keys += text.chars().count();
        self.run("document.activeElement.select()", &[]);
        self.type_keys(text);
        self.has(field, text);
    }

    /// Chooses from a list: one tap opens it, one takes the line.
    #[track_caller]
    pub fn touch_list(&self, finger: &mut Finger, list: &str, value: &str) {
        // What the phone draws over the page can't be touched from here: the second tap is counted, not made.
        let place = self.place_of(list, "");
        assert!(place.in_sight, "{list} is out of sight");
        finger.taps += 2;
        self.pick(list, value);
    }
}
