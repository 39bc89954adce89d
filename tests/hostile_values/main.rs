//! Records whose values were made up: whole by their checksum, of a kind this build knows, and hostile in what they say.
//! The app starts whatever is stored, says what it does not read, and a tap that is kept is there at the next start.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::indexing_slicing,
    clippy::panic,
    missing_docs
)]

mod made_up;
#[path = "../memory_shelf/mod.rs"]
mod memory_shelf;

use made_up::{counter, samples, sealed, spoilt};
use memory_shelf::Memory;
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
use scaleside::fish::credit::Credit;
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
use scaleside::store::envelope;
use scaleside::store::outcome::{Held, Outcome};
use scaleside::store::records::Store;
use scaleside::store::shelf::Shelf as _;
use scaleside::trade::plate::allergens::AllergenList;
use scaleside::trade::plate::order::order;
use scaleside::trade::plate::plate::Plate;
use serde_json::json;

const NOW: Instant = Instant(1_800_000_000_000);
const BUILD: u64 = 7;
const PER_KIND: usize = 10_000;

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
        list: AllergenList::default(),
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
        (
            "credit",
            tried::<Credit>(&mut chance, |credit, _| drop(credit.now.title())),
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
                let held = Held::from_elsewhere("k3f9", body, counter);
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
