//! A fish of the cook's own, from the slip to the list, with its figures checked against worked ones.

use serde_json::json;
use thirtyfour::Key;

use crate::bench::{Bench, PHONE, Scheme};
use crate::cook::{Delivery, OWN_STEPS, SNAPPER, kept_field};

/// What a cook keys for one fish, and what must be read then.
struct Worked {
    source: &'static str,
    delivery: Delivery,
    unit: &'static str,
    whole: &'static str,
    ready: &'static str,
    portion: Option<&'static str>,
    /// Name, weight and worth of each kept part.
    kept: &'static [[&'static str; 3]],
    figures: &'static [&'static str],
}

const WORKED: [Worked; 4] = [
    Worked {
        source: "worked by hand; the ± is 1.036 ÷ 2.348 less 44 %",
        delivery: SNAPPER,
        unit: "Kilos",
        whole: "2.350",
        ready: "1.034",
        portion: Some("0.160"),
        kept: &[],
        figures: &[
            "Yield from whole 44.0 % ± 0.13 points at most",
            "Cost per usable kilo €42.95",
            "Cost factor 2.273",
            "Paid €44.42",
            "− all trimmings together 1.316 kg 56.0 %",
            "Portions of 0.160 kg 6 0.074 kg left over",
            "Cost of the fish in one €6.87",
            "Cost of each one served €7.40",
        ],
    },
    Worked {
        source: "worked by hand, the kept parts taken off",
        delivery: SNAPPER,
        unit: "Kilos",
        whole: "2.350",
        ready: "1.034",
        portion: None,
        kept: &[
            ["Frame and head", "0.890", "2.00"],
            ["Trimmings", "0.080", "9.00"],
        ],
        figures: &[
            "Usable fish cost €41.92 after €2.50 for parts kept",
            "Cost per usable kilo €40.54",
            "Cost factor 2.145",
        ],
    },
    Worked {
        source: "whole sockeye salmon, BCcampus, Basic Kitchen and Food Service Management, yield testing: \
                 7.75 kg, 5.00 kg, 64.51 % printed, which is 64.5161 cut off",
        delivery: Delivery {
            fish: Err("Sockeye"),
            form: "Headed and gutted",
            price: "20",
            per: "kg",
            scale: "10 g",
            portions: "20",
        },
        unit: "Kilos",
        whole: "7.75",
        ready: "5.00",
        portion: None,
        kept: &[],
        figures: &["Yield from headed and gutted 64.5 %"],
    },
    Worked {
        source: "butcher's test with three kept parts, Dittmer & Keefe, Principles of Food, Beverage and Labor \
                 Cost Controls, as quoted in a lecture summary, its two misprints mended: 28 lb at 1.30, \
                 8.00 credit, 16 lb left, 1.775 a pound, factor 1.3654",
        delivery: Delivery {
            fish: Err("Twenty-eight pounds"),
            form: "Whole",
            price: "1.30",
            per: "lb",
            scale: "0.25 oz",
            portions: "16",
        },
        unit: "Pounds and ounces",
        whole: "28l",
        ready: "16l",
        portion: None,
        kept: &[
            ["Fat", "3 lb", ".10"],
            ["Bones", "4 lb", ".30"],
            ["Trim", "5 lb", "1.30"],
        ],
        figures: &[
            "Paid €36.40 €1.30 per lb",
            "Usable fish cost €28.40 after €8.00 for parts kept",
            // Exactly 1.775, a tie: half away from zero.
            "Cost per usable pound €1.78",
            "Cost factor 1.365",
            "16 equal portions 1 lb 0 oz each €1.78 a portion",
        ],
    },
];

impl Bench {
    /// Takes a weight that nothing speaks against.
    #[track_caller]
    fn weigh(&self, unit: &str, keys: &str) {
        self.tap(unit);
        self.key(keys);
        self.tap("Take this weight");
    }

