//! Two builds on one shelf: the older one stops writing, and can be told to go on.

use scaleside::store::envelope::Unreadable;
use scaleside::store::outcome::Fault;
use scaleside::store::records::Store;
use scaleside::store::standing::{Newer, Standing, standing, take_over};

use crate::bench::{A, B, BUILD, Fish, NOW, kept, not_kept, on_shelf, shop, start, tap, taps};
use crate::hostile::HostileShelf;
use crate::marks::sealed_in_format;

const FUTURE: &str = "scaleside/2/fish/bream/a";

fn newer() -> Store<Fish> {
    Store::new("fish", BUILD + 1)
}

#[test]
fn a_running_tab_of_an_older_build_stops_at_its_next_tap() {
    let shelf = HostileShelf::kind();
    let mut old = shop();
    let held = on_shelf(&shelf, &["weighed"]);
    assert_eq!(shelf.text("scaleside/build").as_deref(), Some("7"));
    kept(newer().commit(&shelf, &held, NOW, tap("by the newer")));
    assert_eq!(shelf.text("scaleside/build").as_deref(), Some("8"));
    shelf.touched.borrow_mut().clear();

    let why = Newer::Build(8);
    let (in_hand, fault) = not_kept(old.commit(&shelf, &held, NOW, tap("by the older")));
    assert_eq!(fault, Fault::ReadOnly(why));
    assert_eq!(
        in_hand.record.taps,
        ["weighed", "by the newer", "by the older"]
    );
    assert_eq!(old.settle(&shelf, "bream"), Err(Fault::ReadOnly(why)));
    assert_eq!(old.remove(&shelf, &in_hand, NOW), Err(Fault::ReadOnly(why)));
    shelf.set("scaleside/1/fish/damaged/a", "torn");
    let loaded = old.load_all(&shelf, NOW);
    assert_eq!(
        (loaded.standing, loaded.records.len()),
        (Standing::ReadOnly { why }, 1)
    );
    assert_eq!(loaded.aside[0].moved_to, None);
    assert_eq!(
        shelf.touched.borrow().len(),
        0,
        "an older build touches nothing"
    );
}

#[test]
fn the_cook_can_let_an_older_build_go_on_and_the_newer_takes_over_again() {
    let shelf = HostileShelf::kind();
    let mut old = shop();
    let held = on_shelf(&shelf, &["weighed"]);
    let held_by_newer = kept(newer().commit(&shelf, &held, NOW, tap("newer")));
    let (held, _) = not_kept(old.commit(&shelf, &held, NOW, tap("older")));

    assert_eq!(
        take_over(&shelf, BUILD, 9),
        Err(Fault::ReadOnly(Newer::Build(8))),
        "not the build seen"
    );
    take_over(&shelf, BUILD, 8).unwrap();
    assert_eq!(standing(&shelf, BUILD), Ok(Standing::Writing));
    kept(old.commit(&shelf, &held, NOW, tap("older still")));
    kept(newer().commit(&shelf, &held_by_newer, NOW, tap("newer again")));
    let (_, fault) = not_kept(old.commit(&shelf, &held, NOW, tap("last")));
    assert_eq!(fault, Fault::ReadOnly(Newer::Build(8)));
    assert_eq!(
        taps(&shelf),
        ["weighed", "newer", "older", "older still", "newer again"]
    );
    take_over(&shelf, BUILD + 1, 3).unwrap();
    assert_eq!(
        shelf.text("scaleside/build").as_deref(),
        Some("8"),
        "nothing to take over"
    );
}

#[test]
fn a_newer_format_is_read_only_whatever_the_build_number_says() {
    for (key, taps_left) in [
        (FUTURE, 1),
        ("scaleside/2/stock/bones/z", 1),
        (A, 1),
        (B, 0),
    ] {
        let shelf = HostileShelf::kind();
        let held = on_shelf(&shelf, &["weighed"]);
        let text = sealed_in_format(2, "[\"from the future\"]");
        shelf.set(key, &text);
        shelf.touched.borrow_mut().clear();
        let mut store = shop();
        let loaded = store.load_all(&shelf, NOW);
        let why = Newer::Format(2);
        assert_eq!(loaded.standing, Standing::ReadOnly { why }, "{key}");
        assert_eq!(loaded.records[0].record.taps.len(), taps_left, "{key}");
        for note in &loaded.aside {
            assert_eq!(
                (note.reason, &note.moved_to),
                (Unreadable::FutureFormat(2), &None)
            );
        }
        let (_, fault) = not_kept(store.commit(&shelf, &held, NOW, tap("older")));
        assert_eq!(fault, Fault::ReadOnly(why), "{key}");
        assert_eq!(store.remove(&shelf, &held, NOW), Err(Fault::ReadOnly(why)));
        assert_eq!(store.settle(&shelf, "bream"), Err(Fault::ReadOnly(why)));
        assert_eq!(shelf.touched.borrow().len(), 0, "{key}");
        assert_eq!(shelf.text(key), Some(text));
    }
}

#[test]
fn a_format_cannot_be_taken_over() {
    let shelf = HostileShelf::kind();
    on_shelf(&shelf, &["weighed"]);
    shelf.set(FUTURE, &sealed_in_format(2, "1"));
    shelf.set("scaleside/build", "8");
    assert_eq!(
        take_over(&shelf, BUILD, 8),
        Err(Fault::ReadOnly(Newer::Format(2)))
    );
}

#[test]
fn a_stray_key_that_only_looks_newer_stops_nothing() {
    let damaged = sealed_in_format(2, "1").replace("\"body\":1", "\"body\":2");
    for (key, text) in [
        (FUTURE, ""),
        (FUTURE, damaged.as_str()),
        ("scaleside/99/whatever", "{}"),
        ("scaleside/build", "not a number"),
        ("scaleside/build", "99999999999999999999999"),
    ] {
        let shelf = HostileShelf::kind();
        let held = on_shelf(&shelf, &["weighed"]);
        shelf.set(key, text);
        assert_eq!(start(&shelf).standing, Standing::Writing, "{key} {text}");
        kept(shop().commit(&shelf, &held, NOW, tap("filleted")));
        assert_eq!(taps(&shelf), ["weighed", "filleted"]);
        assert!(
            shelf.texts.borrow().values().any(|kept| kept == text),
            "{key} {text} is kept"
        );
    }
}
