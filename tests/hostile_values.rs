//! Records whose values were made up: whole by their checksum, of a kind this build knows, and hostile in what they say.
//! The app starts whatever is stored, says what it does not read, and a tap that is kept is there at the next start.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::indexing_slicing,
    clippy::panic,
    missing_docs
)]

mod memory_shelf;

use std::fs;
use std::path::Path;

use memory_shelf::Memory;
use proptest::prelude::RngExt as _;
use proptest::test_runner::{RngAlgorithm, TestRng};
use rust_decimal::Decimal;
use scaleside::base::instant::Instant;
use scaleside::cards::larder::{self, Larder};
use scaleside::cards::pan::KeptPan;
use scaleside::cards::quote::Quote;
use scaleside::cards::recipe::Recipe;
use scaleside::class::class_list::Class;
use scaleside::compare::test::Test;
use scaleside::fish::action::Action;
use scaleside::fish::record::Fish;
use scaleside::fish::serving::PlanTap;
use scaleside::fish::settings::Settings;
use scaleside::fish::weighing::Which;
use scaleside::keep::backup::merge::{look, put_in};
use scaleside::keep::backup::read::read;
use scaleside::keep::backup::write::BackupWriter;
use scaleside::keep::kind::{KINDS, Raw};
use scaleside::place::Stage;
use scaleside::service::timetable::face::faces;
use scaleside::store::entry::Entry;
use scaleside::store::envelope::{self, open};
use scaleside::store::outcome::{Held, Outcome};
use scaleside::store::records::Store;
use scaleside::store::shelf::Shelf as _;
use scaleside::trade::plate::order::order;
use scaleside::trade::plate::plate::Plate;
use serde_json::{Value, json};

const NOW: Instant = Instant(1_800_000_000_000);
const BUILD: u64 = 7;
const PER_KIND: usize = 10_000;