    /// Takes a fish of the cook's own to its yield, the fillets not weighed off the bone.
    #[track_caller]
    pub fn weigh_through(&self, unit: &str, whole: &str, ready: &str) {
        self.tap("Weigh it whole");
        self.at_stage("weigh-whole");
        self.weigh(unit, whole);
        self.at_stage("fillet/1");
        while !self.address().ends_with("weigh-ready") {
            let next = if self.address().ends_with("weigh-off-bone") {
                "Leave this weight out"
            } else {
                "Next"
            };
            let here = self.address();
            self.tap(next);
            self.until(
                "the screen stayed",
                "return location.href !== arguments[0]",
                &[json!(here)],
            );
        }
        self.tap("Raw");
        self.weigh(unit, ready);
        self.at_stage("yield");
    }
}

#[test]
fn the_figures_are_those_worked_elsewhere() {
    let bench = Bench::open(PHONE, Scheme::Light);
    for worked in &WORKED {
        println!("{}", worked.source);
        bench.go("#/");
        bench.start_fish(&worked.delivery);
        bench.weigh_through(worked.unit, worked.whole, worked.ready);
        bench.tap("Costs and losses");
        if let Some(portion) = worked.portion {
            bench.tap("Another portion weight");
            bench.fill("#portion", portion);
        }
        for (at, [name, weight, price]) in worked.kept.iter().enumerate() {
            if at == 0 {
                bench.tap("Parts kept for another dish");
            }
            bench.tap("Add a kept part");
            for (field, text) in [
                ("kept-name", name),
                ("kept-weight", weight),
                ("kept-price", price),
            ] {
                bench.fill(&kept_field(field, at), text);
            }
        }
        for figure in worked.figures {
            bench.see(figure);
        }
    }
    assert_eq!(bench.console_errors(), [""; 0]);
}

#[test]
fn the_slip_says_what_it_lacks() {
    let bench = Bench::open(PHONE, Scheme::Light);
    bench.tap("Start a fish");
    bench.at_stage("delivery");
    bench.tap("Weigh it whole");
    bench.see("Choose the fish, or pick 'another fish' and give its name.");
    bench.see("Choose how the fish was delivered: the yield depends on it.");
    bench.pick("#species", "another");
    bench.see("Give the fish a name, so that you can find it again.");
    bench.fill("#species-name", "Wreckfish");
    bench.tap("Gutted");
    bench.fill("#price", "eighteen");
    bench.not_see("Choose how the fish was delivered");
    bench.tap("Weigh it whole");
    bench.at_stage("delivery");
    bench.fill("#price", "18,90");
    bench.fill("#portions", "0");
    bench.see("You need at least one portion.");
    bench.fill("#portions", "4");
    bench.tap("Weigh it whole");
    bench.at_stage("weigh-whole");
    bench.see("Wreckfish");
}

#[test]
fn the_scale_questions_and_refuses() {
    let bench = Bench::open(PHONE, Scheme::Light);
    bench.start_fish(&SNAPPER);
    bench.tap("Weigh it whole");
    bench.at_stage("weigh-whole");
    bench.tap("Take this weight");
    bench.see("Type the weight the scale shows.");

    // The international avoirdupois pound is 0.45359237 kg exactly.
    bench.tap("Pounds and ounces");
    bench.key("1l6.55<");
    bench.reads("1 lb 6.5 oz");
    bench.tap("Grams");
    bench.reads("637.9 g");
    bench.tap("Take this weight");
    bench.see("Your scale shows steps of 2 g, and this weight lies between two.");
    bench.tap("Weigh again");
    bench.reads("0 g");
    bench.not_see("Your scale shows steps of");

    bench.tap("Kilos");
    bench.key("23.5");
    bench.tap("Take this weight");
    bench.see("23.500 kg is heavy for one snapper");
    bench.key("<<<");
    bench.reads("2 kg".trim_end());
    bench.not_see("is heavy for one snapper");
    bench.key(".350");
    bench.reads("2.350 kg");
    bench.tap("Take this weight");
    bench.at_stage("fillet/1");

    let fish = bench.fish_place();
    bench.go(&format!("{fish}/weigh-ready"));
    bench.key("2.36");
    bench.tap("Take this weight");
    bench.see("Say first whether the fillets are still raw.");
    bench.tap("Cooked already");
    bench.see("A cooked weight can't be used: the water lost in the pan would be counted as trim.");
    bench.tap("Take this weight");
    bench.at_stage("weigh-ready");
    bench.tap("Raw");
    bench.not_see("A cooked weight can't be used");
    bench.tap("Take this weight");
    bench.see("The fillets can't weigh more than the whole fish");
    bench.key("<<<<");
    bench.reads("0 kg");
    // A yield of 89 % is asked about and may be taken.
    bench.key("2.09");
    bench.tap("Take this weight");
    bench.see("So high that a slip is likely");
    bench.tap("Yes, take it");
    bench.at_stage("yield");
    bench.see("Yield from whole 88.9 %");
    assert_eq!(bench.console_errors(), [""; 0]);
}

