//! Several tabs on one shelf: no change that was made in any of them is lost, and none is made twice.

use proptest::prelude::*;
use scaleside::base::refusal::Refusal;
use scaleside::store::outcome::{Fault, Held, Outcome};

use crate::bench::{Because, Fish, NOW, Shop, kept, not_kept, on_shelf, shop, tap, taps};
use crate::hostile::{HostileShelf, Mood};

#[test]
fn a_tap_is_made_on_top_of_what_another_tab_has_stored() {
    let shelf = HostileShelf::kind();
    let held = on_shelf(&shelf, &["weighed"]);
    let (mut one, mut other) = (shop(), shop());
    kept(one.commit(&shelf, &held, NOW, tap("one")));
    let outcome = other.commit(&shelf, &held, NOW, tap("other"));
    let Outcome::Kept {
        held, merged: true, ..
    } = outcome
    else {
        panic!("{outcome:?}")
    };
    assert_eq!(held.record.taps, ["weighed", "one", "other"]);
    assert_eq!(one.reread(&shelf, "bream"), Ok(Some(held.clone())));
    let outcome = other.commit(&shelf, &held, NOW, tap("again"));
    assert!(
        matches!(outcome, Outcome::Kept { merged: false, .. }),
        "{outcome:?}"
    );
}

#[test]
fn a_tab_that_reads_back_the_others_text_makes_its_change_again() {
    let shelf = HostileShelf::kind();
    let held = on_shelf(&shelf, &["weighed"]);
    let (before, behind) = (shelf.at_next_start(), held.clone());
    // The other tab read the shelf before this tab's write, and writes after it.
    shelf
        .meanwhile
        .replace(Some(Box::new(move |shelf: &HostileShelf| {
            kept(shop().commit(&before, &behind, NOW, tap("other")));
            shelf.texts.replace(before.texts.borrow().clone());
        })));
    let outcome = shop().commit(&shelf, &held, NOW, tap("one"));
    assert!(
        matches!(outcome, Outcome::Kept { merged: true, .. }),
        "{outcome:?}"
    );
    assert_eq!(taps(&shelf), ["weighed", "other", "one"]);
}

#[test]
fn a_waiting_change_that_the_other_tabs_work_rules_out_is_reported() {
    let once = |name: &'static str| {
        move |before: &Fish| {
            if before.taps.iter().any(|tap| tap == "turned") {
                return Err(Because("The fish is turned already.".into()).into());
            }
            tap(name)(before)
        }
    };
    let shelf = HostileShelf::kind();
    let held = on_shelf(&shelf, &["weighed"]);
    let mut one = shop();
    shelf.mood.set(Mood::ReadOnly);
    let (in_hand, _) = not_kept(one.commit(&shelf, &held, NOW, once("turned")));
    shelf.mood.set(Mood::Kind);
    kept(shop().commit(&shelf, &held, NOW, once("turned")));
    let outcome = one.commit(&shelf, &in_hand, NOW, tap("plated"));
    let Outcome::Kept {
        held,
        merged: true,
        left_out,
    } = outcome
    else {
        panic!("{outcome:?}")
    };
    assert_eq!(held.record.taps, ["weighed", "turned", "plated"]);
    let left_out: Vec<String> = left_out.iter().map(Refusal::to_string).collect();
    assert_eq!(left_out, ["The fish is turned already."]);
}

#[test]
fn a_shelf_that_another_tab_overwrites_every_time_is_given_up_with_a_sentence() {
    let shelf = HostileShelf::kind();
    let held = on_shelf(&shelf, &["weighed"]);
    shelf.meanwhile.replace(Some(rival(0)));
    let (in_hand, fault) = not_kept(shop().commit(&shelf, &held, NOW, tap("mine")));
    assert_eq!(fault, Fault::ChangedElsewhere);
    assert_eq!(in_hand.record.taps.last().unwrap(), "mine");
}

/// Overwrites each put with a copy of the other tab's own, two counts ahead.
fn rival(number: u64) -> Box<dyn FnOnce(&HostileShelf)> {
    Box::new(move |shelf| {
        let key = shelf.touched.borrow().last().unwrap().clone();
        let theirs = crate::bench::fish(&["rival"]);
        let text =
            scaleside::store::envelope::seal(&theirs, (100 + number) << 20, crate::bench::BUILD);
        shelf.set(&key, &text.unwrap());
        shelf.meanwhile.replace(Some(rival(number + 1)));
    })
}

