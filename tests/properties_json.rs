//! What is stored is read as `serde_json` reads it, which is the judge here: from the samples of what earlier builds
//! stored, cut off at every place and with every byte changed, and from texts made at random.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::indexing_slicing,
    clippy::panic,
    missing_docs
)]

use std::collections::BTreeMap;
use std::fmt::Debug;
use std::path::Path;

use proptest::prelude::*;
use scaleside::base::json::{self, Misread};
use scaleside::cards::pan::KeptPan;
use scaleside::fish::record::Fish;
use scaleside::store::envelope::open;
use serde::de::DeserializeOwned;
use serde::{Deserialize, Serialize};
use serde_json::Value;
use serde_json::value::RawValue;

/// Everything that a stored kind asks for, and more.
#[derive(Debug, PartialEq, Serialize, Deserialize)]
enum Asked {
    Nothing,
    One(Option<i8>),
    Two(u16, char),
    Named { yes: bool, figure: f64 },
    Many(Vec<(String, u64)>),
    By(BTreeMap<String, ()>),
    Kept(Box<RawText>),
}

#[derive(Debug, Serialize, Deserialize)]
struct RawText(Box<RawValue>);

impl PartialEq for RawText {
    fn eq(&self, other: &Self) -> bool {
        self.0.get() == other.0.get()
    }
}

fn same<T: DeserializeOwned + PartialEq + Debug>(text: &str) {
    let (judged, read) = both::<T>(text);
    // It takes a nought below nought for a fraction.
    let alike = judged.as_ref().ok() == read.as_ref().ok() || text.contains("-0");
    assert!(alike, "{text}: {judged:?}, and read as {read:?}");
}

fn both<T: DeserializeOwned>(text: &str) -> (serde_json::Result<T>, Result<T, Misread>) {
    (serde_json::from_str(text), json::read(text))
}

/// The bodies of the samples, fish and pans.
fn samples(kind: &str) -> Vec<String> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/vectors/stored_format_1");
    let files = std::fs::read_dir(folder).unwrap().map(|file| file.unwrap());
    let ours = files.filter(|file| file.file_name().to_string_lossy().starts_with(kind));
    let texts = ours.map(|file| std::fs::read_to_string(file.path()).unwrap());
    texts
        .map(|text| open(text.trim()).unwrap().body.to_owned())
        .collect()
}

fn harmed<T: DeserializeOwned + PartialEq + Debug>(text: &str) {
    same::<T>(text);
    for (at, _) in text.char_indices() {
        let begun = text.get(..at).unwrap();
        let (judged, read) = both::<T>(begun);
        // Of a value that it passes over it takes a figure that was cut off for a wrong one.
        assert!(judged.is_err());
        assert_eq!(read.unwrap_err(), Misread::Ended, "{begun}");
    }
    for at in 0..text.len() {
        // Of a figure with a power it may take the neighbour.
        for byte in *b"\"\\{}[],:0-. nu" {
            let mut bytes = text.as_bytes().to_vec();
            bytes[at] = byte;
            if let Ok(text) = String::from_utf8(bytes) {
                same::<T>(&text);
            }
        }
    }
}

#[test]
fn what_earlier_builds_stored_is_read_the_same_however_it_is_harmed() {
    let fish = samples("fish");
    assert!(fish.len() >= 4);
    // A fish keeps the most, and each harm of it is read whole.
    harmed::<Fish>(fish.iter().min_by_key(|text| text.len()).unwrap());
    for text in &fish {
        same::<Fish>(text);
    }
    for text in samples("pan") {
        harmed::<KeptPan>(&text);
    }
}

#[test]
fn every_kind_of_value_is_read_as_it_is_written() {
    let kept = |text: &str| {
        Asked::Kept(Box::new(RawText(
            RawValue::from_string(text.to_owned()).unwrap(),
        )))
    };
    for asked in [
        Asked::Nothing,
        Asked::One(None),
        Asked::One(Some(-128)),
        Asked::Two(65_535, 'é'),
        Asked::Named {
            yes: true,
            figure: -1.25e-7,
        },
        Asked::Many(vec![]),
        Asked::Many(vec![
            ("a \" \\ \u{1} \u{1f41f}".to_owned(), 12_345),
            (String::new(), 0),
        ]),
        Asked::By([("x".to_owned(), ())].into()),
        kept(r#"{ "a" : [1, {"b":"\u00e9"}] }"#),
    ] {
        let text = serde_json::to_string(&asked).unwrap();
        assert_eq!(json::read::<Asked>(&text).unwrap(), asked, "{text}");
        harmed::<Asked>(&text);
        harmed::<Value>(&text);
    }
}

#[test]
fn a_figure_is_read_to_its_last_digit() {
    assert_eq!(json::read::<u64>(&u64::MAX.to_string()), Ok(u64::MAX));
    assert_eq!(json::read::<i64>(&i64::MIN.to_string()), Ok(i64::MIN));
    // One past it, and one that `serde_json` takes for its neighbour.
    assert_eq!(
        json::read::<u64>("18446744073709551616"),
        Err(Misread::Wrong)
    );
    assert_eq!(
        json::read::<f64>("184467440737.9551615"),
        Ok(184_467_440_737.955_16)
    );
}

/// Written out by hand, by ECMA-404 and RFC 8259: what is JSON there, and what only looks like it.
#[test]
fn texts_are_told_from_what_is_none() {
    for text in [
        r#""\ud83d\udc1f""#,
        r#""\ud83d""#,
        r#""\udc1f""#,
        r#""\ud83dx""#,
        r#""\u00e9""#,
        r#""\x""#,
        "\"\t\"",
        "\"",
        "01",
        "-",
        "-1",
        "1.",
        ".5",
        "1e",
        "1e+5",
        "1E-5",
        "+1",
        "1e999",
        "18446744073709551616",
        "0x1",
        "NaN",
        "tru",
        "[1,]",
        "[,1]",
        "[1 2]",
        "[",
        "]",
        "{\"a\":1,}",
        "{\"a\"}",
        "{a:1}",
        "{\"a\":1 \"b\":2}",
        "",
        " 1 ",
        "1 1",
        "nul",
        "\u{feff}1",
        "[1]]",
        "{\"a\":{}}",
        "[[],[{}]]",
    ] {
        same::<Value>(text);
        same::<String>(text);
        same::<i64>(text);
        same::<f64>(text);
        same::<RawText>(text);
    }
}

#[test]
fn a_text_that_goes_very_deep_is_gone_through() {
    let deep = "[".repeat(500_000);
    assert_eq!(
        json::read::<serde::de::IgnoredAny>(&deep).unwrap_err(),
        Misread::Ended
    );
    let whole = format!("{deep}{}", "]".repeat(500_000));
    assert!(json::read::<serde::de::IgnoredAny>(&whole).is_ok());
}

proptest! {
    #[test]
    fn whatever_it_is_it_is_judged_the_same(text in r#"([\[\]{}:,]|"[a-z\\"]{0,3}"|-?[0-9]{1,3}(\.[0-9])?|null|true| ){0,12}"#) {
        same::<Value>(&text);
        same::<RawText>(&text);
    }
}
