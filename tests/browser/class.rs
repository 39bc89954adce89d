//! A result goes from a cook's phone to the tutor's board: as letters, as a picture, as a link.

use std::process::Command;

use scaleside::code::day::Day;
use scaleside::code::letters::Code;
use scaleside::code::opening::open;
use scaleside::code::sheet::{Nickname, Sheet, Student};
use scaleside::trade::breakdown::Weights;
use scaleside::trade::mass::Mass;
use serde_json::json;

use crate::bench::{Bench, PHONE, Scheme};

pub const THIRTY: &str = include_str!("../vectors/class_thirty.txt");

/// Puts a text into a field as a paste does.
fn paste(bench: &Bench, selector: &str, text: &str) {
    let script = "const field = document.querySelector(arguments[0]);
        field.value = arguments[1];
        field.dispatchEvent(new Event('input', { bubbles: true }))";
    bench.run(script, &[json!(selector), json!(text)]);
}

pub fn texts(bench: &Bench, selector: &str) -> Vec<String> {
    let script = "return [...document.querySelectorAll(arguments[0])].map((found) => found.innerText.trim())";
    let found = bench.run(script, &[json!(selector)]);
    let found = found.as_array().unwrap().iter();
    found
        .map(|text| text.as_str().unwrap().to_owned())
        .collect()
}

/// The first of the class of thirty, and another result with the same letters and number.
pub fn two_of_one_number() -> String {
    let first = THIRTY.lines().next().unwrap().split_once(": ").unwrap().1;
    let mut sheet = open(first).unwrap().sheet;
    let grams = |grams: i64| Mass::from_mg(grams * 1_000);
    sheet.weights = Weights {
        delivered: grams(702),
        off_bone: Some(grams(366)),
        ready: grams(330),
    };
    format!("{first}\n{}", Code::of(&sheet).unwrap())
}

pub fn class_with(bench: &Bench, text: &str) {
    bench.started();
    bench.tap("For tutors: classes");
    bench.tap_css("#class-name");
    bench.type_keys("Tuesday, first year");
    bench.tap("Start the class");
    bench.see("Paste messages");
    paste(bench, "#pasted", text);
    bench.tap("Add what is pasted");
}

/// The class of the scenario: four to look at again, two corrected, one sent twice. See `outside_class.rs`.
#[test]
fn thirty_codes_pasted_are_a_class() {
    for scheme in Scheme::BOTH {
        let bench = Bench::open(PHONE, scheme);
        class_with(&bench, THIRTY);
        bench.see("29 codes added.");
        bench.see("1 code was here already: line 30.");
        bench.see("Line 8: 2 letters were put right:");
        bench.see("To look at again: 4");
        assert_eq!(
            texts(&bench, ".flagged b"),
            ["COOT 1", "RUFF 1", "SMEW 1", "SORA 1"]
        );
        bench.see("25 results");
        bench.see("Corrected by the student: 2");
        bench.is_sound();
        bench.reload();
        bench.see("25 results");
        bench.tap("COOT 1");
        bench.see("Two weights look changed over");
        bench.is_sound();
        bench.shot("class");
    }
}

/// Two results with the same letters and number: the tutor says what they are, takes it back, and finds it after a reload.
#[test]
fn a_correction_or_another_fish_is_asked_and_answered() {
    for scheme in Scheme::BOTH {
        let bench = Bench::open(PHONE, scheme);
        class_with(&bench, &two_of_one_number());
        bench.see("A correction, or another fish?");
        bench.see("Delivered 648 g, then 702 g");
        bench.see("fish, form and price the same");
        assert_eq!(texts(&bench, ".board .opener b"), ["TERN 1", "TERN 1?"]);
        bench.is_sound();
        bench.shot("asked");
        bench.tap("These are two students");
        bench.not_see("A correction, or another fish?");
        bench.see("TERN B 1: another student");
        assert_eq!(texts(&bench, ".board .opener b"), ["TERN 1", "TERN B 1"]);
        bench.reload();
        bench.see("TERN B 1: another student");
        bench.is_sound();
        bench.tap("Take back");
        bench.see("A correction, or another fish?");
        bench.tap("A correction");
        bench.see("Corrected by the student: 1");
        assert_eq!(texts(&bench, ".board .opener b"), ["TERN 1"]);
        bench.tap("Another fish");
        bench.see("TERN 1B: another fish");
        bench.is_sound();
    }
}

