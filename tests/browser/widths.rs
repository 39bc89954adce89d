//! The first visit at the sizes of the commonest phones, upright and lying, in larger text, in wider spacing and in two
//! fonts: nothing beside the screen, nothing cut, and each control is hit where it is drawn.

use serde_json::json;

use crate::bench::{Bench, PHONE, Scheme, Size};
use crate::cook::SNAPPER;

const SIZES: [Size; 11] = [
    Size(320, 568),
    Size(360, 640),
    Size(360, 740),
    Size(375, 740),
    Size(393, 740),
    Size(412, 740),
    Size(430, 740),
    Size(600, 740),
    Size(820, 740),
    Size(1280, 740),
    Size(740, 360),
];

/// The sizes at which a weighing needs no scrolling.
const AT_ONCE: [Size; 4] = [
    Size(320, 568),
    Size(360, 640),
    Size(360, 740),
    Size(740, 360),
];

/// How the text is set: the share of the page's own size, the spacing of WCAG 2.2, 1.4.12, and the font.
const TEXTS: [(u32, bool, &str); 6] = [
    (100, false, ""),
    (100, false, "Roboto"),
    (130, false, ""),
    (200, false, ""),
    (200, false, "Roboto"),
    (100, true, ""),
];

/// The same in every way there is: three sizes, with and without that spacing, in a wide font and in a phone's.
const EVERY_TEXT: [(u32, bool, &str); 12] = [
    (100, false, ""),
    (100, false, "Roboto"),
    (100, true, ""),
    (100, true, "Roboto"),
    (130, false, ""),
    (130, false, "Roboto"),
    (130, true, ""),
    (130, true, "Roboto"),
    (200, false, ""),
    (200, false, "Roboto"),
    (200, true, ""),
    (200, true, "Roboto"),
];

/// Sets the text, and answers with the font that is shown.
const SET: &str = "const [percent, spaced, font] = arguments;
    document.documentElement.style.fontSize = percent === 100 ? '' : `${percent * 1.0625}%`;
    document.documentElement.style.fontFamily = font;
    const sheet = new CSSStyleSheet();
    sheet.replaceSync(spaced ? `* { line-height: 1.5 !important; letter-spacing: 0.12em !important; word-spacing: 0.16em !important; }
        p { margin-bottom: 2em !important; }` : '');
    // Beside what the app has put there.
    document.adoptedStyleSheets = [...document.adoptedStyleSheets.filter((each) => each !== window.setAs), sheet];
    window.setAs = sheet;";

/// The controls that are cut, lie over each other, or take a tap that was meant for another, one line each.
const MISSED: &str = "const faults = [];
    const controls = [...document.querySelectorAll('.page a[href], .page button, .page select, .page summary, .page label.choice, .page input[type=text]')]
        .filter((each) => each.checkVisibility({ visibilityProperty: true }));
    for (const control of controls) {
        const name = (control.ariaLabel ?? control.innerText ?? '').replace(/\\s+/g, ' ') || control.id;
        const words = control.matches('.choice') ? control.querySelector('span') : control;
        if (!control.matches('input, select') && words.scrollWidth > words.clientWidth + 1 && !control.matches('.job'))
            faults.push(`${name}: its words are cut`);
        // At the middle of each side: its corners are round. Each is scrolled into sight, as a thumb would.
        for (const [right, down] of [[0, 0.5], [1, 0.5], [0.5, 0], [0.5, 1]]) {
            const point = () => {
                const box = control.getBoundingClientRect();
                return [box.left + 4 + right * (box.width - 8), box.top + 6 + down * (box.height - 12)];
            };
            scrollBy(0, point()[1] - innerHeight * 0.4);
            const [x, y] = point();
            const hit = document.elementFromPoint(x, y);
            if (!hit || !(control.contains(hit) || hit.closest('label') === control))
                faults.push(`${name.slice(0, 40)}: a tap at ${Math.round(x)}, ${Math.round(y)} is not its own but ${hit?.outerHTML.slice(0, 60)}`);
        }
    }
    scrollTo(0, 0);
    // Words of any kind, but for the name of the fish in the head: it stands whole on the numbers.
    for (const each of document.querySelectorAll('.page *')) {
        const style = getComputedStyle(each);
        const says = [...each.childNodes].some((node) => node.nodeType === 3 && node.data.trim());
        // The name of a timer and of what comes next stand whole one tap on.
        if (each.matches('.nextline > span, .face > h2')) continue;
        if (!says || style.overflowX === 'visible' || !each.checkVisibility() || each.closest('.unseen, .job, .head, select, pre') || style.clipPath !== 'none') continue;
        const scrolls = /auto|scroll/.test(style.overflowX + style.overflowY);
        if (!scrolls && (each.scrollWidth > each.clientWidth + 1 || each.scrollHeight > each.clientHeight + 4))
            faults.push(`${each.innerText.slice(0, 40)}: cut`);
    }
    return faults";

