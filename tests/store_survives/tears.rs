//! The tab is killed, or a write is cut, at every byte of every write: at most the last tap is lost.

use scaleside::store::outcome::{Fault, Held};

use crate::bench::{A, B, Fish, NOW, kept, not_kept, on_shelf, shop, start, tap, taps};
use crate::hostile::{HostileShelf, Mood};

const LONGEST: usize = 400;

/// Shelves as a tap may find them, each with the record in hand.
fn shelves() -> Vec<(&'static str, HostileShelf, Held<Fish>)> {
    let with = |name, taps: &[&str], then: fn(&HostileShelf)| {
        let shelf = HostileShelf::kind();
        let held = on_shelf(&shelf, taps);
        then(&shelf);
        (name, shelf, held)
    };
    vec![
        with("one copy", &[], |_| {}),
        with("two copies", &["weighed 1,240 g — ½ ice"], |_| {}),
        with(
            "the newest in the first slot",
            &["weighed", "filleted"],
            |_| {},
        ),
        with("settled", &["weighed", "filleted"], |shelf| {
            shop().settle(shelf, "bream").unwrap()
        }),
        with("the older copy damaged", &["weighed"], |shelf| {
            shelf.set(A, "{\"format\":1,\"cou")
        }),
        with(
            "the older copy damaged",
            &["weighed", "filleted"],
            |shelf| shelf.set(B, ""),
        ),
        with("no build number", &["weighed"], |shelf| {
            shelf.texts.borrow_mut().remove("scaleside/build");
        }),
        with("a damaged build number", &["weighed"], |shelf| {
            shelf.set("scaleside/build", "7?")
        }),
    ]
}

#[test]
fn a_tab_killed_at_any_byte_of_a_save_loses_at_most_the_last_tap() {
    let (mut deaths, mut lost) = (0, 0);
    for (name, shelf, held) in shelves() {
        let mut writes = 0;
        for write in 0.. {
            let mut reached = false;
            for bytes in 0..LONGEST {
                let torn = shelf.at_next_start();
                torn.mood.set(Mood::Dies { write, bytes });
                let outcome = shop().commit(&torn, &held, NOW, tap("last"));
                if torn.mood.get() != Mood::Dead {
                    kept(outcome);
                    break;
                }
                reached = true;
                let (in_hand, _) = not_kept(outcome);
                assert_eq!(in_hand.record.taps.last().unwrap(), "last");
                deaths += 1;

                let next = torn.at_next_start();
                let loaded = start(&next);
                assert_eq!(
                    (loaded.records.len(), loaded.faults.len()),
                    (1, 0),
                    "{name} {write} {bytes}"
                );
                let found = &loaded.records[0];
                let with_last = found.record == in_hand.record;
                assert!(
                    with_last || found.record == held.record,
                    "{name} {write} {bytes}"
                );
                lost += usize::from(!with_last);
                for note in &loaded.aside {
                    assert!(note.moved_to.is_some(), "{note:?}");
                }
                kept(shop().commit(&next, found, NOW, tap("next")));
                let after: Vec<_> = found
                    .record
                    .taps
                    .iter()
                    .map(String::as_str)
                    .chain(["next"])
                    .collect();
                assert_eq!(taps(&next), after, "{name} {write} {bytes}");
            }
            if !reached {
                break;
            }
            writes += 1;
        }
        assert!(writes >= 1, "{name}: the tap was never cut");
    }
    assert!(
        deaths > 2_000 && lost > 0 && lost < deaths,
        "{lost} of {deaths}"
    );
}

#[test]
fn a_save_that_is_cut_unseen_is_kept_by_the_next_tap() {
    for (name, shelf, held) in shelves() {
        for bytes in 0..LONGEST {
            let shelf = shelf.at_next_start();
            let mut store = shop();
            shelf.mood.set(Mood::Cuts(bytes));
            let outcome = store.commit(&shelf, &held, NOW, tap("cut"));
            if let scaleside::store::outcome::Outcome::Kept { .. } = outcome {
                assert!(bytes > 60, "{name} {bytes}");
                break;
            }
            let (in_hand, fault) = not_kept(outcome);
            assert_eq!(fault, Fault::NotReadBack, "{name} {bytes}");
            assert_eq!(start(&shelf.at_next_start()).records[0].record, held.record);
            shelf.mood.set(Mood::Kind);
            kept(store.commit(&shelf, &in_hand, NOW, tap("next")));
            let earlier = held.record.taps.iter().map(String::as_str);
            assert_eq!(
                taps(&shelf),
                earlier.chain(["cut", "next"]).collect::<Vec<_>>(),
                "{name} {bytes}"
            );
        }
    }
}

#[test]
fn a_tab_killed_while_loading_settling_or_taking_away_loses_nothing() {
    type Act = fn(&HostileShelf, &Held<Fish>);
    let acts: [(&str, Act); 3] = [
        ("load", |shelf, _| drop(start(shelf))),
        ("settle", |shelf, _| drop(shop().settle(shelf, "bream"))),
        ("take away", |shelf, held| {
            drop(shop().remove(shelf, held, NOW))
        }),
    ];
    for (name, shelf, held) in shelves() {
        for (act, run) in acts {
            for (write, bytes) in (0..4).flat_map(|write| (0..60).map(move |bytes| (write, bytes)))
            {
                let torn = shelf.at_next_start();
                torn.mood.set(Mood::Dies { write, bytes });
                run(&torn, &held);
                let loaded = start(&torn.at_next_start());
                let gone = act == "take away" && torn.text(A).is_none() && torn.text(B).is_none();
                let found: Vec<_> = loaded.records.iter().map(|found| &found.record).collect();
                assert_eq!(
                    found,
                    if gone { vec![] } else { vec![&held.record] },
                    "{name} {act} {write}"
                );
            }
        }
    }
}
