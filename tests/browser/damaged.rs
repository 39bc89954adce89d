//! Stored copies of every kind, damaged in every way that disks and hands know: the page starts, and says that something
//! could not be read, and of what kind it is.

use std::fs;
use std::path::Path;

use serde_json::json;

use crate::bench::{Bench, PHONE, Scheme};

/// Each kind as it is called in a key, and in a sentence.
const KINDS: [(&str, &str); 7] = [
    ("fish", "fish"),
    ("recipe", "dish"),
    ("class", "class"),
    ("pan", "pan"),
    ("credit", "result number"),
    ("quote", "price"),
    ("settings", "setting"),
];

/// What is done to a text.
const DAMAGES: [(&str, &str); 8] = [
    ("cut in halves", "text.slice(0, text.length / 2)"),
    ("its last letter gone", "text.slice(0, -1)"),
    (
        "one letter another one",
        "text.replace(/[a-z](?=[^a-z]*$)/, (letter) => letter === 'q' ? 'z' : 'q')",
    ),
    (
        "its counter another one",
        "text.replace(/\"counter\":\\d+/, '\"counter\":18446744073709551615')",
    ),
    ("emptied", "''"),
    ("somebody else's", "'{\"score\":12}'"),
    ("whole, and of no kind", "SEALED"),
    ("nothing but noughts", "'\\u0000'.repeat(text.length)"),
];

/// A text that is whole by its checksum and holds no record: worked out by a program that knows nothing of this one.
fn sealed(body: &str) -> String {
    let sum = crc32fast::hash(format!("1\n5\n1\n{body}").as_bytes());
    format!("{{\"format\":1,\"counter\":5,\"build\":1,\"sum\":\"{sum:08x}\",\"body\":{body}}}")
}

fn sample(kind: &str) -> String {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/vectors/stored_format_1");
    fs::read_to_string(folder.join(format!("{kind}.first.json"))).unwrap()
}

#[test]
fn a_damaged_copy_of_any_kind_in_any_way_is_told_of() {
    let bench = Bench::open(PHONE, Scheme::Light);
    bench.command("Page.enable", json!({}));
    // The second home would bring it back whole: here there is none.
    bench.before_each_load("Object.defineProperty(window, 'indexedDB', { value: undefined })");
    bench.reload();
    bench.started();
    let mut told = 0;
    for (kind, noun) in KINDS {
        let id = if kind == "settings" { "mine" } else { "k3f9" };
        for (how, damage) in DAMAGES {
            println!("a {noun}, {how}");
            let script = format!(
                "localStorage.clear();
                const text = arguments[0];
                localStorage.setItem('scaleside/1/{kind}/{id}/a', {});",
                damage.replace("SEALED", &json!(sealed("[7]")).to_string())
            );
            bench.run(&script, &[json!(sample(kind))]);
            bench.reload();
            bench.started();
            bench.see(&format!(
                "One stored copy ({noun}) on this phone could not be read."
            ));
            let aside = "return Object.keys(localStorage).filter((key) => key.startsWith('scaleside/aside/')).length";
            assert_eq!(bench.run(aside, &[]), json!(1), "it was not set aside");
            told += 1;
        }
    }
    println!("{told} damaged starts: all were told of");
    assert_eq!(bench.console_errors(), [""; 0]);
}