/// What a weighing needs that is not wholly in view, or not hit, without scrolling.
const OUT_OF_VIEW: &str = "scrollTo(0, 0);
    const needed = [...document.querySelectorAll('.readout, .keys button, .choices.four .choice, .dock .next')];
    const dock = document.querySelector('.dock').getBoundingClientRect().top;
    const faults = needed.length < 18 ? [`only ${needed.length} parts`] : [];
    for (const each of needed) {
        const { left, right, top, bottom } = each.getBoundingClientRect();
        const name = (each.ariaLabel ?? each.innerText).replace(/\\s+/g, ' ');
        const floor = each.closest('.dock') ? innerHeight : dock;
        if (left < 0 || top < 0 || right > innerWidth || bottom > floor + 0.5)
            faults.push(`${name} ends at ${Math.round(bottom)}, and there is room to ${Math.round(floor)}`);
        else if (!each.contains(document.elementFromPoint((left + right) / 2, (top + bottom) / 2)))
            faults.push(`${name} is covered`);
    }
    return faults";

impl Bench {
    /// What is wrong with this screen at every size and text, one line a fault; `at_once` where it needs no scrolling.
    #[track_caller]
    fn layout_faults(&self, name: &str, at_once: bool) -> Vec<String> {
        self.layout_faults_in(&TEXTS, name, at_once)
    }

    #[track_caller]
    fn layout_faults_in(
        &self,
        texts: &[(u32, bool, &str)],
        name: &str,
        at_once: bool,
    ) -> Vec<String> {
        let list =
            |script| -> Vec<String> { serde_json::from_value(self.run(script, &[])).unwrap() };
        let mut faults = Vec::new();
        for &(percent, spaced, font) in texts {
            self.run(SET, &[json!(percent), json!(spaced), json!(font)]);
            for size in SIZES {
                self.resize(size);
                self.painted();
                let mut found = list(MISSED);
                let across = self.run(include_str!("scripts/across.js"), &[]);
                found.extend(across.as_str().map(str::to_owned));
                if at_once && percent == 100 && !spaced && AT_ONCE.contains(&size) {
                    found.extend(list(OUT_OF_VIEW));
                    if font.is_empty() {
                        self.shot(&format!("view-{name}-{}-{}", size.0, size.1));
                    }
                }
                let Size(width, height) = size;
                let text = format!(
                    "{name}, {width}x{height}, {percent} %{}{font}",
                    if spaced { ", spaced " } else { " " }
                );
                faults.extend(found.into_iter().map(|fault| format!("{text}: {fault}")));
            }
        }
        self.run(SET, &[json!(100), json!(false), json!("")]);
        self.resize(PHONE);
        faults
    }
}

#[test]
fn the_first_visit_is_hit_where_it_is_drawn_at_every_size() {
    let bench = Bench::open(PHONE, Scheme::Light);
    let roboto = "document.fonts.load('16px Roboto'); const ink = document.createElement('canvas').getContext('2d');
        const wide = (font) => { ink.font = font; return ink.measureText('mmmmiiii').width; };
        return wide('16px Roboto, monospace') !== wide('16px monospace')";
    assert_eq!(
        bench.run(roboto, &[]),
        json!(true),
        "Roboto is not installed: run .ci/setup"
    );
    bench.start_fish(&SNAPPER);
    let mut faults = bench.layout_faults("slip", false);
    bench.tap("Weigh it whole");
    bench.at_stage("weigh-whole");
    faults.extend(bench.layout_faults("weigh-whole", true));
    bench.tap("Pounds and ounces");
    bench.key("1l6.5+1");
    faults.extend(bench.layout_faults("weigh-pounds", true));
    bench.tap("Kilos");
    bench.key("<<<<<<<<<<<<<<2.350");
    bench.tap("Take this weight");
    bench.at_stage("fillet/1");
    faults.extend(bench.layout_faults("fillet", false));
    let fish = bench.fish_place();
    for (stage, keys) in [("weigh-off-bone", "1.100"), ("weigh-ready", "1.034")] {
        bench.go(&format!("{fish}/{stage}"));
        bench.at_stage(stage);
        bench.key(keys);
        faults.extend(bench.layout_faults(stage, true));
        if stage == "weigh-ready" {
            bench.tap("Raw");
        }
        bench.tap("Take this weight");
    }
    bench.at_stage("yield");
    bench.see("cut the next one");
    faults.extend(bench.layout_faults("yield", false));
    bench.tap("Numbers and stages");
    bench.at_stage("");
    faults.extend(bench.layout_faults("numbers", false));
    assert!(faults.is_empty(), "{}", faults.join("\n"));
}

