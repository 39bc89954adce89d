//! A store that remembers what it wrote still goes by what stands on the shelf.

use crate::bench::{A, NOW, kept, shop, tap, taps};
use crate::hostile::HostileShelf;

#[test]
fn any_flipped_bit_is_seen_by_the_tab_that_wrote_the_text_itself() {
    let shelf = HostileShelf::kind();
    let mut store = shop();
    let held = kept(store.create(&shelf, "bream", crate::bench::fish(&[]), NOW));
    let held = kept(store.commit(&shelf, &held, NOW, tap("weighed")));
    let held = kept(store.commit(&shelf, &held, NOW, tap("filleted")));
    let newest = shelf.text(A).unwrap();
    assert!(newest.contains("filleted"));
    for (at, bit) in (0..newest.len()).flat_map(|at| (0..8).map(move |bit| (at, bit))) {
        let shelf = shelf.at_next_start();
        let mut bytes = newest.clone().into_bytes();
        bytes[at] ^= 1 << bit;
        let damaged = String::from_utf8_lossy(&bytes).into_owned();
        shelf.set(A, &damaged);
        let found = store.reread(&shelf, "bream").unwrap().unwrap();
        // The copy before it is the newest now, and the tap that is not in it is made again.
        assert!(found.counter < held.counter, "{damaged}");
        assert_eq!(found.record.taps, ["weighed", "filleted"], "{damaged}");
        // What is in hand is newer than what is left, and goes on top of it.
        kept(shop().commit(&shelf, &held, NOW, tap("chilled")));
        assert_eq!(taps(&shelf), ["weighed", "filleted", "chilled"]);
        let aside = format!("scaleside/aside/{}/{A}", NOW.0);
        assert_eq!(shelf.text(&aside), Some(damaged));
    }
}

#[test]
fn a_text_that_another_tab_put_in_the_place_of_a_known_one_is_read() {
    let shelf = HostileShelf::kind();
    let (mut one, mut other) = (shop(), shop());
    let held = kept(one.create(&shelf, "bream", crate::bench::fish(&[]), NOW));
    let mut theirs = held.clone();
    for name in ["weighed", "filleted", "chilled"] {
        theirs = kept(other.commit(&shelf, &theirs, NOW, tap(name)));
    }
    let ours = kept(one.commit(&shelf, &held, NOW, tap("cooked")));
    let all = ["weighed", "filleted", "chilled", "cooked"];
    assert_eq!(ours.record.taps, all);
    assert_eq!(taps(&shelf), all);
}