/// A record as an earlier build stored it.
fn samples(kind: &str) -> Vec<Value> {
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
fn spoilt(chance: &mut TestRng, samples: &[Value]) -> Value {
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

fn counter(chance: &mut TestRng) -> u64 {
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

fn work_out_fish(fish: &Fish, plans: bool) {
    let _ = (
        fish.name(),
        fish.next_stage(),
        fish.is_cooking(),
        fish.breakdown(),
        fish.panfuls(),
    );
    for which in [Which::Whole, Which::OffBone, Which::Ready, Which::Frame] {
        let _ = fish.judge(which);
    }
    for stage in Stage::JOB {
        let _ = (
            fish.is_done(stage),
            fish.stage_before(stage),
            fish.stage_after(stage),
            fish.read_out(stage),
        );
    }
    let _ = Test::of(fish, 60);
    if let Some(chill) = &fish.chill {
        let _ = (
            chill.sentence(NOW),
            chill.put_in(NOW),
            chill.take_out(NOW),
            chill.chilled_ms(NOW),
        );
    }
    if let (Ok(dish), Some(run)) = (fish.dish(), &fish.run) {
        let _ = faces(dish, &fish.slip.missing, run, &None, NOW);
        let _ = run.as_of(NOW);
    }
    if plans {
        let _ = fish.timetable(NOW);
    }
}

fn work_out_dish(card: &Recipe) {
    let larder = Larder {
        fish: &|_| None,
        card: &|_| Some(card.clone()),
        careful: &|_| None,
    };
    let preparation = larder::read("k3f9", card, larder).preparation;
    let _ = Plate::of(&preparation);
    let _ = order(&preparation, 24, Decimal::new(5, 2));
    let _ = (card.title(), card.plate_check());
}

/// What came of one kind.
#[derive(Default)]
struct Count {
    read: usize,
    kept: usize,
    refused: usize,
    aside: usize,
}

/// Stores hostile records of a kind, starts on each, works out what screens show, taps it, and starts again.
fn tried<T: Entry>(chance: &mut TestRng, work_out: impl Fn(&T, bool)) -> Count {
    let samples = samples(T::KIND);
    let mut count = Count::default();
    for nth in 0..PER_KIND {
        let body = spoilt(chance, &samples).to_string();
        let shelf = Memory::default();
        let text = sealed(&body, counter(chance));
        shelf
            .put(&format!("scaleside/1/{}/k3f9/a", T::KIND), &text)
            .unwrap();
        let loaded = Store::<T>::new(T::KIND, BUILD).load_all(&shelf, NOW);
        assert!(loaded.faults.is_empty());
        let Some(held) = loaded.records.into_iter().next() else {
            // Nothing vanishes without a word: what is not read is set aside whole.
            assert_eq!(loaded.aside.len(), 1, "{body:.200}");
            let moved = loaded.aside[0].moved_to.as_ref().unwrap();
            assert_eq!(shelf.get(moved).unwrap(), Some(text));
            count.aside += 1;
            continue;
        };
        count.read += 1;
        work_out(&held.record, nth % 97 == 0);
        // A tap, whatever it does, is either kept and found again, or refused with a sentence.
        let before = held.record.clone();
        match Store::<T>::new(T::KIND, BUILD).commit(
            &shelf,
            &held,
            NOW,
            |record| Ok(record.clone()),
        ) {
            Outcome::Kept { held, .. } => {
                let again = Store::<T>::new(T::KIND, BUILD).load_all(&shelf, NOW);
                assert_eq!(again.records.len(), 1, "{body:.200}");
                assert!(again.records[0].record == before);
                assert_eq!(
                    again.records[0].counter, held.counter,
                    "kept, and gone at the next start: {body:.200}"
                );
                count.kept += 1;
            }
            Outcome::Refused(refusal) => {
                assert!(!refusal.to_string().is_empty());
                count.refused += 1;
            }
            Outcome::NotKept { fault, .. } => panic!("{fault}"),
        }
    }
    count
}

/// A text as a build would have sealed it, whatever it says: the checksum is of another library's making.
fn sealed(body: &str, counter: u64) -> String {
    let sum = crc32fast::hash(format!("1\n{counter}\n{BUILD}\n{body}").as_bytes());
    format!(
        "{{\"format\":1,\"counter\":{counter},\"build\":{BUILD},\"sum\":\"{sum:08x}\",\"body\":{body}}}"
    )
}

#[test]
fn ten_thousand_hostile_records_of_each_kind_stop_nothing_and_vanish_nowhere() {
    let mut chance = TestRng::from_seed(RngAlgorithm::ChaCha, &[12; 32]);
    let all = [
        ("fish", tried::<Fish>(&mut chance, work_out_fish)),
        (
            "class",
            tried::<Class>(&mut chance, |class, _| drop(class.name.clone())),
        ),
        (
            "recipe",
            tried::<Recipe>(&mut chance, |card, _| work_out_dish(card)),
        ),
        (
            "quote",
            tried::<Quote>(&mut chance, |quote, _| drop(quote.species.name())),
        ),
        (
            "pan",
            tried::<KeptPan>(&mut chance, |pan, _| drop(pan.name.clone())),
        ),
        ("settings", tried::<Settings>(&mut chance, |_, _| ())),
    ];
    assert_eq!(all.len(), KINDS.len(), "a kind is not tried");
    for (kind, count) in all {
        println!(
            "{kind}: {PER_KIND} hostile records, {} read and worked out, {} taps kept and found again, {} refused, {} set aside whole",
            count.read, count.kept, count.refused, count.aside
        );
        assert!(
            count.read > PER_KIND / 20,
            "{kind}: hardly any was read, so little was tried"
        );
        assert!(
            count.aside > PER_KIND / 100,
            "{kind}: nothing hostile was stored"
        );
    }
}

/// The same through the other door: what a backup brings, and what is tapped after.
#[test]
fn a_counter_at_the_end_of_its_range_in_a_backup_swallows_no_tap() {
    let mut tried = 0;
    for kind in &KINDS {
        for counter in [
            u64::MAX,
            u64::MAX - 1,
            1 << 63,
            u64::MAX << 20,
            (1 << 63) - 1,
        ] {
            for sample in samples(kind.name) {
                let body: Raw = serde_json::value::to_raw_value(&sample).unwrap();
                let mut writer = BackupWriter::begin(BUILD, NOW, 1, 0).unwrap();
                let held = Held {
                    id: "k3f9".to_owned(),
                    record: body,
                    counter,
                };
                writer.record(kind.name, &held).unwrap();
                let bytes = writer.finish().unwrap();
                let backup = read(&bytes).unwrap();
                let shelf = Memory::default();
                for line in look(&shelf, BUILD, &backup).unwrap() {
                    put_in(&shelf, BUILD, &line, NOW).unwrap();
                }
                let mut store = Store::<Raw>::new(kind.name, BUILD);
                let mut found = store.load_all(&shelf, NOW).records.remove(0);
                for nth in 0..3 {
                    let text = json!({ "tapped": nth }).to_string();
                    let change: Raw = serde_json::from_str(&text).unwrap();
                    let outcome = store.commit(&shelf, &found, NOW, move |_| Ok(change.clone()));
                    let Outcome::Kept { held, .. } = outcome else {
                        panic!("{}: {outcome:?}", kind.name)
                    };
                    let again = Store::<Raw>::new(kind.name, BUILD).load_all(&shelf, NOW);
                    assert_eq!(
                        again.records[0].record.get(),
                        text,
                        "{}: {counter}",
                        kind.name
                    );
                    found = held;
                    tried += 1;
                }
            }
        }
    }
    println!(
        "{tried} taps on records whose counters stood at the end of their range: all were there at the next start"
    );
}

#[test]
fn a_text_longer_than_a_field_takes_is_refused_wherever_it_comes_in() {
    let letters = "x".repeat(900_000);
    assert!(!envelope::is_bounded(
        &json!({ "name": letters }).to_string()
    ));
    assert!(envelope::is_bounded(
        &json!({ "names": vec!["x".repeat(2_000); 400] }).to_string()
    ));
    // The longest that a field takes, in the letters that take the most room.
    assert!(envelope::is_bounded(
        &json!({ "name": "\u{1}".repeat(2_000) }).to_string()
    ));
    assert!(envelope::is_bounded(
        &json!({ "name": "🐟".repeat(2_000) }).to_string()
    ));
    for tricky in [r#"{"a":"\\","b":"x"}"#, r#"{"a":"\"","b":"x"}"#] {
        assert!(envelope::is_bounded(tricky));
    }
    let shelf = Memory::default();
    let text = sealed(&json!({ "taps": [letters] }).to_string(), 1);
    shelf.put("scaleside/1/fish/k3f9/a", &text).unwrap();
    let loaded = Store::<Raw>::new("fish", BUILD).load_all(&shelf, NOW);
    assert_eq!((loaded.records.len(), loaded.aside.len()), (0, 1));
}

/// As many portions as the slip takes, in every pan: bounded in steps, so that a screen asks a question that ends.
#[test]
#[allow(clippy::disallowed_methods)]
fn two_hundred_portions_make_a_service_of_bounded_length() {
    let mut fish: Fish = serde_json::from_value(samples("fish").remove(0)).unwrap();
    fish.run = None;
    fish.slip.portions = "200".to_owned();
    let (mut laid, mut refused, mut longest) = (0, 0, 0);
    for at_once in 1..=200 {
        let tap = Action::Plan(PlanTap::AtOnce(at_once.to_string()));
        let of_pan = fish.apply(&tap, NOW).unwrap();
        match of_pan.laid_out() {
            Ok(dish) => {
                longest = longest.max(dish.steps.len());
                laid += 1;
            }
            Err(refusal) => {
                assert!(refusal.to_string().contains("wider pan"), "{refusal}");
                refused += 1;
            }
        }
    }
    // As many as a plan is searched for: `service/plan/check.rs`.
    assert!(longest <= 120, "{longest} steps");
    assert!(laid > 100 && refused > 5, "{laid} {refused}");
    let begun = std::time::Instant::now();
    let tap = Action::Plan(PlanTap::AtOnce("10".to_owned()));
    let planned = fish.apply(&tap, NOW).unwrap().timetable(NOW).is_ok();
    println!(
        "200 portions: {laid} pans are laid out in at most {longest} steps, {refused} are refused with a sentence; twenty panfuls were planned ({planned}) in {} ms",
        begun.elapsed().as_millis()
    );
}
