//! The parts of the app that come when they are first asked for: nothing of them before that, all of them without a
//! signal, and a plain way on where one does not arrive.

use scaleside::place::{DishSide, Place, Stage};

use crate::bench::{Bench, PHONE, Scheme};
use crate::cook::SNAPPER;
use crate::site::Site;

/// The modules that the page itself has asked for so far, each once.
const ASKED: &str = "return [...new Set(performance.getEntriesByType('resource').map((entry) => entry.name)
    .filter((name) => name.endsWith('.wasm')).map((name) => name.split('/').pop().replace(/-[0-9a-f]{16}/, '')))]";

/// Whether a screen is shown that is no door.
const OPEN: &str = "const heading = document.querySelector('.page main h1')?.innerText;
    return Boolean(heading) && !['One moment', 'Not here yet'].includes(heading)";

impl Bench {
    /// Goes to a place and waits for its own screen.
    #[track_caller]
    fn opens(&self, place: &str) {
        self.go(place);
        self.at(place);
        self.until(format!("{place} did not open"), OPEN, &[]);
    }
}

/// The module of a part, by its name.
fn module(site: &Site, part: &str) -> String {
    let start = format!("split_{part}-");
    let files = site.files().into_iter();
    files
        .into_iter()
        .find(|path| path.starts_with(&start))
        .unwrap()
}

#[test]
fn the_first_use_asks_for_the_first_module_alone() {
    let bench = Bench::open(PHONE, Scheme::Light);
    bench.demo_weighed();
    // What stands beside the yield comes once that is painted, and the second home and what looks after the shelf in
    // idle time.
    bench.see("Beside published yields");
    let first = [
        "scaleside_bg.wasm",
        "split_beside.wasm",
        "split_ledger.wasm",
        "split_shelf.wasm",
    ];
    assert_eq!(asked(&bench), first);
    bench.tap("All fish");
    bench.opens("#/classes");
    let [module, beside, ledger, shelf] = first;
    assert_eq!(
        asked(&bench),
        [module, beside, "split_class.wasm", ledger, shelf]
    );
}

/// The modules that the page itself has asked for so far, without what several of them share.
#[track_caller]
fn asked(bench: &Bench) -> Vec<String> {
    let asked: Vec<String> = serde_json::from_value(bench.run(ASKED, &[])).unwrap();
    let mut own: Vec<String> = asked
        .into_iter()
        .filter(|name| !name.starts_with("chunk_"))
        .collect();
    own.sort();
    own
}

#[test]
fn offline_right_after_the_first_visit_every_screen_opens() {
    let mut bench = Bench::open(PHONE, Scheme::Light);
    bench.kept();
    bench.site.stop();

    bench.demo_weighed();
    let fish = bench
        .fish_place()
        .split('/')
        .next_back()
        .unwrap()
        .to_owned();
    bench.opens("#/classes");
    bench.tap_css("#class-name");
    bench.type_keys("Tuesday, first year");
    bench.tap("Start the class");
    bench.until(
        "no class was begun",
        "return location.hash.startsWith('#/class/')",
        &[],
    );
    let class = bench.run("return location.hash", &[]);
    bench.opens("#/dishes");
    bench.tap("Open the demo dish");
    bench.until(
        "no dish was begun",
        "return location.hash.startsWith('#/dish/')",
        &[],
    );
    let dish = bench
        .run("return location.hash.split('/')[2]", &[])
        .as_str()
        .unwrap()
        .to_owned();
    let line = "return document.querySelector('a[href*=\"/line/\"]').getAttribute('href')";
    let line = bench.run(line, &[]);

    let stages = Stage::JOB.into_iter().chain([
        Stage::Summary,
        Stage::Heat,
        Stage::Plan,
        Stage::Steps,
        Stage::Card,
        Stage::Code,
        Stage::Journal,
    ]);
    let sides = [
        DishSide::Card,
        DishSide::Plate,
        DishSide::Scale,
        DishSide::Order,
        DishSide::Steps,
        DishSide::Journal,
    ];
    let others = [
        Place::Home,
        Place::Settings,
        Place::About,
        Place::Kept,
        Place::Bin,
        Place::Restore,
        Place::Classes,
        Place::Dishes,
        Place::DishIn,
        Place::Compare { demo: false },
        Place::Compare { demo: true },
        Place::Cheapest { demo: false },
        Place::Cheapest { demo: true },
        Place::Code("3M7N9Q".into()),
    ];
    let places = stages
        .map(|stage| Place::Fish(fish.clone(), stage))
        .chain(sides.map(|side| Place::Dish(dish.clone(), side)))
        .chain(others)
        .map(|place| place.to_string());
    let places: Vec<String> = places
        .chain([class, line].map(|place| place.as_str().unwrap().to_owned()))
        .collect();
    // Each in a page that has fetched nothing yet.
    for place in &places {
        bench.go("?afresh#/");
        bench.opens(place);
    }
    assert_eq!(bench.console_errors(), [""; 0]);
}

