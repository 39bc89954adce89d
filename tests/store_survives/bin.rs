//! What is removed or replaced is in the bin for thirty days, whenever the phone fails.

use scaleside::base::instant::Instant;
use scaleside::keep::bin::{Bin, Cause, DAYS, Unbinned};
use scaleside::keep::kind::{Kind, Raw};
use scaleside::store::envelope::writes;

use crate::bench::{A, B, BUILD, NOW, kept, on_shelf, shop, start, tap, taps};
use crate::hostile::{HostileShelf, Mood};

const HOUR_MS: i64 = 3_600_000;

fn bin() -> Bin {
    Bin::new(BUILD)
}

fn in_bin(shelf: &HostileShelf) -> Vec<String> {
    let loaded = bin().list(&shelf.at_next_start(), NOW);
    let copies = loaded.records.into_iter();
    copies
        .map(|held| held.record.body.get().to_owned())
        .collect()
}

fn text(taps: &[&str]) -> String {
    serde_json::to_string(&crate::bench::fish(taps)).unwrap()
}

fn after(days: i64, hours: i64) -> Instant {
    NOW.plus_ms((days * 24 + hours) * HOUR_MS)
}

fn removed(shelf: &HostileShelf) -> String {
    let held = on_shelf(shelf, &["weighed", "filleted"]);
    bin().remove(shelf, &mut shop(), &held, NOW).unwrap()
}

#[test]
fn a_removed_record_is_put_back_as_it_was_and_goes_on_from_there() {
    let shelf = HostileShelf::kind();
    let name = removed(&shelf);
    assert_eq!(start(&shelf).records, []);
    assert_eq!(in_bin(&shelf), [text(&["weighed", "filleted"])]);
    let place = bin().put_back(&shelf, &name, after(29, 0)).unwrap();
    assert_eq!(place, ("fish".to_owned(), "bream".to_owned()));
    assert_eq!(in_bin(&shelf), [""; 0]);
    let held = start(&shelf).records.remove(0);
    assert_eq!(
        writes(held.counter),
        4,
        "newer than any copy that was removed"
    );
    kept(shop().commit(&shelf, &held, NOW, tap("chilled")));
    assert_eq!(taps(&shelf), ["weighed", "filleted", "chilled"]);
    assert!(bin().put_back(&shelf, &name, NOW).is_err());
}

#[test]
fn what_stands_in_the_way_of_a_copy_from_the_bin_goes_there_itself() {
    let shelf = HostileShelf::kind();
    let name = removed(&shelf);
    let begun_anew = kept(shop().create(&shelf, "bream", crate::bench::fish(&["other"]), NOW));
    bin().put_back(&shelf, &name, NOW).unwrap();
    assert_eq!(taps(&shelf), ["weighed", "filleted"]);
    assert_eq!(in_bin(&shelf), [text(&["other"])]);
    // And back again: nothing is ever lost by looking.
    let copy = bin().list(&shelf, NOW).records.remove(0);
    assert_eq!(copy.record.cause, Cause::Replaced);
    assert_eq!(copy.record.counter, begun_anew.counter);
    bin().put_back(&shelf, &copy.id, NOW).unwrap();
    assert_eq!(taps(&shelf), ["other"]);
    assert_eq!(in_bin(&shelf), [text(&["weighed", "filleted"])]);
}

#[test]
fn a_tab_killed_at_any_byte_of_a_removal_loses_nothing() {
    for write in 0..6 {
        for bytes in [0, 1, 40, 200, 10_000] {
            let shelf = HostileShelf::kind();
            let held = on_shelf(&shelf, &["weighed", "filleted"]);
            shelf.mood.set(Mood::Dies { write, bytes });
            let outcome = bin().remove(&shelf, &mut shop(), &held, NOW);
            let next = shelf.at_next_start();
            let whole = text(&["weighed", "filleted"]);
            let there = start(&next).records.first().map(|held| held.record.clone());
            let binned = in_bin(&next).contains(&whole);
            assert!(
                binned || there == Some(crate::bench::fish(&["weighed", "filleted"])),
                "killed at byte {bytes} of write {write}"
            );
            if outcome.is_ok() {
                assert!(binned && there.is_none());
            }
            // Made again it is done, and leaves one copy.
            if let Some(held) = start(&next).records.pop() {
                bin().remove(&next, &mut shop(), &held, NOW).unwrap();
            }
            assert_eq!(start(&next).records, []);
            assert!(in_bin(&next).contains(&whole));
        }
    }
}

