//! Records made up out of those that earlier builds stored: one to three of their values are ones that nobody types.

use std::fs;
use std::path::Path;

use proptest::prelude::RngExt as _;
use proptest::test_runner::TestRng;
use scaleside::store::envelope::open;
use serde_json::{Value, json};

use crate::BUILD;

/// A record as an earlier build stored it.
pub fn samples(kind: &str) -> Vec<Value> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/vectors/stored_format_1");
    let files = fs::read_dir(folder)
        .unwrap()
        .map(|file| file.unwrap().path());
    let of_kind = files.filter(|path| {
        let name = path.file_name().unwrap().to_str().unwrap();
        name.split('.').next() == Some(kind)
    });
    of_kind
        .map(|path| {
            let text = fs::read_to_string(path).unwrap();
            serde_json::from_str(open(&text).unwrap().body).unwrap()
        })
        .collect()
}

/// A value that nobody types.
fn hostile(chance: &mut TestRng, as_was: &Value) -> Value {
    let long = [33_000, 200_000, 900_000][chance.random_range(0..3)];
    let whole = [
        0,
        1,
        -1,
        i64::MIN,
        i64::MAX,
        253_402_300_800_000,
        -62_135_596_800_000,
    ];
    let texts = [
        "",
        " ",
        "-",
        "1e999999999",
        "-0.0000000000000000000000000001",
        "79228162514264337593543950335",
        "99999999999999999999999999999999",
        "NaN",
        "inf",
        "1,5",
        "1/0",
        "٣",
        "\u{0}",
        "\u{202e}abc",
        "🐟🐟",
        "a\"b\\c",
        "200",
        "4294967296",
        "__proto__",
        "../../..",
        "<script>",
        "%00",
        "1+1+1+1+1+1+1+1",
        "0x10",
    ];
    match chance.random_range(0..12) {
        0 => json!(whole[chance.random_range(0..whole.len())]),
        1 => json!(u64::MAX),
        2 => json!([1e308, -1e308, 5e-324, 0.1][chance.random_range(0..4)]),
        3 => Value::Null,
        4 => json!(chance.random_range(0..2) == 0),
        5 if chance.random_range(0..40) == 0 => json!("9".repeat(long)),
        5..=7 => json!(texts[chance.random_range(0..texts.len())]),
        8 => json!([]),
        9 => json!({}),
        10 => json!([as_was, as_was, as_was]),
        // The same many times over, as far as a list goes.
        _ => match as_was {
            Value::Array(items) if !items.is_empty() => {
                json!(items.iter().cycle().take(300).collect::<Vec<_>>())
            }
            Value::Number(_) => json!(chance.random_range(i64::MIN..i64::MAX)),
            Value::String(text) => json!(format!("{text}{text}")),
            _ => as_was.clone(),
        },
    }
}

/// Every place in a value that another can be put in.
fn places(value: &Value, at: &str, found: &mut Vec<String>) {
    found.push(at.to_owned());
    let step = |key: &str| format!("{at}/{}", key.replace('~', "~0").replace('/', "~1"));
    match value {
        Value::Object(fields) => fields
            .iter()
            .for_each(|(key, inner)| places(inner, &step(key), found)),
        Value::Array(items) => items
            .iter()
            .enumerate()
            .for_each(|(nth, inner)| places(inner, &step(&nth.to_string()), found)),
        _ => {}
    }
}

/// A record with one to three values changed.
pub fn spoilt(chance: &mut TestRng, samples: &[Value]) -> Value {
    let mut record = samples[chance.random_range(0..samples.len())].clone();
    for _ in 0..chance.random_range(1..4) {
        let mut all = Vec::new();
        places(&record, "", &mut all);
        let place = &all[chance.random_range(1..all.len().max(2)).min(all.len() - 1)];
        if let Some(value) = record.pointer_mut(place) {
            *value = hostile(chance, &value.clone());
        }
    }
    record
}

pub fn counter(chance: &mut TestRng) -> u64 {
    let all = [
        0,
        1,
        u64::MAX,
        u64::MAX - 1,
        1 << 63,
        (1 << 63) + 1,
        (1 << 63) - 1,
        u64::MAX << 20,
        1 << 20,
        1 << 44,
    ];
    all[chance.random_range(0..all.len())]
}

/// A text as a build would have sealed it, whatever it says: the checksum is of another library's making.
pub fn sealed(body: &str, counter: u64) -> String {
    let sum = crc32fast::hash(format!("1\n{counter}\n{BUILD}\n{body}").as_bytes());
    format!(
        "{{\"format\":1,\"counter\":{counter},\"build\":{BUILD},\"sum\":\"{sum:08x}\",\"body\":{body}}}"
    )
}
