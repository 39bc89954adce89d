//! Three services walked through by the dock alone, as a cook does it: at each state, at each size, the due tap is in sight
//! and hit, every running timer is in sight, nothing scrolls.

use serde::Deserialize;
use serde_json::json;

use crate::bench::{Bench, PHONE, Scheme, Size};

/// Phones upright and lying in a stand, a tablet, a laptop.
const SIZES: [Size; 10] = [
    Size(320, 568),
    Size(360, 640),
    PHONE,
    Size(375, 667),
    Size(393, 852),
    Size(412, 915),
    Size(430, 932),
    Size(740, 360),
    TABLET,
    LAPTOP,
];
const TABLET: Size = Size(820, 1180);
const LAPTOP: Size = Size(1280, 800);
/// What every run looks at: the smallest, the commonest, a phone lying, a laptop.
const FEW: [Size; 4] = [Size(320, 568), Size(360, 640), Size(740, 360), LAPTOP];
/// Where text of 130 % has the least room.
const CLOSE: [Size; 3] = [Size(320, 568), PHONE, Size(740, 360)];
/// Digits are read at arm's length and more: 18 mm on a phone of six inches and 360 CSS pixels.
const LEAST_DIGITS: u32 = 96;
/// A screen of the service holds at most so many words: fewer than eighty.
const MOST_WORDS: usize = 79;

/// Looks once the frame of a new size has been painted.
const LOOK: &str = concat!(
    "return (async () => {
        await new Promise((done) => requestAnimationFrame(() => setTimeout(done)));
        ",
    include_str!("scripts/stove.js"),
    "})()"
);

/// What the script found.
#[derive(Deserialize)]
struct Seen {
    faults: Vec<String>,
    digits: u32,
    words: usize,
    text: String,
    timers: usize,
}

/// What was seen on the whole way.
#[derive(Default)]
struct Walk {
    states: usize,
    looks: usize,
    faults: Vec<String>,
    digits: Option<u32>,
    words: usize,
    timers: usize,
    taps: usize,
}

/// A service of the demo: its portions, how many fit the pan, pans and cooks.
struct Kitchen {
    name: &'static str,
    portions: &'static str,
    at_once: &'static str,
    pans: &'static str,
    cooks: u32,
}

const ONE_PAN: Kitchen = Kitchen {
    name: "one pan",
    portions: "2",
    at_once: "",
    pans: "1",
    cooks: 1,
};
const FIVE_TIMERS: Kitchen = Kitchen {
    name: "five timers",
    portions: "4",
    at_once: "1",
    pans: "4",
    cooks: 2,
};
const TWO_COOKS: Kitchen = Kitchen {
    name: "two cooks and two pans",
    portions: "2",
    at_once: "1",
    pans: "2",
    cooks: 2,
};

impl Bench {
    /// Starts the service of a kitchen.
    #[track_caller]
    fn cooking_in(&self, kitchen: &Kitchen) {
        self.demo_weighed();
        let fish = self.fish_place();
        self.go(&format!("{fish}/delivery"));
        self.fill("#portions", kitchen.portions);
        self.go(&format!("{fish}/plan"));
        self.see("Step by step");
        self.unfold();
        if !kitchen.at_once.is_empty() {
            self.fill("#at-once", kitchen.at_once);
        }
        let pans = kitchen.pans;
        self.tap_css(&format!("label:has(input[name=pans]):nth-of-type({pans})"));
        self.tap_css(&format!(
            "label:has(input[name=cooks]):nth-of-type({})",
            kitchen.cooks
        ));
        self.go(&format!("{fish}/prepare"));
        self.tap("Start the service");
        self.tap("Start anyway");
        self.at_stage("service");
        self.see("Plate about");
    }

    /// Waits until the due button has rested and the plan has answered.
    #[track_caller]
    fn settled(&self) {
        self.until(
            "the service never settled",
            "const due = document.querySelector('.dock .due');
            return !due?.disabled && !document.querySelector('.clockline').innerText.includes('…')
                && !document.querySelector('.age').innerText",
            &[],
        );
    }

    /// Looks at the state on the screen in every size.
    #[track_caller]
    fn look_at(&self, walk: &mut Walk, sizes: &[Size], name: &str) {
        walk.states += 1;
        for size in sizes {
            self.resize(*size);
            let seen = self.run(LOOK, &[]);
            let seen: Seen = serde_json::from_value(seen).unwrap();
            let at = format!("{name} {}, {}x{}", walk.states, size.0, size.1);
            if !seen.faults.is_empty() {
                self.shot(&format!(
                    "stove-{}-{}-{}x{}",
                    name.replace(' ', "-"),
                    walk.states,
                    size.0,
                    size.1
                ));
            }
            walk.looks += 1;
            walk.faults
                .extend(seen.faults.iter().map(|fault| format!("{at}: {fault}")));
            if seen.digits < LEAST_DIGITS {
                walk.faults
                    .push(format!("{at}: digits of {} px", seen.digits));
            }
            // There is room for more on a laptop.
            let words = if *size == LAPTOP { 0 } else { seen.words };
            if words > MOST_WORDS {
                walk.faults
                    .push(format!("{at}: {words} words: {}", seen.text));
            }
            walk.digits = Some(walk.digits.unwrap_or(seen.digits).min(seen.digits));
            walk.words = walk.words.max(words);
            walk.timers = walk.timers.max(seen.timers);
        }
        self.resize(PHONE);
    }
}