/// Left in the background while so many others wrote that no copy names it any more.
#[test]
fn a_tab_that_was_left_for_long_makes_nothing_twice() {
    let shelf = HostileShelf::kind();
    let held = on_shelf(&shelf, &["weighed"]);
    let mut left = shop();
    let mut latest = kept(left.commit(&shelf, &held, NOW, tap("left")));
    for number in 0..20 {
        let name = number.to_string();
        latest = kept(shop().commit(&shelf, &latest, NOW, tap(&name)));
        let seen = left.reread(&shelf, "bream").unwrap().unwrap();
        assert_eq!(seen.record, latest.record);
        assert_eq!(left.mend(&shelf, &seen, NOW), None);
    }
    kept(left.commit(&shelf, &latest, NOW, tap("back")));
    let found = taps(&shelf);
    assert_eq!(found.len(), 23, "{found:?}");
    assert_eq!(found.iter().filter(|tap| *tap == "left").count(), 1);
}

/// What another tab took away and put back holds what was tapped before.
#[test]
fn a_record_that_comes_back_is_not_tapped_again() {
    let shelf = HostileShelf::kind();
    let held = on_shelf(&shelf, &["weighed"]);
    let (mut one, mut other) = (shop(), shop());
    let latest = kept(one.commit(&shelf, &held, NOW, tap("one")));
    other.remove(&shelf, &latest, NOW).unwrap();
    assert_eq!(one.reread(&shelf, "bream"), Ok(None));
    one.forget("bream");
    let back = Held::from_elsewhere("bream", latest.record, latest.counter);
    let back = kept(other.commit(&shelf, &back, NOW, tap("back")));
    assert_eq!(one.mend(&shelf, &back, NOW), None);
    kept(one.commit(&shelf, &back, NOW, tap("again")));
    assert_eq!(taps(&shelf), ["weighed", "one", "back", "again"]);
}

#[derive(Clone, Debug)]
enum Act {
    Tap(Mood),
    Reread,
    Settle,
    Restart,
}

fn acts(blind: bool) -> impl Strategy<Value = Vec<(usize, Act)>> {
    let mood = prop_oneof![
        4 => Just(Mood::Kind),
        1 => Just(Mood::Full(0)),
        1 => Just(Mood::ReadOnly),
        1 => Just(Mood::Refuses),
        1 => Just(Mood::Forgets),
        1 => (0_usize..200).prop_map(Mood::Cuts),
        u32::from(blind) => Just(Mood::Blind),
    ];
    let act = prop_oneof![
        8 => mood.prop_map(Act::Tap),
        2 => Just(Act::Reread),
        1 => Just(Act::Settle),
        1 => Just(Act::Restart),
    ];
    prop::collection::vec((0..3_usize, act), 1..40)
}

/// Runs three tabs and returns the taps that were made, and those a new start finds.
fn run(acts: Vec<(usize, Act)>) -> (Vec<String>, Vec<String>) {
    let shelf = HostileShelf::kind();
    let first = on_shelf(&shelf, &[]);
    let mut tabs: Vec<(Shop, Held<Fish>, bool)> =
        (0..3).map(|_| (shop(), first.clone(), false)).collect();
    let mut made = Vec::new();
    for (number, (tab_number, act)) in acts.into_iter().enumerate() {
        let (store, held, unkept) = &mut tabs[tab_number];
        match act {
            Act::Tap(mood) => {
                shelf.mood.set(mood);
                let name = format!("{tab_number}:{number}");
                match store.commit(&shelf, held, NOW, tap(&name)) {
                    Outcome::Kept { held: now, .. } => (*held, *unkept) = (now, false),
                    Outcome::NotKept { held: now, .. } => (*held, *unkept) = (now, true),
                    Outcome::Refused(refusal) => panic!("{refusal}"),
                }
                made.push(name);
                shelf.mood.set(Mood::Kind);
            }
            Act::Reread => *held = store.reread(&shelf, "bream").unwrap().unwrap(),
            Act::Settle => store.settle(&shelf, "bream").unwrap(),
            // A tab with nothing waiting may be closed and opened again at any time.
            Act::Restart if !*unkept => {
                *store = shop();
                *held = store.load_all(&shelf, NOW).records.remove(0);
            }
            Act::Restart => {}
        }
    }
    for (store, held, _) in &mut tabs {
        kept(store.retry(&shelf, held, NOW));
    }
    (made, taps(&shelf))
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(1_000))]

    #[test]
    fn three_tabs_on_a_bad_shelf_lose_nothing_and_do_nothing_twice(acts in acts(false)) {
        let (mut made, mut found) = run(acts);
        made.sort();
        found.sort();
        prop_assert_eq!(made, found);
    }

    /// A write that arrives although it could not be read back, and is then buried under two more of other
    /// tabs, may be made a second time; it is never lost.
    #[test]
    fn three_tabs_on_a_shelf_that_goes_blind_lose_nothing(acts in acts(true)) {
        let (made, found) = run(acts);
        for tap in made {
            prop_assert!(found.contains(&tap), "{} is lost", tap);
        }
    }
}