/// The longer form, every screen of the job in every text: `cargo test --test browser -- --ignored widths::`.
#[test]
#[ignore = "many minutes: every screen, every width, every text"]
fn every_screen_of_the_job_is_hit_where_it_is_drawn_whatever_the_text() {
    let bench = Bench::open(PHONE, Scheme::Light);
    let mut faults = Vec::new();
    let mut looked = Vec::new();
    let mut look = |bench: &Bench, name: &str, at_once: bool| {
        let name = name.replace('/', "-");
        let found = bench.layout_faults_in(&EVERY_TEXT, &name, at_once);
        println!("{name}: {} faults\n{}", found.len(), found.join("\n"));
        faults.extend(found);
        looked.push(name);
    };
    bench.started();
    look(&bench, "home-empty", false);
    bench.start_fish(&SNAPPER);
    bench.unfold();
    look(&bench, "delivery", false);
    bench.go("#/");
    bench.demo_weighed();
    let fish = bench.fish_place();
    bench.see("cut the next one");
    look(&bench, "yield", false);
    let places = |stages: &[(&'static str, bool)], look: &mut dyn FnMut(&Bench, &str, bool)| {
        for (stage, at_once) in stages {
            bench.go(&format!("{fish}{stage}"));
            bench.started();
            bench.at_rest();
            look(&bench, stage.trim_matches('/'), *at_once);
        }
    };
    let before = [
        ("/weigh-whole", true),
        ("/fillet/9", false),
        ("/weigh-off-bone", true),
        ("/weigh-frame", false),
        ("/weigh-ready", true),
        ("/put-right/ready", true),
        ("/heat", false),
        ("/plan", false),
        ("", false),
        ("/journal", false),
        ("/code", false),
        ("/prepare", false),
    ];
    places(&before, &mut look);
    bench.tap("Start the service");
    bench.tap("Start anyway");
    bench.at_stage("service");
    bench.see("Plate about");
    for word in ["Warming", "Shimmering", "Begin"] {
        bench.due_tap(word);
    }
    bench.see("Turned, heat off");
    look(&bench, "service", false);
    // The timers that run stand on all others.
    let beside = [("/all-steps", false), ("/pass", false), ("/prepare", false)];
    places(&beside, &mut look);
    for place in ["", "settings", "kept", "about"] {
        bench.go(&format!("#/{place}"));
        bench.started();
        bench.at_rest();
        look(&bench, place, false);
    }
    println!(
        "{} screens, {} texts, {} sizes: {} looks, {} faults",
        looked.len(),
        EVERY_TEXT.len(),
        SIZES.len(),
        looked.len() * EVERY_TEXT.len() * SIZES.len(),
        faults.len()
    );
    assert!(faults.is_empty(), "{}", faults.join("\n"));
}

/// What stands above the dock before a tap: the words, the percent with its doubt, the cost, one sentence.
#[test]
fn the_yield_is_told_at_first_sight() {
    let mut bench = Bench::open(PHONE, Scheme::Light);
    bench.demo_weighed();
    bench.see("cut the next one the same way");
    for scheme in Scheme::BOTH {
        bench.show_in(scheme);
        bench.shot("first-sight");
    }
    let seen = "const dock = document.querySelector('.dock').getBoundingClientRect().top;
        const first = document.querySelector('.first-sight');
        return [scrollY === 0 && first.getBoundingClientRect().bottom <= dock,
            first.innerText.replace(/\\s+/g, ' '), document.querySelector('main').innerText.split(/\\s+/).length]";
    let seen = bench.run(seen, &[]);
    assert_eq!(
        seen[0],
        json!(true),
        "it does not stand above the dock: {seen}"
    );
    let told = seen[1].as_str().unwrap();
    for part in [
        "46.6 %",
        "± 0.46 points at most",
        "€4.99 a portion",
        "the next one",
    ] {
        assert!(told.contains(part), "{part}: {told}");
    }
    assert!(seen[2].as_i64().unwrap() <= 80, "{seen}");
}