/// Cooks to the end: what is due is tapped, and where nothing is, the time goes on until something rings or is to begin.
fn walk(kitchen: &Kitchen, sizes: &[Size], scheme: Scheme, text: u32) -> Walk {
    let bench = Bench::open(PHONE, scheme);
    bench.cooking_in(kitchen);
    // As a cook sets it in the browser: the app's rem and the em of its media queries follow.
    let asked = json!({ "fontSizes": { "standard": text } });
    bench.command("Page.setFontSizes", asked);
    let mut walk = Walk::default();
    let mut gone = 0;
    loop {
        bench.settled();
        bench.look_at(&mut walk, sizes, kitchen.name);
        assert!(walk.states < 200, "{} never ends", kitchen.name);
        let offer = "const dock = document.querySelector('nav.dock');
            return dock.querySelector('.due') ? 'due' : dock.innerText.includes('Check the plate') ? 'done' : 'nothing'";
        match bench.run(offer, &[]).as_str().unwrap() {
            "done" => break,
            "due" => {
                walk.taps += 1;
                bench.tap_css(".dock .due");
            }
            _ => {
                // To the end of the timer that rings first, or to what comes next.
                let left = "const faces = [document.querySelector('article.large.runs .left')?.textContent,
                    document.querySelector('.nextline .num')?.innerText];
                    const secs = faces.filter((face) => /^\\d+:\\d\\d$/.test(face ?? ''))
                        .map((face) => face.split(':').reduce((sum, part) => sum * 60 + Number(part), 0));
                    return secs.length ? Math.max(1, Math.min(...secs)) : 1";
                gone += bench.run(left, &[]).as_i64().unwrap() + 1;
                bench.clock_ahead(gone);
                bench.until(
                    "nothing came to be due",
                    "return Boolean(document.querySelector('.dock .due, .dock a.next'))",
                    &[],
                );
            }
        }
    }
    // The plate is looked at before it goes; the last tap sends it away and ends the job.
    bench.tap("Check the plate");
    bench.at_stage("pass");
    bench.tap_css("label:has(input[name=crisp]):nth-of-type(2)");
    bench.see("Skin side down in the hot pan again");
    bench.pass();
    assert_eq!(bench.console_errors(), [""; 0]);
    walk
}

/// Walks, prints what was seen, and holds it to the promise.
fn holds(kitchen: &Kitchen, sizes: &[Size], scheme: Scheme, text: u32) -> Walk {
    let walk = printed(kitchen, sizes, scheme, text);
    assert!(walk.faults.is_empty(), "{:#?}", walk.faults);
    walk
}

fn printed(kitchen: &Kitchen, sizes: &[Size], scheme: Scheme, text: u32) -> Walk {
    let walk = walk(kitchen, sizes, scheme, text);
    println!(
        "{}: {} states, {} taps, looked at {} times; at most {} timers and {} words, digits of at least {} px",
        kitchen.name,
        walk.states,
        walk.taps,
        walk.looks,
        walk.timers,
        walk.words,
        walk.digits.unwrap_or_default()
    );
    walk
}

/// The size of text that the cook asks of the browser, CSS px: as it comes, and 130 %.
const USUAL_TEXT: u32 = 16;
const LARGE_TEXT: u32 = 21;

#[test]
fn one_pan_is_cooked_by_the_dock_and_nothing_is_ever_out_of_sight() {
    let walk = holds(&ONE_PAN, &FEW, Scheme::Light, USUAL_TEXT);
    assert!(walk.taps >= 10, "{} taps", walk.taps);
}

#[test]
fn five_timers_at_once_are_all_in_sight() {
    let walk = holds(&FIVE_TIMERS, &FEW, Scheme::Dark, USUAL_TEXT);
    assert!(walk.timers >= 5, "never more than {} timers", walk.timers);
}

#[test]
fn two_cooks_have_all_in_sight_in_larger_text() {
    let walk = holds(&TWO_COOKS, &CLOSE, Scheme::Light, LARGE_TEXT);
    assert!(walk.timers >= 2, "never more than {} timers", walk.timers);
}

/// The full form: every kitchen at every size, light and dark, also with larger text. Not part of the usual run:
/// `cargo test --test browser -- --ignored stove::`.
#[test]
#[ignore = "takes many minutes"]
fn every_kitchen_at_every_size() {
    let mut all = Walk::default();
    for kitchen in [&ONE_PAN, &FIVE_TIMERS, &TWO_COOKS] {
        for (scheme, text) in [
            (Scheme::Light, USUAL_TEXT),
            (Scheme::Dark, USUAL_TEXT),
            (Scheme::Light, LARGE_TEXT),
        ] {
            let walk = printed(kitchen, &SIZES, scheme, text);
            all.states += walk.states;
            all.looks += walk.looks;
            let of_it = |fault| format!("text of {text} px: {fault}");
            all.faults.extend(walk.faults.into_iter().map(of_it));
        }
    }
    println!(
        "{} states looked at {} times, {} faults",
        all.states,
        all.looks,
        all.faults.len()
    );
    assert!(all.faults.is_empty(), "{:#?}", all.faults);
}
