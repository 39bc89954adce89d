//! What earlier builds stored opens for ever: every sample ever kept is read, whole, and nothing in it is lost.
//!
//! `tests/vectors/stored_format_1/<kind>.<when>.json` are texts as they stood in local storage. Samples are only
//! ever added, and never changed: with a new format comes a folder of its own.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::indexing_slicing,
    clippy::panic,
    missing_docs
)]

use std::collections::BTreeMap;
use std::path::Path;

use scaleside::base::instant::Instant;
use scaleside::cards::pan::KeptPan;
use scaleside::cards::quote::Quote;
use scaleside::cards::recipe::Recipe;
use scaleside::class::class_list::Class;
use scaleside::fish::credit::Credit;
use scaleside::fish::record::Fish;
use scaleside::fish::settings::Settings;
use scaleside::keep::backup::read::read;
use scaleside::keep::backup::write::BackupWriter;
use scaleside::keep::kind::{KINDS, Kind, Raw};
use scaleside::store::envelope::{FORMAT, open};
use scaleside::store::outcome::Held;
use serde::Serialize;
use serde::de::DeserializeOwned;
use serde_json::Value;

/// Every sample, by its name.
fn samples() -> BTreeMap<String, String> {
    let vectors = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/vectors");
    let formats = (1..=FORMAT).map(|format| vectors.join(format!("stored_format_{format}")));
    let files =
        formats.flat_map(|folder| std::fs::read_dir(folder).expect("a format without samples"));
    files
        .map(|file| {
            let path = file.unwrap().path();
            let name = path.file_name().unwrap().to_str().unwrap().to_owned();
            (name, std::fs::read_to_string(path).unwrap())
        })
        .collect()
}

/// Reads a body as a record and writes it again: what stood in it must be in that.
fn again<T: Serialize + DeserializeOwned>(body: &str) -> Value {
    serde_json::to_value(serde_json::from_str::<T>(body).unwrap()).unwrap()
}

#[test]
fn every_sample_opens_and_nothing_in_it_is_lost() {
    let samples = samples();
    for kind in &KINDS {
        let opening = format!("{}.", kind.name);
        let there = samples.keys().any(|name| name.starts_with(&opening));
        assert!(there, "no sample of a {}", kind.name);
    }
    for (name, text) in &samples {
        let opened = open(text).unwrap_or_else(|why| panic!("{name}: {why}"));
        let kind = name.split('.').next().unwrap();
        let title = Kind::named(kind).unwrap().title(opened.body);
        assert!(title.is_some_and(|title| !title.is_empty()), "{name}");
        let again = match kind {
            "fish" => again::<Fish>(opened.body),
            "class" => again::<Class>(opened.body),
            "recipe" => again::<Recipe>(opened.body),
            "settings" => again::<Settings>(opened.body),
            "quote" => again::<Quote>(opened.body),
            "pan" => again::<KeptPan>(opened.body),
            "credit" => again::<Credit>(opened.body),
            other => panic!("read {other} here as well"),
        };
        let before: Value = serde_json::from_str(opened.body).unwrap();
        for (field, value) in before.as_object().unwrap() {
            assert_eq!(again[field], *value, "{name}: {field}");
        }
    }
}

#[test]
fn every_sample_goes_through_a_backup() {
    let samples = samples();
    let mut writer = BackupWriter::begin(1, Instant(0), samples.len(), 0).unwrap();
    for (nth, (name, text)) in samples.iter().enumerate() {
        let opened = open(text).unwrap();
        let held = Held::from_elsewhere(
            &format!("sample{nth}"),
            opened.record::<Raw>().unwrap(),
            opened.counter,
        );
        writer
            .record(name.split('.').next().unwrap(), &held)
            .unwrap();
    }
    let file = writer.finish().unwrap();
    let found = read(&file).unwrap();
    assert_eq!(found.unread, []);
    assert_eq!(found.records.len(), samples.len());
    for (nth, (_, text)) in samples.iter().enumerate() {
        let body = open(text).unwrap().body;
        let id = format!("sample{nth}");
        let same = |(_, held): &(&Kind, Held<Raw>)| held.id == id && held.record.get() == body;
        assert!(found.records.iter().any(same), "{id}");
    }
}
