//! Input that means harm: nothing of it runs, nothing is lost, and the page goes on answering.

use serde_json::json;

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
    let before = "return JSON.stringify(Object.entries(localStorage).sort())";
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

#[test]
fn a_paste_of_a_million_lines_leaves_the_page_answering() {
    let bench = Bench::open(PHONE, Scheme::Light);
    bench.go("#/classes");
    bench.fill("#class-name", "Tuesday");
    bench.tap("Start the class");
    bench.see("Add codes");
    bench.tap_css("#adding summary");
    let paste = "const field = document.querySelector('#pasted');
        window.longest = 0;
        let last = performance.now();
        const beat = () => { const now = performance.now(); window.longest = Math.max(window.longest, now - last); last = now; setTimeout(beat, 50); };
        beat();
        field.value = 'a line of a million, with no code in it\\n'.repeat(1_000_000);
        field.dispatchEvent(new Event('input', { bubbles: true }));
        return true";
    bench.run(paste, &[]);
    bench.tap("Back");
    bench.at("#/classes");
    bench.see("Tuesday");
    println!(
        "longest pause: {} ms",
        bench.run("return Math.round(window.longest)", &[])
    );
    assert_eq!(bench.console_errors(), [""; 0]);
}