#[test]
fn no_figure_of_a_long_weight_is_hidden() {
    let bench = Bench::open(PHONE, Scheme::Light);
    bench.start_fish(&SNAPPER);
    bench.tap("Weigh it whole");
    bench.at_stage("weigh-whole");
    for (unit, keys) in [("Pounds and ounces", "88l15.75"), ("Grams", "999999999999")] {
        bench.tap(unit);
        bench.key(keys);
        let hidden = "const range = document.createRange();
            range.selectNodeContents(document.querySelector('.readout output'));
            const figures = range.getBoundingClientRect();
            const box = document.querySelector('.readout').getBoundingClientRect();
            return figures.left < box.left + 2 || figures.right > box.right - 2
                || figures.top < box.top || figures.bottom > box.bottom";
        assert_eq!(bench.run(hidden, &[]), json!(false), "{unit} {keys}");
        bench.shot(&format!("long-{}", keys.len()));
        bench.type_keys(Key::Delete);
    }
}

/// From the slip to the list without once looking at a figure; `midway` happens between two screens.
#[track_caller]
pub fn whole_job(bench: &Bench, midway: impl FnOnce(&Bench)) {
    bench.start_fish(&SNAPPER);
    bench.tap("Weigh it whole");
    bench.at_stage("weigh-whole");
    bench.weigh("Kilos", "2.350");
    bench.cut(1..=5, "fillet/6");
    midway(bench);
    bench.cut(6..=9, "weigh-off-bone");
    bench.weigh("Kilos", "1.2");
    bench.cut(10..=14, "weigh-ready");
    bench.tap("Raw");
    bench.weigh("Kilos", "1.034");
    bench.at_stage("yield");
    bench.tap("Chill and prepare");
    bench.at_stage("prepare");
    bench.tap("Fillets into the fridge");
    bench.prepare();
    // How long the fish lies in the pan is asked before anything is hot.
    bench.tap("Start the service");
    bench.see("How thick is the fillet?");
    bench.tap("How thick is it?");
    bench.at_stage("heat");
    bench.see("For up to 12 mm: 4:30, then 0:30 turned.");
    bench.tap("Use the dish's own times");
    bench.at_stage("prepare");
    bench.see("By the dish's own times.");
    bench.tap("Start the service");
    bench.at_stage("service");
    bench.all_steps();
    bench.serve(&OWN_STEPS);
    bench.tap("Check the plate");
    bench.pass();
    bench.tap("All fish");
    bench.at("#/");
    bench.see("Snapper");
    bench.see("finished 44.0 %");
}

#[test]
fn a_fish_of_ones_own_goes_from_the_slip_to_the_list() {
    let bench = Bench::open(PHONE, Scheme::Light);
    whole_job(&bench, |_| {});
    bench.not_see("Demo 4");
    assert_eq!(bench.console_errors(), [""; 0]);
}