/// One fish and form at a time; what is set aside stands below, and a tap sets it side by side.
#[test]
fn the_board_shows_one_fish_and_form_at_a_time() {
    for scheme in Scheme::BOTH {
        let bench = Bench::open(PHONE, scheme);
        class_with(&bench, THIRTY);
        bench.see("25 results");
        bench.see("Set aside: another fish or form");
        bench.run(
            "document.querySelector('.aside').scrollIntoView({ block: 'center' })",
            &[],
        );
        bench.shot("class_lots");
        bench.tap_in(".aside", "Rainbow trout, gutted");
        bench.see("1 result");
        bench.see("Fewer than three: no spread is shown.");
        assert_eq!(texts(&bench, ".board .opener b"), ["TERN 1"]);
        bench.is_sound();
        bench.pick("#lot", "0");
        bench.see("25 results");
        bench.tap("WREN 1");
        bench.see("came off up to the bone than in the class");
        bench.is_sound();
        bench.run(
            "document.querySelector('.causes').scrollIntoView({ block: 'center' })",
            &[],
        );
        bench.shot("class_why");
    }
}

#[test]
fn dots_and_table_sort_together_and_a_removed_class_is_gone() {
    let bench = Bench::open(PHONE, Scheme::Light);
    class_with(&bench, THIRTY);
    bench.see("25 results");
    for (head, times, first) in [
        ("Yield", 1, "WREN 1"),
        ("Yield", 1, "HAWK 1"),
        ("Student", 1, "COOT 1"),
    ] {
        for _ in 0..times {
            bench.tap(head);
        }
        let names = "const first = (found) => document.querySelector(found).textContent;
            return first('.opener b') === arguments[0] && first('.plot text') === arguments[0]";
        bench.until(format!("{first} never came first"), names, &[json!(first)]);
    }
    bench.tap("Name, or remove the class");
    bench.tap("Remove this class");
    bench.see("They stay in the bin for 30 days.");
    bench.tap("Remove it");
    bench.at("#/classes");
    bench.not_see("Tuesday, first year");
    bench.reload();
    bench.started();
    bench.not_see("Tuesday, first year");
}

#[test]
fn a_typed_code_shows_where_it_is_wrong() {
    let bench = Bench::open(PHONE, Scheme::Light);
    class_with(&bench, "nothing in it");
    bench.see("1 line holds no code.");
    let code = THIRTY.lines().next().unwrap().split_once(": ").unwrap().1;
    let mut groups: Vec<&str> = code.split('-').collect();
    let whole = groups[2];
    groups[2] = &whole[..2];
    bench.tap_css("#adding summary");
    paste(&bench, "#one-code", &groups.join(" "));
    bench.tap("Add this code");
    bench.see("Group 3 is short: every group has four letters.");
    assert_eq!(texts(&bench, ".typed .wrong"), [&whole[..2]]);
    bench.is_sound();
    groups[2] = whole;
    // As the screen of the code numbers its groups.
    let numbered: String = (1..)
        .zip(&groups)
        .map(|(nth, group)| format!("{nth}. {group} "))
        .collect();
    paste(&bench, "#one-code", &numbered);
    bench.tap("Add this code");
    bench.see("1 code added.");
    bench.see("1 result");
}

/// The demo weighed, its code opened again by the other way: the picture, read by another program.
#[test]
fn a_result_travels_as_a_picture_and_as_a_link() {
    for scheme in Scheme::BOTH {
        let bench = Bench::open(PHONE, scheme);
        bench.started();
        bench.tap("Open the demo");
        bench.tap("Take this weight");
        let address = bench.address();
        let fish = address
            .split("/fish/")
            .nth(1)
            .unwrap()
            .split('/')
            .next()
            .unwrap();
        bench.go(&format!("#/fish/{fish}/weigh-ready"));
        bench.tap_css("input[type=radio][name=raw]");
        bench.tap("Take this weight");
        bench.go(&format!("#/fish/{fish}"));
        bench.tap("Send the result");
        bench.at(&format!("#/fish/{fish}/code"));
        bench.tap_css("#nickname");
        bench.type_keys("tern");
        bench.see("Read it out");
        bench.is_sound();

        let code = texts(&bench, ".groups b").join("-");
        let opened = open(&code).unwrap();
        assert!(opened.mended.is_empty());
        let student = opened.sheet.student.unwrap();
        assert_eq!(
            (student.nickname.to_string().as_str(), student.test),
            ("TERN", 1)
        );
        let centre = "document.querySelector('.qr').scrollIntoView({ block: 'center' })";
        bench.run(centre, &[]);
        let picture = bench.shot("code");
        let script = concat!(env!("CARGO_MANIFEST_DIR"), "/tests/browser/scripts/qr.js");
        let read = Command::new("node")
            .arg(script)
            .arg(picture)
            .output()
            .unwrap();
        assert!(
            read.status.success(),
            "{}",
            String::from_utf8_lossy(&read.stderr)
        );
        let link = String::from_utf8(read.stdout).unwrap();
        assert_eq!(
            link,
            format!("{}{}", bench.site.address(), opened.code.link())
        );

        bench.go(&opened.code.link());
        bench.see("TERN 1: gilthead bream");
        bench.is_sound();
        bench.tap("Add to a new class");
        bench.see("1 result");
    }
}

