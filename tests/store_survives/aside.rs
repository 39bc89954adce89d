//! What can't be read is moved aside whole, and never thrown away.

use scaleside::base::instant::Instant;
use scaleside::store::envelope::Unreadable;
use scaleside::store::outcome::{AsideNote, Fault};
use scaleside::store::shelf::ShelfFault;

use crate::bench::{A, B, NOW, kept, not_kept, on_shelf, shop, start, tap, taps};
use crate::hostile::{HostileShelf, Mood};

fn aside_of(key: &str, ms: i64) -> String {
    format!("scaleside/aside/{}/{key}", NOW.0 + ms)
}

#[test]
fn any_flipped_bit_costs_at_most_the_last_tap_and_the_damaged_text_is_kept_whole() {
    let shelf = HostileShelf::kind();
    on_shelf(&shelf, &["weighed 1,240 g", "filleted"]);
    let newest = shelf.text(A).unwrap();
    for (at, bit) in (0..newest.len()).flat_map(|at| (0..8).map(move |bit| (at, bit))) {
        let shelf = shelf.at_next_start();
        let mut bytes = newest.clone().into_bytes();
        bytes[at] ^= 1 << bit;
        let damaged = String::from_utf8_lossy(&bytes).into_owned();
        shelf.set(A, &damaged);
        let loaded = start(&shelf);
        assert_eq!(
            loaded.records[0].record.taps,
            ["weighed 1,240 g"],
            "{damaged}"
        );
        assert_eq!(loaded.aside.len(), 1);
        assert_eq!(shelf.text(&aside_of(A, 0)), Some(damaged));
        assert_eq!(shelf.text(A), None);
        kept(shop().commit(&shelf, &loaded.records[0], NOW, tap("again")));
        assert_eq!(taps(&shelf), ["weighed 1,240 g", "again"]);
    }
}

#[test]
fn the_app_starts_whatever_is_found_and_says_what_and_why() {
    let shelf = HostileShelf::kind();
    on_shelf(&shelf, &["weighed"]);
    let whole = shelf.text(B).unwrap();
    let unfamiliar = scaleside::store::envelope::seal(&"not a fish".to_owned(), 1, 7).unwrap();
    let found = [
        ("cut", &whole[..40], Unreadable::Torn),
        (
            "flipped",
            &whole.replace("weighed", "Weighed"),
            Unreadable::Damaged,
        ),
        ("foreign", "<html>", Unreadable::NotOurs),
        ("other", &unfamiliar, Unreadable::Unfamiliar),
    ];
    for (id, text, _) in &found {
        shelf.set(&format!("scaleside/1/fish/{id}/b"), text);
    }
    let loaded = start(&shelf);
    assert_eq!((loaded.records.len(), loaded.faults.len()), (1, 0));
    for (note, (id, text, reason)) in loaded.aside.iter().zip(found) {
        let key = format!("scaleside/1/fish/{id}/b");
        let moved_to = aside_of(&key, 0);
        assert_eq!(shelf.text(&moved_to).as_deref(), Some(text));
        assert_eq!(
            *note,
            AsideNote {
                key,
                moved_to: Some(moved_to),
                reason
            }
        );
    }
    assert_eq!(
        start(&shelf).aside,
        [],
        "the second start finds nothing more"
    );
}

#[test]
fn with_both_copies_damaged_the_record_in_hand_is_stored_and_both_are_kept() {
    let shelf = HostileShelf::kind();
    let held = on_shelf(&shelf, &["weighed"]);
    shelf.set(A, "damaged a");
    shelf.set(B, "damaged b");
    let held = kept(shop().commit(&shelf, &held, NOW, tap("filleted")));
    kept(shop().commit(&shelf, &held, NOW, tap("chilled")));
    assert_eq!(taps(&shelf), ["weighed", "filleted", "chilled"]);
    assert_eq!(shelf.text(&aside_of(A, 0)).as_deref(), Some("damaged a"));
    assert_eq!(shelf.text(&aside_of(B, 0)).as_deref(), Some("damaged b"));
}

#[test]
fn with_the_newest_copy_damaged_the_record_in_hand_is_stored_not_the_older_copy() {
    for damage in ["", "damaged"] {
        let shelf = HostileShelf::kind();
        let held = on_shelf(&shelf, &["weighed"]);
        shelf.set(B, damage);
        let held = kept(shop().commit(&shelf, &held, NOW, tap("filleted")));
        let count = scaleside::store::envelope::writes(held.counter);
        assert_eq!((count, taps(&shelf)), (3, held.record.taps.clone()));
        assert_eq!(held.record.taps, ["weighed", "filleted"]);
        assert_eq!(shelf.text(&aside_of(B, 0)).as_deref(), Some(damage));
    }
}

#[test]
fn two_texts_set_aside_in_one_moment_do_not_meet() {
    let shelf = HostileShelf::kind();
    on_shelf(&shelf, &[]);
    for text in ["first", "second", "first"] {
        shelf.set(B, text);
        start(&shelf);
    }
    assert_eq!(shelf.text(&aside_of(B, 0)).as_deref(), Some("first"));
    assert_eq!(shelf.text(&aside_of(B, 1)).as_deref(), Some("second"));
    assert_eq!(shelf.text(&aside_of(B, 2)), None);
    shelf.set(B, "at the end of time");
    let loaded = shop().load_all(&shelf, Instant(i64::MAX));
    assert!(loaded.aside[0].moved_to.is_some());
}

#[test]
fn what_cannot_be_set_aside_stays_where_it_is() {
    for (mood, fault) in [
        (Mood::Full(0), Fault::Shelf(ShelfFault::Full)),
        (
            Mood::ReadOnly,
            Fault::Shelf(ShelfFault::Refused("SecurityError".into())),
        ),
        (Mood::Forgets, Fault::NotReadBack),
        (Mood::Cuts(3), Fault::NotReadBack),
    ] {
        let shelf = HostileShelf::kind();
        let held = on_shelf(&shelf, &["weighed"]);
        shelf.set(A, "damaged");
        shelf.mood.set(mood);
        let mut store = shop();
        let loaded = store.load_all(&shelf, NOW);
        assert_eq!(
            (&loaded.records[0], &loaded.faults[0]),
            (&held, &fault),
            "{mood:?}"
        );
        assert_eq!(loaded.aside[0].moved_to, None);
        let (in_hand, why) = not_kept(store.commit(&shelf, &held, NOW, tap("filleted")));
        assert_eq!(why, fault, "{mood:?}");
        assert_eq!(store.remove(&shelf, &held, NOW), Err(fault), "{mood:?}");
        assert_eq!(shelf.text(A).as_deref(), Some("damaged"), "{mood:?}");
        shelf.mood.set(Mood::Kind);
        kept(store.commit(&shelf, &in_hand, NOW, tap("chilled")));
        assert_eq!(taps(&shelf), ["weighed", "filleted", "chilled"]);
        let asides = shelf
            .texts
            .borrow()
            .values()
            .filter(|text| *text == "damaged")
            .count();
        assert_eq!(asides, 1, "{mood:?}");
    }
}
