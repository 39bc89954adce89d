//! The numbers of a fish are one tap away from any of its screens, and one of them is put right in five.

use serde_json::json;

use crate::bench::{Bench, PHONE, Scheme, Size};

/// Taps what can be tapped without scrolling and is called so; a fault where it is not in sight, or not hit where drawn.
const TAPPED: &str = "const [part, name] = arguments;
    const plain = (text) => text.replace(/\\s+/g, ' ').trim();
    const nameOf = (element) => plain(element.ariaLabel ?? element.innerText);
    const all = [...document.querySelectorAll(`${part} a, ${part} button`)];
    const found = all.find((element) => nameOf(element).includes(name));
    if (!found) return `nothing is called ${name}`;
    const { left, right, top, bottom } = found.getBoundingClientRect();
    const hit = document.elementFromPoint((left + right) / 2, (top + bottom) / 2);
    if (!found.contains(hit)) return `${name} is not in sight`;
    found.click();
    return ''";

impl Bench {
    /// One tap of a thumb, without scrolling.
    #[track_caller]
    fn one_tap(&self, part: &str, name: &str) {
        self.until(
            format!("{name} can't be tapped"),
            &format!("return (() => {{ {TAPPED} }}).apply(null, arguments) === ''"),
            &[json!(part), json!(name)],
        );
    }
}

fn a_weight_is_put_right(size: Size) {
    let bench = Bench::open(size, Scheme::Light);
    bench.demo_weighed();
    let fish = bench.fish_place();
    for stage in [
        "delivery",
        "weigh-whole",
        "fillet/3",
        "weigh-off-bone",
        "weigh-ready",
        "yield",
        "prepare",
        "plan",
        "heat",
        "steps",
        "service",
        "pass",
        "code",
        "card",
        "journal",
    ] {
        bench.go(&format!("{fish}/{stage}"));
        bench.started();
        bench.one_tap("header", "Numbers and stages");
        bench.at_stage("");
        bench.see("302 g");
        bench.back();
        bench.at_stage(stage);
    }

    // Five taps: the numbers, the weight, one figure back, one figure, taken.
    bench.go(&format!("{fish}/prepare"));
    bench.started();
    bench.one_tap("header", "Numbers and stages");
    bench.see("46.6 %");
    bench.one_tap("main", "Weigh ready to cook");
    bench.at_stage("put-right/ready");
    bench.reads("302 g");
    bench.one_tap(".keys", "take the last figure back");
    bench.one_tap(".keys", "4");
    bench.one_tap(".dock", "Take this weight");
    bench.at_stage("");
    // 304 / 648, by hand.
    bench.see("46.9 %");
    bench.shot("numbers");
    // The phone's own Back leads to where the cook came from, not into what is put right already.
    bench.back();
    bench.at_stage("prepare");

    // The same from the slip, also after a reload.
    bench.one_tap("header", "Numbers and stages");
    bench.one_tap(".dock", "Back");
    bench.at_stage("prepare");
    bench.one_tap("header", "Numbers and stages");
    bench.one_tap("main", "Delivery");
    bench.at_stage("put-right/slip");
    bench.run("window.before = true", &[]);
    bench.run("setTimeout(() => location.reload(), 0)", &[]);
    bench.until(
        "the page was not loaded again",
        "return !window.before",
        &[],
    );
    bench.started();
    bench.fill("#price", "16.40");
    bench.one_tap(".dock", "Done");
    bench.at_stage("");
    bench.see("€16.40");
    bench.one_tap(".dock", "Go on");
    bench.at_stage("prepare");
    // Back in the dock is the phone's own where the cook came from there.
    bench.go(&format!("{fish}/yield"));
    bench.at_stage("yield");
    bench.tap("Chill and prepare");
    bench.at_stage("prepare");
    bench.tap("Back");
    bench.at_stage("yield");
    bench.back();
    bench.at_stage("prepare");
    assert_eq!(bench.console_errors(), [""; 0]);
}

#[test]
fn a_weight_is_put_right_in_five_taps() {
    a_weight_is_put_right(PHONE);
}

#[test]
fn a_weight_is_put_right_in_five_taps_on_a_small_phone() {
    a_weight_is_put_right(Size(320, 568));
}

#[test]
fn a_number_opened_by_its_address_leads_to_the_numbers() {
    let bench = Bench::open(PHONE, Scheme::Light);
    bench.demo_weighed();
    let fish = bench.fish_place();
    bench.go("");
    bench.wait(bench.browser().goto("about:blank"));
    bench.go(&format!("{fish}/put-right/off-bone"));
    bench.started();
    bench.tap("Take this weight");
    bench.at(&fish);
    bench.see("336 g");
}