#[test]
fn a_code_that_does_not_open_says_why() {
    let bench = Bench::open(PHONE, Scheme::Light);
    for (letters, said) in [
        ("3M7N", "cut short"),
        ("", "Type the code"),
        (&"7Q".repeat(20), "Too many letters are wrong"),
    ] {
        bench.go(&format!("#/c/{letters}"));
        bench.see("This code does not open");
        bench.see(said);
        bench.is_sound();
    }
}

/// What does not open stands first, with its line and what was written there, until it comes whole; a letter that is missing
/// is filled in.
#[test]
fn what_does_not_open_stands_first_until_it_is_settled() {
    let bench = Bench::open(PHONE, Scheme::Light);
    let code = |nth: usize| THIRTY.lines().nth(nth).unwrap().split_once(": ").unwrap().1;
    let mut groups: Vec<&str> = code(0).split('-').collect();
    groups.remove(6);
    let private =
        "IBAN GB29 NWBK 6016 1331 9268 19\nMessage-ID: <20260309-11AB.7K3M9Q2Y@mail.example>";
    let numbered: String = (1..)
        .zip(code(1).split('-'))
        .map(|(nth, group)| format!("{nth}. {group}\n"))
        .collect();
    let short = code(2).replacen(|c: char| c.is_ascii_digit(), "", 1);
    let text = format!(
        "{private}\nTern says {} sorry\n{numbered}Kite: {short}\n",
        groups.join("-")
    );
    class_with(&bench, &text);
    bench.see("2 codes added.");
    bench.see("1 looks like a code and does not open");
    bench.see("One letter was missing: 2 in group 1.");
    bench.see("Not opened: 1");
    bench.see("Group 7 is missing, and the others fit together: ask for group 7.");
    bench.see(&format!("Line 3: Tern says {} sorry", groups.join("-")));
    let first = "return document.querySelector('.page main h2').textContent";
    assert_eq!(bench.run(first, &[]), json!("Not opened: 1"));
    bench.is_sound();
    bench.shot("unopened");
    let kept = bench.run("return JSON.stringify(Object.entries(localStorage))", &[]);
    let kept = kept.as_str().unwrap();
    assert!(kept.contains(groups[0]) && !kept.contains("NWBK") && !kept.contains("7K3M9Q2Y"));
    assert!(!kept.contains("sorry"));
    bench.reload();
    bench.see("Not opened: 1");
    bench.tap("Add codes");
    paste(&bench, "#pasted", code(0));
    bench.tap("Add what is pasted");
    bench.see("1 that did not open came again whole.");
    bench.see("3 results");
    bench.not_see("Not opened");
}

/// All invented: one student after the other, a gram apart.
fn many(count: u16) -> String {
    let first = THIRTY.lines().next().unwrap().split_once(": ").unwrap().1;
    let sheet = open(first).unwrap().sheet;
    (0..count)
        .map(|nth| {
            let nickname = Nickname::numbered(u32::from(nth)).unwrap();
            let sheet = Sheet {
                day: Day::new(2_000 + nth % 300).unwrap(),
                student: Some(Student { nickname, test: 1 }),
                ..sheet.clone()
            };
            format!("{nickname}: {}\n", Code::of(&sheet).unwrap())
        })
        .collect()
}

#[test]
fn two_thousand_codes_are_one_class() {
    let bench = Bench::open(PHONE, Scheme::Light);
    class_with(&bench, &many(2_000));
    bench.see("2000 results");
    assert_eq!(texts(&bench, ".opener b").len(), 50);
    bench.tap("Show more: 1950 left");
    bench.see("Show more: 1900 left");
    assert_eq!(texts(&bench, ".opener b").len(), 100);
}
