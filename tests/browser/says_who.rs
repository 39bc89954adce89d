//! Every figure that a screen shows says who: one tap on it, or on the button below, opens the table of sources. What a
//! figure is, the page itself says (`scripts/figures.js`): a number with a unit, whatever it stands in.

use serde_json::{Value, json};
use thirtyfour::Key;

use crate::bench::{Bench, PHONE, Scheme, Size};
use crate::class::{THIRTY, class_with, two_of_one_number};
use crate::cook::SNAPPER;
use crate::dish::write_a_dish;

const FIGURES: &str = include_str!("scripts/figures.js");

/// The sizes at which the answer is looked at.
const PHONES: [Size; 2] = [PHONE, Size(320, 568)];

/// What was found on the screens so far.
#[derive(Default)]
struct Looked {
    said: u64,
    silent: Vec<String>,
}

impl Looked {
    /// Looks at the screen as it stands, folded or not.
    fn at(&mut self, bench: &Bench, screen: &str) {
        bench.unfold();
        bench.painted();
        let figures = bench.run(FIGURES, &[]);
        self.said += figures["said"].as_u64().unwrap();
        println!("{screen}: {} say who", figures["said"]);
        for figure in figures["silent"].as_array().unwrap() {
            let figure = figure.as_str().unwrap();
            self.silent.push(format!("{screen} {figure}"));
        }
    }

    /// Goes to some screens below an address, and looks at each.
    fn at_each(&mut self, bench: &Bench, below: &str, screens: &[impl AsRef<str>]) {
        for screen in screens {
            let screen = screen.as_ref();
            bench.go(&format!("{below}{screen}"));
            bench.started();
            self.at(bench, screen);
        }
    }

    #[track_caller]
    fn all_say_who(self, at_least: u64) {
        // A test that looks at nothing finds nothing.
        assert!(self.said > at_least, "{}", self.said);
        let (count, silent) = (self.silent.len(), self.silent.join("\n"));
        assert!(count == 0, "{count} figures:\n{silent}");
    }
}

#[test]
fn no_screen_shows_a_figure_that_says_not_who() {
    let bench = Bench::open(PHONE, Scheme::Light);
    let mut looked = Looked::default();
    looked.at_each(&bench, "", &bench.one_of_everything());
    looked.all_say_who(300);
}

#[test]
fn neither_does_a_weight_in_doubt_nor_a_service_in_a_quarrel() {
    let bench = Bench::open(PHONE, Scheme::Light);
    let mut looked = Looked::default();
    bench.started();
    bench.start_fish(&SNAPPER);
    bench.go(&format!("{}/weigh-whole", bench.fish_place()));
    bench.key("64");
    bench.tap("Take this weight");
    bench.see("Weigh again");
    looked.at(&bench, "a weight in doubt");
    bench.go("#/");
    bench.demo_measured();
    let fish = bench.fish_place();
    looked.at_each(&bench, &fish, &["/heat", "/plan", "/prepare"]);
    bench.go(&format!("{fish}/plan"));
    bench.fill("#at-once", "1");
    bench.see("This does not fit");
    looked.at(&bench, "a quarrel");
    bench.go(&format!("{fish}/prepare"));
    bench.tap("Start the service");
    bench.see("not ready yet");
    looked.at(&bench, "not ready");
    bench.tap("Start anyway");
    bench.at_stage("service");
    looked.at(&bench, "the service");
    bench.go(&format!("{fish}/all-steps"));
    bench.see("This does not fit");
    looked.at(&bench, "all steps");
    looked.all_say_who(60);
}

#[test]
fn neither_does_a_lesson() {
    let bench = Bench::open(PHONE, Scheme::Light);
    let mut looked = Looked::default();
    class_with(&bench, THIRTY);
    bench.see("25 results");
    let class = bench.run("return location.hash", &[]);
    let class = class.as_str().unwrap();
    for student in ["COOT 1", "WREN 1"] {
        bench.tap_in(".board", student);
        bench.see("To send back");
        looked.at(&bench, student);
    }
    bench.tap("Marks");
    bench.fill("#criterion", "Clean frame");
    bench.tap("Add the criterion");
    bench.see("What you mark: 1");
    bench.go(&format!("{class}/student/SWAN"));
    bench.see("A trend takes 5 fish.");
    let put = "const field = document.querySelector('input[id^=points]');
        field.value = '7.5';
        field.dispatchEvent(new Event('change', { bubbles: true }))";
    bench.run(put, &[]);
    bench.see("Together 7.5 of 10.");
    looked.at(&bench, "a student marked");
    looked.at_each(
        &bench,
        class,
        &["/criteria", "/students", "/wall", "/sheet"],
    );
    bench.go("#/");
    class_with(&bench, &two_of_one_number());
    bench.see("A correction, or another fish?");
    looked.at(&bench, "two of one number");
    looked.all_say_who(200);
}

