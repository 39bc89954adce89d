//! A shelf that is full, refuses, forgets or goes blind: said, kept in memory, and kept by the next tap.

use scaleside::store::outcome::{Fault, Held};
use scaleside::store::shelf::ShelfFault;

use crate::bench::{A, B, Fish, NOW, Shop, fish, kept, not_kept, on_shelf, shop, start, tap, taps};
use crate::hostile::{HostileShelf, Mood};

fn moods(shelf: &HostileShelf) -> [(Mood, Fault); 5] {
    let refused = || Fault::Shelf(ShelfFault::Refused("SecurityError".into()));
    [
        (Mood::Full(shelf.units()), Fault::Shelf(ShelfFault::Full)),
        (Mood::ReadOnly, refused()),
        (Mood::Refuses, refused()),
        (Mood::Blind, refused()),
        (Mood::Forgets, Fault::NotReadBack),
    ]
}

#[test]
fn taps_that_are_not_kept_stay_in_memory_and_are_kept_once_by_the_next() {
    let shelves: [fn(&HostileShelf) -> Held<Fish>; 4] = [
        |shelf| on_shelf(shelf, &["weighed"]),
        |shelf| on_shelf(shelf, &["weighed", "weighed again"]),
        |shelf| {
            let held = on_shelf(shelf, &["weighed"]);
            shelf.texts.borrow_mut().remove("scaleside/build");
            held
        },
        |shelf| {
            let held = on_shelf(shelf, &["weighed"]);
            shop().settle(shelf, "bream").unwrap();
            held
        },
    ];
    for prepare in shelves {
        for number in 0..5 {
            let shelf = HostileShelf::kind();
            let mut held = prepare(&shelf);
            let before = held.record.taps.clone();
            let (mood, expected) = moods(&shelf)[number].clone();
            let mut store = shop();
            shelf.mood.set(mood);
            for name in ["one", "two", "three"] {
                let (in_hand, fault) = not_kept(store.commit(&shelf, &held, NOW, tap(name)));
                assert_eq!(fault, expected, "{mood:?}");
                assert!(fault.to_string().ends_with('.'));
                assert_eq!(in_hand.record.taps.last().unwrap(), name);
                held = in_hand;
            }
            shelf.mood.set(Mood::Kind);
            kept(store.commit(&shelf, &held, NOW, tap("four")));
            let all = [
                before,
                ["one", "two", "three", "four"].map(String::from).to_vec(),
            ]
            .concat();
            assert_eq!(taps(&shelf), all, "{mood:?}");
        }
    }
}

#[test]
fn a_fish_begun_on_a_full_shelf_is_kept_as_soon_as_there_is_room() {
    let enders: [fn(&mut Shop, &HostileShelf, &Held<Fish>); 2] = [
        |store, shelf, held| drop(kept(store.retry(shelf, held, NOW))),
        |store, shelf, held| drop(kept(store.commit(shelf, held, NOW, tap("three")))),
    ];
    for (number, end) in (0..5).flat_map(|number| enders.map(|end| (number, end))) {
        let shelf = HostileShelf::kind();
        let (mood, expected) = moods(&shelf)[number].clone();
        let mut store = shop();
        shelf.mood.set(mood);
        let (held, fault) = not_kept(store.create(&shelf, "bream", fish(&["begun"]), NOW));
        assert_eq!(fault, expected);
        let (held, _) = not_kept(store.commit(&shelf, &held, NOW, tap("one")));
        let (held, _) = not_kept(store.commit(&shelf, &held, NOW, tap("two")));
        shelf.mood.set(Mood::Kind);
        end(&mut store, &shelf, &held);
        assert_eq!(taps(&shelf)[..3], ["begun", "one", "two"], "{mood:?}");
        assert!(taps(&shelf).len() <= 4, "{mood:?}");
    }
}

#[test]
fn every_amount_of_room_gives_a_kept_tap_or_a_full_shelf_and_never_less_than_before() {
    let shelf = HostileShelf::kind();
    let held = on_shelf(&shelf, &["weighed"]);
    shelf.set(
        A,
        "damaged, so that a tap first needs room to set this aside",
    );
    let (mut refused, mut kept_by) = (0, 0);
    for room in shelf.units()..shelf.units() + 400 {
        let full = shelf.at_next_start();
        full.mood.set(Mood::Full(room));
        let mut store = shop();
        let outcome = store.commit(&full, &held, NOW, tap("last"));
        let damaged = |text: &String| text.starts_with("damaged");
        assert!(full.texts.borrow().values().any(damaged), "{room}");
        if let scaleside::store::outcome::Outcome::Kept { .. } = outcome {
            assert_eq!(taps(&full), ["weighed", "last"]);
            kept_by += 1;
        } else {
            assert_eq!(not_kept(outcome).1, Fault::Shelf(ShelfFault::Full));
            assert_eq!(taps(&full), ["weighed"]);
            refused += 1;
        }
    }
    assert!(
        refused > 0 && kept_by > 0,
        "{refused} refused, {kept_by} kept"
    );
}

#[test]
fn room_can_be_made_on_a_full_shelf() {
    let shelf = HostileShelf::kind();
    let held = on_shelf(&shelf, &["weighed"]);
    shelf.mood.set(Mood::Full(shelf.units()));
    shop().settle(&shelf, "bream").unwrap();
    assert_eq!((shelf.text(A), shelf.text(B).is_some()), (None, true));
    shop().remove(&shelf, &held, NOW).unwrap();
    assert_eq!(start(&shelf).records, []);
}

#[test]
fn settling_and_taking_away_say_when_they_could_not() {
    for (mood, fault) in [
        (
            Mood::ReadOnly,
            Fault::Shelf(ShelfFault::Refused("SecurityError".into())),
        ),
        (
            Mood::Refuses,
            Fault::Shelf(ShelfFault::Refused("SecurityError".into())),
        ),
        (Mood::Forgets, Fault::NotReadBack),
    ] {
        let shelf = HostileShelf::kind();
        let held = on_shelf(&shelf, &["weighed"]);
        shelf.mood.set(mood);
        assert_eq!(
            shop().settle(&shelf, "bream"),
            Err(fault.clone()),
            "{mood:?}"
        );
        assert_eq!(shop().remove(&shelf, &held, NOW), Err(fault), "{mood:?}");
        assert_eq!(taps(&shelf), ["weighed"]);
    }
}

#[test]
fn the_app_starts_without_any_storage() {
    let shelf = HostileShelf::kind();
    on_shelf(&shelf, &["weighed"]);
    shelf.mood.set(Mood::Refuses);
    let loaded = start(&shelf);
    assert_eq!(loaded.records, []);
    assert_eq!(
        loaded.faults,
        [Fault::Shelf(ShelfFault::Refused("SecurityError".into()))]
    );
}
