//! How the fillets were made: asked where it matters, answered by touch or not at all, and told to the tutor.

use scaleside::base::filleted::FilletAnswer;
use scaleside::code::letters::Code;
use scaleside::code::opening::open;
use scaleside::code::sheet::{Nickname, Student, Technique};
use scaleside::trade::mass::Mass;
use serde_json::json;

use crate::bench::{Bench, PHONE, Scheme, Size};
use crate::class::{THIRTY, class_with};
use crate::touch::Finger;

const SMALL: Size = Size(320, 568);

impl Bench {
    /// The words of what is chosen on the screen, one for each question.
    fn chosen(&self) -> Vec<String> {
        let script = "return [...document.querySelectorAll('main fieldset input:checked')]
            .map((one) => one.parentElement.innerText.trim())";
        serde_json::from_value(self.run(script, &[])).unwrap()
    }

    #[track_caller]
    fn is_chosen(&self, words: &[&str]) {
        self.until(
            format!("{words:?} is not chosen, but {:?}", self.chosen()),
            "return JSON.stringify([...document.querySelectorAll('main fieldset input:checked')]
                .map((one) => one.parentElement.innerText.trim())) === JSON.stringify(arguments[0])",
            &[json!(words)],
        );
    }

    /// The screen as it is, sound on two phones.
    fn is_looked_at(&self, name: &str) {
        for size in [SMALL, PHONE] {
            self.resize(size);
            self.is_sound();
            self.shot(&format!("{name}-{}", size.0));
        }
    }
}

/// Asked at the cut, answered with one tap, taken back with another; what stands beside the ready weight is what the code
/// tells.
#[test]
fn what_is_answered_at_the_bench_is_read_by_the_tutor() {
    for scheme in Scheme::BOTH {
        let bench = Bench::open(PHONE, scheme);
        bench.started();
        bench.command(
            "Emulation.setTouchEmulationEnabled",
            json!({ "enabled": true }),
        );
        let mut finger = Finger::default();
        bench.tap("Open the demo");
        bench.at_stage("weigh-whole");
        let fish = bench.fish_place();
        bench.tap("Take this weight");
        bench.at_stage("fillet/1");
        // This bench has no flexible knife: which one cut is not asked.
        bench.go(&format!("{fish}/fillet/5"));
        bench.see("5 of 12");
        assert_eq!(bench.chosen(), [""; 0]);
        bench.go(&format!("{fish}/fillet/9"));
        bench.see("Left in");
        bench.is_chosen(&["Pulled"]);
        bench.is_looked_at("filleted-pins");
        bench.touch(
            &mut finger,
            "label:has(input[name=\"pin bones\"]):nth-of-type(3)",
            "",
        );
        bench.is_chosen(&["Left in"]);
        bench.touch(
            &mut finger,
            "label:has(input[name=\"pin bones\"]):nth-of-type(2)",
            "",
        );
        bench.is_chosen(&["Cut out"]);
        bench.reload();
        bench.is_chosen(&["Cut out"]);
        bench.go(&format!("{fish}/fillet/11"));
        bench.see("Taken off");
        bench.is_chosen(&["Left on"]);
        bench.go(&format!("{fish}/weigh-off-bone"));
        bench.tap("Take this weight");
        bench.go(&format!("{fish}/weigh-ready"));
        bench.see("Skin on, pin bones cut out, stiff knife.");
        bench.touch(&mut finger, "", "Filleted otherwise?");
        bench.see("Taken off");
        bench.is_looked_at("filleted-ready");
        bench.touch(
            &mut finger,
            "label:has(input[name=skin]):nth-of-type(2)",
            "",
        );
        bench.see("Skin off, pin bones cut out, stiff knife.");
        bench.touch(&mut finger, "label:has(input[name=raw]):nth-of-type(1)", "");
        bench.touch(&mut finger, ".dock .next", "");
        bench.at_stage("yield");
        bench.go(&format!("{fish}/card"));
        bench.see("skin off, pin bones cut out, stiff knife");
        bench.go(&format!("{fish}/code"));
        bench.see("Read it out");
        let code = bench.run(
            "return [...document.querySelectorAll('.groups b')].map((group) => group.innerText).join('-')",
            &[],
        );
        let code = code.as_str().unwrap();
        let opened = open(code).unwrap();
        let Technique::Told(told) = &opened.sheet.technique else {
            panic!("{code} tells nothing");
        };
        assert_eq!(told.told(), "skin off, pin bones cut out, stiff knife");
        bench.go(&format!("#/c/{code}"));
        bench.tap("The readings in the code");
        bench.see("skin off, pin bones cut out, stiff knife");
        // One of version 1 says that nobody told.
        let first = THIRTY.lines().next().unwrap().split_once(": ").unwrap().1;
        bench.go(&format!("#/c/{first}"));
        bench.tap("The readings in the code");
        bench.see("not told");
        println!(
            "filleted: {} taps, scrolls {:?}",
            finger.taps, finger.scrolls
        );
    }
}