#[test]
fn without_room_for_the_bin_a_record_stays() {
    let shelf = HostileShelf::kind();
    let held = on_shelf(&shelf, &["weighed"]);
    shelf.mood.set(Mood::Full(shelf.units()));
    // The older copy makes room for no more than itself, and the bin needs a little more.
    let why = bin().remove(&shelf, &mut shop(), &held, NOW).unwrap_err();
    assert_eq!(why, Unbinned::NoRoom);
    assert!(why.to_string().contains("empty the bin first"), "{why}");
    assert_eq!(taps(&shelf), ["weighed"]);
    shelf.mood.set(Mood::Full(shelf.units() + 400));
    bin().remove(&shelf, &mut shop(), &held, NOW).unwrap();
    assert_eq!(in_bin(&shelf), [text(&["weighed"])]);
    // A full shelf still lets go: of what is in the bin, and of a record that is removed for good.
    shelf.mood.set(Mood::Full(shelf.units()));
    let name = bin().list(&shelf, NOW).records[0].id.clone();
    bin().take_out(&shelf, &name, NOW).unwrap();
    assert_eq!(in_bin(&shelf), [""; 0]);
    shelf.mood.set(Mood::Kind);
    let held = on_shelf(&shelf, &["weighed again"]);
    shelf.mood.set(Mood::Full(shelf.units()));
    shop().remove(&shelf, &held, NOW).unwrap();
    assert_eq!((start(&shelf).records, in_bin(&shelf)), (vec![], vec![]));
}

#[test]
fn a_record_that_cannot_be_taken_away_is_not_in_the_bin_either() {
    let shelf = HostileShelf::kind();
    let held = on_shelf(&shelf, &["weighed"]);
    let newer = kept(shop().commit(&shelf, &held, NOW, tap("in another tab")));
    let refusal = bin().remove(&shelf, &mut shop(), &held, NOW).unwrap_err();
    assert!(refusal.to_string().contains("another tab"), "{refusal}");
    assert_eq!(taps(&shelf), newer.record.taps);
    assert_eq!(in_bin(&shelf), [""; 0]);
}

/// The day and hour when the bin is looked through, and whether the record is still there then.
type Look = (i64, i64, bool);

#[test]
fn the_bin_is_emptied_after_thirty_days_and_not_by_a_wrong_clock() {
    let cases: [(&str, &[Look]); 5] = [
        ("too soon", &[(0, 0, true), (DAYS - 1, 23, true)]),
        (
            "in time",
            &[(DAYS, 0, true), (DAYS, 23, true), (DAYS + 1, 0, false)],
        ),
        (
            "a clock ten years ahead for a day",
            &[
                (3650, 0, true),
                (3650, 23, true),
                (1, 0, true),
                (DAYS, 1, true),
                (DAYS + 2, 0, false),
            ],
        ),
        (
            "a clock set back",
            &[(-400, 0, true), (DAYS, 0, true), (3, 0, true)],
        ),
        (
            "ahead, and back to when it is due",
            &[
                (3650, 0, true),
                (DAYS, 0, true),
                (DAYS, 23, true),
                (DAYS + 1, 0, false),
            ],
        ),
    ];
    for (name, looks) in cases {
        let shelf = HostileShelf::kind();
        removed(&shelf);
        for (days, hours, there) in looks {
            let gone = bin().empty_old(&shelf, after(*days, *hours));
            assert_eq!(
                !in_bin(&shelf).is_empty(),
                *there,
                "{name}: day {days}, hour {hours}"
            );
            assert_eq!(gone.is_empty(), *there, "{name}: day {days}");
        }
    }
}

#[test]
fn a_copy_that_takes_the_place_of_another_counts_on() {
    let shelf = HostileShelf::kind();
    let held = on_shelf(&shelf, &["weighed"]);
    let other: Raw = serde_json::from_str(&text(&["from a backup"])).unwrap();
    let kind = Kind::named("fish").unwrap();
    for (least, count) in [(0, 3), (2 << 20, 3), (9 << 20, 10)] {
        let shelf = shelf.at_next_start();
        bin()
            .replace(&shelf, kind, "bream", &other, least, NOW)
            .unwrap();
        let found = start(&shelf).records.remove(0);
        assert_eq!(writes(found.counter), count);
        assert_eq!(found.record.taps, ["from a backup"]);
        assert_eq!(in_bin(&shelf), [text(&["weighed"])]);
        // Doing it again changes nothing.
        let before = shelf.texts.borrow().clone();
        bin()
            .replace(&shelf, kind, "bream", &other, least, NOW)
            .unwrap();
        assert_eq!(*shelf.texts.borrow(), before);
    }
    assert_eq!(taps(&shelf), held.record.taps);
    assert!(shelf.text(A).is_some() && shelf.text(B).is_some());
}
