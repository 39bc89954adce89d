//! Input that means harm: nothing of it runs, nothing is lost, and the page goes on answering.

use serde_json::json;
use thirtyfour::Key;

use crate::bench::{Bench, PHONE, Scheme};
use crate::cook::SNAPPER;

/// Runs if any text of a cook's ever becomes part of the page itself.
const SCRIPT: &str = "\"'><img src=x onerror=\"window.ran = 1\"><script>window.ran = 1</script>{{1}}javascript:window.ran=1";

/// Sets every text field of the screen, and tells the page as typing does.
const SET_ALL: &str = "for (const field of document.querySelectorAll('input[type=text], textarea')) {
        field.value = arguments[0];
        for (const kind of ['input', 'change']) field.dispatchEvent(new Event(kind, { bubbles: true }));
    }
    return document.querySelectorAll('input[type=text], textarea').length";

impl Bench {
    #[track_caller]
    fn nothing_ran(&self) {
        assert_eq!(self.run("return window.ran ?? null", &[]), json!(null));
        assert_eq!(
            self.run(
                "return document.querySelectorAll('main script, main img[src=x]').length",
                &[]
            ),
            json!(0)
        );
        assert_eq!(self.console_errors(), [""; 0]);
    }
}

#[test]
fn script_in_every_text_field_is_text() {
    let bench = Bench::open(PHONE, Scheme::Light);
    bench.start_fish(&SNAPPER);
    let place = bench.fish_place();
    let mut fields = 0;
    bench.pick("#species", "another");
    for screen in ["delivery", "yield", "pass", "journal", "code", ""] {
        bench.go(format!("{place}/{screen}").trim_end_matches('/'));
        bench.started();
        fields += bench.run(SET_ALL, &[json!(SCRIPT)]).as_u64().unwrap();
        bench.nothing_ran();
    }
    bench.go("#/classes");
    bench.started();
    fields += bench
        .run(SET_ALL, &[json!("<img src=x onerror='window.ran=1'>")])
        .as_u64()
        .unwrap();
    bench.tap("Start the class");
    bench.see("<img src=x onerror='window.ran=1'>");
    fields += bench.run(SET_ALL, &[json!(SCRIPT)]).as_u64().unwrap();
    bench.nothing_ran();
    bench.go(&place);
    bench.reload();
    bench.started();
    bench.tap("Remove this fish…");
    bench.tap("Remove it");
    for screen in ["#/", "#/bin", "#/kept", "#/classes"] {
        bench.go(screen);
        bench.reload();
        bench.started();
        bench.nothing_ran();
    }
    bench.go("#/bin");
    bench.see("<script>window.ran = 1</script>");
    assert!(fields >= 6, "{fields} fields");
}

#[test]
fn an_address_made_to_confuse_opens_nothing() {
    let bench = Bench::open(PHONE, Scheme::Light);
    bench.start_fish(&SNAPPER);
    // What the clock notes every few seconds is no entry.
    let before = "return JSON.stringify(Object.entries(localStorage).filter(([key]) => key !== 'scaleside clock').sort())";
    let kept = bench.run(before, &[]);
    let long = "A".repeat(200_000);
    for place in [
        "#/c/<img src=x onerror=window.ran=1>",
        "#/c/%3Cscript%3Ewindow.ran=1%3C/script%3E",
        "#/c/javascript:window.ran=1",
        "#/c/\u{202e}3M7N-9Q\u{200b}",
        &format!("#/c/{long}"),
        "#/fish/../../x/yield",
        "#/fish/__proto__/yield",
        &format!("#/fish/{}/yield", "a".repeat(64)),
        "#/bin/../../x",
    ] {
        bench.run("location.hash = arguments[0]", &[json!(place)]);
        bench.started();
        bench.nothing_ran();
        let answers = "return new Promise((done) => setTimeout(() => done(document.querySelector('main h1') !== null)))";
        assert_eq!(
            bench.run(answers, &[]),
            json!(true),
            "{}",
            place.get(..40).unwrap_or(place)
        );
    }
    assert_eq!(bench.run(before, &[]), kept);
}

impl Bench {
    /// Copies a line so many times, as from another app, and pastes it into a field with the keyboard.
    #[track_caller]
    fn pastes(&self, field: &str, line: &str, times: usize) {
        let allowed = json!({ "origin": self.site.origin(), "permissions": ["clipboardReadWrite", "clipboardSanitizedWrite"] });
        self.command("Browser.grantPermissions", allowed);
        let copy = "const [field, line, times] = arguments;
            window.longest = 0;
            new PerformanceObserver((list) => {
                for (const task of list.getEntries()) window.longest = Math.max(window.longest, task.duration);
            }).observe({ type: 'longtask' });
            return navigator.clipboard.writeText(line.repeat(times)).then(() => {
                window.longest = 0;
                document.querySelector(field).focus();
            })";
        self.run(copy, &[json!(field), json!(line), json!(times)]);
        self.type_keys(Key::Control + "v");
    }
}

/// The longest task is told, and never asserted.
#[test]
fn a_paste_of_a_million_lines_leaves_the_page_answering() {
    let bench = Bench::open(PHONE, Scheme::Light);
    bench.go("#/classes");
    bench.fill("#class-name", "Tuesday");
    bench.tap("Start the class");
    bench.see("Add codes");
    let plain = "a line of a million, with no code in it\n";
    bench.pastes("#pasted", plain, 1_000_000);
    bench.see("Reading…");
    // While it is read, taps are answered and the field is as it was.
    bench.has("#pasted", "");
    bench.tap("Name, or remove the class");
    bench.see("Name of the class");
    bench.see("25000 lines hold no code.");
    bench.see("The text was too long: it was read up to line 25001.");
    let longest = "return Math.round(window.longest)";
    println!("longest task: {} ms", bench.run(longest, &[]));

    // Every line looks like a code: it is counted, and stands once, with its reason, before all else.
    bench.tap("Add codes");
    bench.pastes(
        "#pasted",
        "7Q2MA4Z933KK7Q2MA4Z933KQ, 7Q2M-A4Z9-33KK-9Q2M and over\n",
        18_000,
    );
    bench.see("36000 look like codes and do not open");
    bench.see("Not opened: 2");
    println!("longest task: {} ms", bench.run(longest, &[]));
    assert_eq!(bench.axe(), [""; 0]);

    // No other field takes as much, and what stood in it stays.
    bench.go("#/");
    bench.start_fish(&SNAPPER);
    bench.go(&format!("{}/journal", bench.fish_place()));
    bench.fill("#change", "Dry it longer.");
    bench.pastes("#change", plain, 1_000_000);
    bench.see("That is more text than a field takes, and nothing was pasted.");
    bench.has("#change", "Dry it longer.");
    println!("longest task: {} ms", bench.run(longest, &[]));
    // What is short enough for a field and too long to keep is refused beside it.
    bench.pastes("#change", plain, 100);
    bench.see("That is too long to keep: shorten it to 2,000 letters.");
    bench.reload();
    bench.has("#change", "Dry it longer.");
    assert_eq!(bench.console_errors(), [""; 0]);
}