/// A flat fish is asked how many fillets it gave, and nothing of pin bones.
#[test]
fn a_flat_fish_is_asked_of_its_fillets() {
    let bench = Bench::open(PHONE, Scheme::Light);
    bench.started();
    bench.tap("Start a fish");
    bench.at_stage("delivery");
    bench.pick("#species", "plaice");
    bench.tap("Whole");
    bench.fill("#price", "15.40");
    let fish = bench.fish_place();
    let mut asked = Vec::new();
    for step in 1..=12 {
        bench.go(&format!("{fish}/fillet/{step}"));
        bench.see(&format!("{step} of "));
        bench.until(
            "nothing was drawn",
            "return Boolean(document.querySelector('.cutbox svg'))",
            &[],
        );
        let chosen = bench.chosen();
        if chosen.len() == 2 {
            bench.is_looked_at("filleted-flat");
        }
        asked.extend(chosen);
    }
    assert_eq!(asked, ["Four", "Flexible", "Left on"]);
}

/// Of six bream, what was told parts the class, and three make a spread.
#[test]
fn a_class_is_parted_by_what_was_told() {
    let bench = Bench::open(PHONE, Scheme::Light);
    let first = THIRTY.lines().next().unwrap().split_once(": ").unwrap().1;
    let codes = (0..6_u32).map(|nth| {
        let mut sheet = open(first).unwrap().sheet;
        let pins = [FilletAnswer::PinBonesPulled, FilletAnswer::PinBonesCut];
        if nth < 5 {
            let pins = pins[usize::from(nth > 2)];
            sheet.technique = Technique::Told([FilletAnswer::SkinOn, pins].into_iter().collect());
        }
        sheet.weights.delivered = Mass::from_mg(640_000 + i64::from(nth) * 9_000);
        sheet.student = Some(Student {
            nickname: Nickname::numbered(700 + nth).unwrap(),
            test: 1,
        });
        Code::of(&sheet).unwrap().to_string()
    });
    class_with(&bench, &codes.collect::<Vec<_>>().join("\n"));
    bench.see("6 codes added.");
    bench.see("How they spread");
    bench.pick("#parting", "0");
    bench.see("Pin bones pulled");
    bench.see("Pin bones cut out");
    bench.see("Pin bones not told");
    let spread = "return [...document.querySelectorAll('.group')].map((group) => group.querySelector('table') !== null)";
    assert_eq!(bench.run(spread, &[]), json!([true, false, false]));
    bench.is_sound();
    bench.shot("filleted-class");
    bench.tap("Class sheet");
    // What is for paper is not seen on the screen.
    let cells =
        "return [...document.querySelectorAll('.paper td.say')].map((cell) => cell.textContent)";
    let cells: Vec<String> = serde_json::from_value(bench.run(cells, &[])).unwrap();
    for words in [
        "skin on, pin bones pulled",
        "skin on, pin bones cut out",
        "not told",
    ] {
        assert!(cells.iter().any(|cell| cell == words), "{words}: {cells:?}");
    }
    bench.is_sound();
}