#[test]
fn neither_does_a_dish_on_its_way() {
    let bench = Bench::open(PHONE, Scheme::Light);
    let mut looked = Looked::default();
    bench.started();
    let dish = write_a_dish(&bench);
    bench.go(&format!("{dish}/plate"));
    bench.fill("#menu-price", "29.35");
    bench.fill("#menu-tax", "10");
    bench.see("Margin on a cover €18.68");
    looked.at(&bench, "plate");
    bench.go(&format!("{dish}/order"));
    bench.fill("#dish-wanted", "24");
    bench.see("4 fish of 2.35 kg");
    looked.at(&bench, "order");
    bench.go(&format!("{dish}/scale"));
    bench.see("3.84 kg");
    looked.at(&bench, "scale");
    bench.write_mussels();
    for (way, there) in [
        ("Plan this dish", "Steps of the service"),
        ("Plan this dish", "Nothing waits for the plate"),
        ("Prepare it", "Mise en place"),
    ] {
        bench.tap(way);
        bench.see(there);
        looked.at(&bench, there);
    }
    bench.go(&bench.fish_place());
    bench.started();
    looked.at(&bench, "its numbers");
    looked.all_say_who(30);
}

/// The rows that stand in the answer, each with whether it is open.
fn rows(bench: &Bench) -> Value {
    bench.run(
        "return [...document.querySelectorAll('dialog details')].map((one) => [one.firstElementChild.innerText, one.open])",
        &[],
    )
}

#[test]
fn a_figure_that_is_tapped_opens_its_source_and_the_button_opens_all() {
    let mut bench = Bench::open(PHONE, Scheme::Light);
    bench.started();
    bench.demo_weighed();
    let fish = bench.fish_place();
    bench.go(&format!("{fish}/yield"));
    bench.see("46.6 %");
    for size in PHONES {
        bench.resize(size);
        bench.tap_css("main .figures dd");
        bench.see("it lies within the smaller figure");
        let first = rows(&bench);
        assert_eq!(first[0], json!(["Yield", true]));
        let first = first.as_array().unwrap();
        assert!(first.len() > 3, "{first:?}");
        let folded = first.iter().skip(1).all(|one| one[1] == json!(false));
        assert!(folded, "{first:?}");
        // It fits the screen, its words one below the other, and what closes it is in sight.
        let fits = "const sheet = document.querySelector('dialog[open]');
            const close = sheet.querySelector(':scope > .btn').getBoundingClientRect();
            return [sheet.scrollWidth <= innerWidth, close.bottom <= innerHeight, close.height >= 44];";
        assert_eq!(
            bench.run(fits, &[]),
            json!([true, true, true]),
            "{}",
            size.0
        );
        for scheme in Scheme::BOTH {
            bench.show_in(scheme);
            bench.is_sound();
            bench.shot(&format!("says-who-{}", size.0));
        }
        bench.tap_in("dialog", "Close");
        bench.until(
            "it was not closed",
            "return !document.querySelector('dialog[open]')",
            &[],
        );
        bench.tap("Says who?");
        bench.see("Published yields");
        assert!(!rows(&bench).to_string().contains("true"));
        bench.tap_in("dialog", "Close");
    }
}

#[test]
fn a_tap_that_missed_a_figure_asks_nothing() {
    let bench = Bench::open(PHONE, Scheme::Light);
    bench.started();
    bench.demo_weighed();
    bench.see("46.6 %");
    // The sheet itself, and words without a figure.
    for missed in ["main .figures", "main h1"] {
        let tap = "document.querySelector(arguments[0]).click(); return !document.querySelector('dialog[open]')";
        assert_eq!(bench.run(tap, &[json!(missed)]), json!(true), "{missed}");
    }
    bench.tap_css("main .figures dd");
    bench.see("How sure");
}

/// By keys alone: the button is reached, Escape closes what it opened and nothing else, and the focus is back on it.
#[test]
fn keys_open_it_and_close_it_and_weigh_nothing_meanwhile() {
    let bench = Bench::open(PHONE, Scheme::Light);
    bench.started();
    bench.start_fish(&SNAPPER);
    bench.go(&format!("{}/weigh-whole", bench.fish_place()));
    bench.key("64");
    bench.tap("Take this weight");
    bench.see("Weigh again");
    // It stands there a moment after the figures.
    let focused = "const button = document.querySelector('main > .says-who');
        button.focus();
        return document.activeElement === button";
    bench.until("the button takes no focus", focused, &[]);
    bench.type_keys(Key::Enter);
    bench.see("A weight or a price that is asked about");
    bench.type_keys("5");
    bench.type_keys(Key::Escape);
    bench.until(
        "it was not closed, or the focus is elsewhere",
        "return !document.querySelector('dialog[open]') && document.activeElement.matches('.says-who')",
        &[],
    );
    // The question behind it still stands, and the weight is what it was.
    bench.see("Weigh again");
    bench.reads("64 g");
}
