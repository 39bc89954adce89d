//! What leaves the app: a file, the clipboard, the share sheet, a link with a letter wrong.

use serde_json::json;

use crate::bench::{Bench, PHONE, Scheme};
use crate::class::{THIRTY, class_with, texts};
use crate::cook::SNAPPER;

/// The demo weighed, on the screen of its code.
fn at_the_code(bench: &Bench) {
    bench.started();
    bench.tap("Open the demo");
    bench.tap("Take this weight");
    let address = bench.address();
    let fish = address.split('/').rev().nth(2).unwrap().to_owned();
    bench.go(&format!("#/fish/{fish}/weigh-ready"));
    bench.tap_css("input[type=radio][name=raw]");
    bench.tap("Take this weight");
    bench.go(&format!("#/fish/{fish}/code"));
    bench.tap_css("#nickname");
    bench.type_keys("tern");
    bench.see("Read it out");
}

#[test]
fn a_class_is_saved_as_a_table() {
    let bench = Bench::open(PHONE, Scheme::Light);
    class_with(&bench, THIRTY);
    bench.see("25 results");
    bench.tap("Class sheet");
    bench.tap("Save as a table (CSV)");
    let saved = std::fs::read_to_string(bench.saved("Tuesday--first-year.csv")).unwrap();
    let table = saved.strip_prefix('\u{feff}').unwrap();
    let rows: Vec<csv::StringRecord> = csv::Reader::from_reader(table.as_bytes())
        .records()
        .collect::<Result<_, _>>()
        .unwrap();
    assert_eq!(rows.len(), 27);
    assert!(rows.iter().any(|row| row.iter().any(|cell| cell == "COOT")));
    bench.not_see("did not take");
}

#[test]
fn a_code_goes_to_the_clipboard() {
    let bench = Bench::open(PHONE, Scheme::Light);
    let allowed = json!({ "permissions": ["clipboardReadWrite", "clipboardSanitizedWrite"] });
    bench.command("Browser.grantPermissions", allowed);
    at_the_code(&bench);
    bench.run(
        "Object.defineProperty(navigator, 'share', { value: undefined })",
        &[],
    );
    bench.tap("Copy the code");
    bench.see("Copied: paste it into a message.");
    let copied = bench.run("return navigator.clipboard.readText()", &[]);
    assert_eq!(copied, json!(texts(&bench, ".groups b").join("-")));
    bench.tap("Copy the link");
    let link = "return navigator.clipboard.readText().then((text) => text === document.querySelector('a.link').href)";
    bench.until("the link was not copied", link, &[]);
    bench.is_sound();
}

/// There is no share sheet in a browser without a screen, so one stands in for it.
#[test]
fn a_code_goes_to_the_share_sheet() {
    let bench = Bench::open(PHONE, Scheme::Light);
    let sheet = "navigator.share = async (given) => {
        if (window.refuses) throw new DOMException('no', 'AbortError');
        window.given = given;
    }";
    bench.run(sheet, &[]);
    at_the_code(&bench);
    bench.tap("Share the code");
    bench.see("Handed on.");
    let given = bench.run("return window.given", &[]);
    assert_eq!(given["text"], json!(texts(&bench, ".groups b").join("-")));
    assert_eq!(given["url"], json!(texts(&bench, "a.link")[0]));
    bench.run("window.refuses = true", &[]);
    bench.tap("Share the code");
    bench.see("The browser did not take it");
}

#[test]
fn a_link_with_a_letter_wrong_opens_and_says_which() {
    let bench = Bench::open(PHONE, Scheme::Light);
    let code = THIRTY.lines().next().unwrap().split_once(": ").unwrap().1;
    let mut letters = code.replace('-', "");
    let wrong = if letters.starts_with('9') { "8" } else { "9" };
    letters.replace_range(..1, wrong);
    bench.go(&format!("#/c/{letters}"));
    bench.see("TERN 1: gilthead bream");
    bench.see("One letter was put right: 2 in group 1");
    bench.is_sound();
}

/// A fish of the cook's own, weighed, on the screen of its code. Returns its address.
fn snapper(bench: &Bench, ready: &str) -> String {
    bench.go("#/");
    bench.start_fish(&SNAPPER);
    let place = bench.fish_place();
    bench.go(&format!("{place}/weigh-whole"));
    bench.key("1200");
    bench.tap("Take this weight");
    bench.go(&format!("{place}/weigh-ready"));
    bench.tap_css("input[type=radio][name=raw]");
    bench.key(ready);
    bench.tap("Take this weight");
    bench.go(&format!("{place}/code"));
    bench.see("Read it out");
    place
}

/// Two students share a phone: each fish keeps the letters and the number that its code was shown with, reloaded, with
/// the other's typed meanwhile, with fish removed.
#[test]
fn each_fish_keeps_its_student_and_no_number_comes_again() {
    let bench = Bench::open(PHONE, Scheme::Light);
    bench.started();
    let first = snapper(&bench, "520");
    bench.fill("#nickname", "tern");
    bench.has("#test", "1");
    let code = texts(&bench, ".groups b");
    let second = snapper(&bench, "504");
    bench.has("#nickname", "TERN");
    bench.has("#test", "2");
    bench.fill("#nickname", "gull");
    bench.has("#test", "1");
    bench.go(&format!("{first}/code"));
    bench.has("#nickname", "TERN");
    assert_eq!(texts(&bench, ".groups b"), code);
    bench.go(&format!("{second}/code"));
    bench.has("#nickname", "GULL");
    bench.reload();
    bench.has("#nickname", "GULL");
    bench.is_sound();
    bench.shot("whose");
    // A result that was sent is removed: its number stays given.
    bench.go(&second);
    bench.tap("Remove this fish…");
    bench.tap("Remove it");
    let third = snapper(&bench, "512");
    bench.has("#nickname", "GULL");
    bench.has("#test", "2");
    bench.pick("#test", "1");
    bench.see("Number 1 of GULL was given to another fish");
    bench.pick("#test", "2");
    bench.not_see("was given to another fish");
    // Put right on another day, it leaves its number behind.
    bench.go(&format!("{first}/code"));
    bench.fill("#nickname", "wren");
    bench.has("#test", "1");
    bench.go(&format!("{third}/code"));
    bench.fill("#nickname", "tern");
    bench.has("#test", "2");
    bench.is_sound();
}

#[test]
fn the_list_of_classes_is_clean_when_it_is_empty() {
    for scheme in Scheme::BOTH {
        let bench = Bench::open(PHONE, scheme);
        bench.go("#/classes");
        bench.see("Start the class");
        bench.is_sound();
    }
}
