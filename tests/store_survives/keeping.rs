//! Keeping, finding, settling and taking away on a shelf that behaves.

use proptest::prelude::*;
use scaleside::store::keys;
use scaleside::store::outcome::{Fault, Outcome};
use scaleside::store::records::Store;

use crate::bench::{A, B, Because, Fish, NOW, fish, kept, on_shelf, shop, start, tap, taps};
use crate::hostile::HostileShelf;

#[test]
fn a_tap_writes_one_slot_of_its_own_record_and_nothing_else() {
    let shelf = HostileShelf::kind();
    let mut store = shop();
    for number in 0..10_000 {
        kept(store.create(&shelf, &format!("fish{number}"), fish(&["weighed"]), NOW));
    }
    let held = on_shelf(&shelf, &["weighed"]);
    let loaded = start(&shelf);
    assert_eq!(
        (
            loaded.records.len(),
            loaded.aside.len(),
            loaded.faults.len()
        ),
        (10_001, 0, 0)
    );
    shelf.touched.borrow_mut().clear();
    let held = kept(store.commit(&shelf, &held, NOW, tap("filleted")));
    kept(store.commit(&shelf, &held, NOW, tap("chilled")));
    assert_eq!(*shelf.touched.borrow(), [A, B]);
}

#[test]
fn somebody_elses_keys_are_never_touched() {
    let others = [
        ("other-app", "{\"format\":1}"),
        ("scalesideways", "torn {"),
        ("scaleside/1/fish/bream/c", "not a slot"),
        ("scaleside/1/fish/bream/a/b", "not a slot"),
        ("scaleside/1/fish/br eam/a", "not an id"),
        ("scaleside/01/fish/bream/a", "not a format"),
        ("scaleside/1/stock/bream/a", "of another kind"),
        ("", "under no name"),
    ];
    let shelf = HostileShelf::kind();
    others.iter().for_each(|(key, text)| shelf.set(key, text));
    let held = on_shelf(&shelf, &["weighed", "filleted"]);
    assert_eq!(start(&shelf).records.len(), 1);
    shop().settle(&shelf, "bream").unwrap();
    shop().remove(&shelf, &held, NOW).unwrap();
    for (key, text) in others {
        assert_eq!(shelf.text(key).as_deref(), Some(text), "{key}");
        assert!(
            !shelf.touched.borrow().iter().any(|touched| touched == key),
            "{key}"
        );
        assert_eq!(shop().id_of(key), None, "{key}");
    }
    assert_eq!(
        (shop().id_of(A), shop().id_of(B)),
        (Some("bream"), Some("bream"))
    );
}

#[test]
fn a_refused_change_touches_nothing() {
    let shelf = HostileShelf::kind();
    let held = on_shelf(&shelf, &["weighed"]);
    shelf.touched.borrow_mut().clear();
    let long = tap(&"x".repeat(1 << 20));
    let refusals = [
        shop().commit(&shelf, &held, NOW, |_| Err(Because("No.".into()).into())),
        shop().commit(&shelf, &held, NOW, long),
        shop().create(&shelf, "bream", Fish::default(), NOW),
        shop().create(&shelf, "", Fish::default(), NOW),
        shop().create(&shelf, "bream/a", Fish::default(), NOW),
        shop().create(&shelf, "brême", Fish::default(), NOW),
        shop().create(&shelf, &"b".repeat(65), Fish::default(), NOW),
    ];
    for outcome in refusals {
        assert!(matches!(outcome, Outcome::Refused(_)), "{outcome:?}");
    }
    let no_number = Store::<f64>::new("figure", 1).create(&shelf, "price", f64::NAN, NOW);
    assert!(
        matches!(no_number, Outcome::Refused(_)),
        "stored as null, it would never open again"
    );
    assert_eq!(shelf.touched.borrow().len(), 0);
}

#[test]
fn a_settled_record_takes_half_the_room_and_can_still_change() {
    let shelf = HostileShelf::kind();
    let held = on_shelf(&shelf, &["weighed", "filleted"]);
    shop().settle(&shelf, "bream").unwrap();
    assert_eq!(start(&shelf).records, std::slice::from_ref(&held));
    assert_eq!(
        [A, B]
            .iter()
            .filter(|key| shelf.text(key).is_some())
            .count(),
        1
    );
    shop().settle(&shelf, "bream").unwrap();
    assert_eq!(start(&shelf).records, std::slice::from_ref(&held));
    kept(shop().commit(&shelf, &held, NOW, tap("chilled")));
    assert_eq!(taps(&shelf), ["weighed", "filleted", "chilled"]);
}

#[test]
fn a_record_changed_in_another_tab_is_not_taken_away() {
    let shelf = HostileShelf::kind();
    let (mut one, mut other) = (shop(), shop());
    let held = on_shelf(&shelf, &["weighed"]);
    let newer = kept(other.commit(&shelf, &held, NOW, tap("filleted")));
    assert_eq!(one.remove(&shelf, &held, NOW), Err(Fault::ChangedElsewhere));
    assert_eq!(taps(&shelf), ["weighed", "filleted"]);
    one.remove(&shelf, &newer, NOW).unwrap();
    assert_eq!(start(&shelf).records, []);
}

#[test]
fn a_record_taken_away_in_another_tab_is_stored_again_by_a_tap() {
    let shelf = HostileShelf::kind();
    let mut one = shop();
    let held = on_shelf(&shelf, &["weighed"]);
    shop().remove(&shelf, &held, NOW).unwrap();
    assert_eq!(one.reread(&shelf, "bream"), Ok(None));
    kept(one.commit(&shelf, &held, NOW, tap("filleted")));
    assert_eq!(taps(&shelf), ["weighed", "filleted"]);
}

proptest! {
    /// The room is counted as browsers count it, against Rust's own UTF-16 encoder on the whole shelf.
    #[test]
    fn the_room_used_is_two_bytes_for_each_utf_16_unit(notes in prop::collection::vec(".{0,40}", 1..5)) {
        let shelf = HostileShelf::kind();
        let names: Vec<&str> = notes.iter().map(String::as_str).collect();
        on_shelf(&shelf, &names);
        let ours = shelf.units();
        shelf.set("other-app", "🐟 not ours");
        prop_assert_eq!(keys::used_bytes(&shelf), Ok(2 * ours as u64));
        prop_assert_eq!(taps(&shelf), notes);
    }
}