#[test]
fn a_part_that_does_not_arrive_is_asked_for_again() {
    type Fault = fn(&Site, &str);
    let faults: [(&str, Fault); 3] = [
        ("refused", |site, path| site.remove(path)),
        ("cut off", |site, path| {
            site.spoil(path, |bytes| bytes.truncate(bytes.len() / 2));
        }),
        ("wrong by a byte", |site, path| {
            site.spoil(path, |bytes| {
                let middle = bytes.len() / 2;
                bytes[middle] ^= 1;
            });
        }),
    ];
    for (how, fault) in faults {
        println!("{how}");
        let site = Site::new();
        let path = module(&site, "cook");
        let whole = site.bytes(&path);
        fault(&site, &path);
        let bench = Bench::open_at(site, PHONE, Scheme::Light);
        bench.start_fish(&SNAPPER);
        let fish = bench.fish_place();
        bench.go(&format!("{fish}/prepare"));
        bench.see("did not arrive whole");
        bench.tap("Try again");
        bench.see("did not arrive whole");
        bench.shot("part-refused");
        assert_eq!(bench.small_targets(), [""; 0]);
        assert_eq!(bench.axe(), [""; 0]);

        bench.tap("Back");
        bench.at(&format!("{fish}/delivery"));
        bench.has("#price", SNAPPER.price);

        bench.go(&format!("{fish}/prepare"));
        bench.site.put(&path, &whole);
        // To come back to it asks for it as well, so the button may be gone already.
        let again = "[...document.querySelectorAll('button')].find((button) => button.innerText === 'Try again')?.click();";
        bench.until("the part did not open", &format!("{again} {OPEN}"), &[]);
        bench.not_see("did not arrive");
        bench.go(&format!("{fish}/delivery"));
        bench.has("#price", SNAPPER.price);
    }
}

#[test]
fn what_is_refused_once_is_asked_for_again_by_itself() {
    let bench = Bench::open(PHONE, Scheme::Light);
    // As when the service worker's process is killed while it answers.
    let torn = "window.real = window.fetch;
        window.torn = new Set();
        window.fetch = async (...asked) => {
            const path = String(asked[0]);
            if (!torn.has(path)) {
                torn.add(path);
                throw new TypeError('Failed to fetch');
            }
            return real(...asked);
        }";
    bench.run(torn, &[]);
    bench.go("#/classes");
    bench.see("Start the class");
    assert!(bench.run("return torn.size", &[]).as_u64() > Some(1));
    bench.not_see("did not arrive");
}

#[test]
fn a_part_that_is_long_on_its_way_is_said_to_be() {
    for scheme in Scheme::BOTH {
        let bench = Bench::open(PHONE, scheme);
        bench.kept();
        // The worker's cache would answer at once.
        let slow = "window.real = window.fetch;
            window.fetch = (...asked) => new Promise((done) => { window.arrive = () => done(window.real(...asked)); })";
        bench.run(slow, &[]);
        bench.go("#/classes");
        bench.see("This part of Scaleside is on its way.");
        bench.shot("part-coming");
        assert_eq!(bench.small_targets(), [""; 0]);
        assert_eq!(bench.axe(), [""; 0]);
        bench.tap("Back");
        bench.see("Your fish");
    }
}
