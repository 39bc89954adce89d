//! The cuts, drawn for this fish, this kit and this step: on the smallest phone each says what to do without a scroll.

use serde_json::json;

use crate::bench::{Bench, PHONE, Scheme, Size};

const SMALL: Size = Size(320, 568);

/// What is wrong with the cut on the screen; an empty text where nothing is.
const FAULT: &str = "const svg = document.querySelector('.cutbox svg.cutpic');
    const dock = document.querySelector('nav.dock').getBoundingClientRect().top;
    const box = (css) => document.querySelector(css)?.getBoundingClientRect();
    const faults = [];
    if (!svg || box('.cutbox svg.cutpic').height < 40) faults.push('nothing is drawn');
    for (const css of ['.page main .lead', '.page main .care']) {
        const found = box(css);
        if (found && found.bottom > dock + 0.5) faults.push(`${css} ends ${found.bottom - dock} px below the dock`);
    }
    if (!box('.page main .lead')) faults.push('it does not say what to do');
    const details = document.querySelector('details.sheet');
    const folded = details.querySelector('summary').getBoundingClientRect().height;
    if (details.getBoundingClientRect().height > folded + 4) faults.push('what is folded stands too high');
    if (document.documentElement.scrollWidth > document.documentElement.clientWidth) faults.push('it scrolls sideways');
    return faults.join('; ')";

impl Bench {
    /// A fish of the list delivered whole, on a bench that lacks what is named; where its cuts are.
    fn to_be_cut(&self, species: &str, missing: &[&str]) -> String {
        self.go("#/");
        self.tap("Start a fish");
        self.at_stage("delivery");
        self.pick("#species", species);
        self.tap("Whole");
        self.fill("#price", "15.40");
        self.unfold();
        for kit in missing {
            self.tap(kit);
        }
        self.fish_place()
    }

    /// Looks at every cut in turn, at both sizes; what it is called, and whether something is cut.
    fn look_at_cuts(&self, fish: &str, name: &str, count: usize) -> Vec<(String, bool)> {
        let mut faults = Vec::new();
        let mut seen = Vec::new();
        for step in 1..=count {
            self.go(&format!("{fish}/fillet/{step}"));
            self.see(&format!("{step} of {count}"));
            self.until(
                "nothing was drawn",
                "return Boolean(document.querySelector('.cutbox svg'))",
                &[],
            );
            for size in [SMALL, PHONE] {
                self.resize(size);
                let fault = self.run(FAULT, &[]);
                if fault != json!("") {
                    faults.push(format!("{name} {step}, {}x{}: {fault}", size.0, size.1));
                }
                self.shot(&format!("cut-{name}-{step}-{}", size.0));
            }
            let found = self.run(
                "return [document.querySelector('.page main h1').innerText,
                    Boolean(document.querySelector('.cutpic .cut').getAttribute('d'))]",
                &[],
            );
            seen.push((
                found[0].as_str().unwrap().to_owned(),
                found[1].as_bool().unwrap(),
            ));
        }
        assert!(faults.is_empty(), "{faults:#?}");
        seen
    }
}

#[test]
fn each_cut_is_drawn_and_says_what_to_do_without_a_scroll() {
    let bench = Bench::open(PHONE, Scheme::Light);
    bench.started();
    let round = bench.to_be_cut("gilthead_bream", &["No fish pliers or tweezers"]);
    let seen = bench.look_at_cuts(&round, "round", 14);
    // Where to wipe is not drawn as a cut, and without pliers the V is the step.
    let is_cut = |name: &str| seen.iter().find(|(title, _)| title == name).unwrap().1;
    assert!(!is_cut("Wipe the skin dry") && !is_cut("Rinse and dry the cavity"));
    assert!(is_cut("Pin bones out in a V") && is_cut("Open along the back"));
    bench.go(&format!("{round}/fillet/9"));
    bench.see("The second side");
    bench.until(
        "the second side is not mirrored",
        "return Boolean(document.querySelector('.cutpic g[transform*=\"scale(-1\"]'))",
        &[],
    );
    // What is missing is remembered for the next fish.
    let flat = bench.to_be_cut("flatfish", &[]);
    bench.until(
        "the missing pliers were forgotten",
        "return document.querySelectorAll('details input:checked').length === 1",
        &[],
    );
    let seen = bench.look_at_cuts(&flat, "flat", 12);
    let titles: Vec<_> = seen.iter().map(|(title, _)| title.as_str()).collect();
    assert_eq!(
        titles[5..10],
        [
            "Around the head",
            "Down the middle line",
            "From the middle outwards",
            "The white side",
            "Trim the frilled edge"
        ]
    );
    bench.go(&format!("{flat}/weigh-off-bone"));
    bench.see("All its fillets, untrimmed, same scale.");
    bench.not_see("Only one fillet is weighed");
    assert_eq!(bench.axe(), [""; 0]);
    assert_eq!(bench.console_errors(), [""; 0]);
}
