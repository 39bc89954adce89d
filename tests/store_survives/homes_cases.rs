//! Two homes, case by case: builds, what is no record, damage, and how long a removal is remembered.

use proptest::prelude::*;
use scaleside::store::homes::{Joined, Joining};
use scaleside::store::keys;
use scaleside::store::outcome::Fault;
use scaleside::store::shelf::Shelf;

use crate::bench::{A, B, BUILD, NOW, fish, shop};
use crate::homes::{FirstHome, Phone, join, tell};

fn with(first: &[(&str, &str)], second: &[(&str, &str)], name: &str, both_ways: bool) -> Joined {
    let home = FirstHome::default();
    for (key, text) in first {
        home.change(key, Some(text));
    }
    let second = (second
        .iter()
        .map(|(key, text)| ((*key).to_owned(), (*text).to_owned())))
    .collect();
    join(&home, &second, name, both_ways, &shop(), NOW)
}

#[test]
fn the_newest_build_of_both_homes_counts_unless_the_cook_went_back() {
    let key = keys::BUILD;
    let build = |joined: Joined| (joined.tell, joined.brought);
    let said = |text: &str| vec![(key.to_owned(), Some(text.to_owned()))];
    let cases = [
        (vec![], vec![], true, (vec![], vec![])),
        (vec!["7"], vec![], true, (said("7"), vec![])),
        (vec![], vec!["9"], true, (vec![], said("9"))),
        (vec!["7"], vec!["9"], true, (vec![], said("9"))),
        (vec!["7"], vec!["9"], false, (said("7"), vec![])),
        (vec!["7"], vec!["x"], true, (said("7"), vec![])),
        (vec!["x"], vec!["9"], true, (vec![], said("9"))),
        (vec!["9"], vec!["9"], true, (vec![], vec![])),
        (vec!["9"], vec!["7"], true, (vec![], vec![])),
        (vec!["9"], vec![], false, (vec![], vec![])),
    ];
    for (first, second, both_ways, expected) in cases {
        let first: Vec<_> = first.into_iter().map(|text| (key, text)).collect();
        let second: Vec<_> = second.into_iter().map(|text| (key, text)).collect();
        let joined = build(with(&first, &second, key, both_ways));
        assert_eq!(joined, expected, "{first:?} {second:?} {both_ways}");
    }
}

#[test]
fn an_older_build_leaves_both_homes_alone() {
    let home = FirstHome::default();
    home.change(keys::BUILD, Some("8"));
    let joining = Joining {
        build: BUILD,
        now: NOW,
        both_ways: true,
        began_before: &|_, _, _| false,
    };
    let second = [(A.to_owned(), "text".to_owned())].into();
    let refused = joining.join(&home, &second, A);
    assert!(matches!(refused, Err(Fault::ReadOnly(_))), "{refused:?}");
    assert_eq!(home.keys(), Ok(vec![keys::BUILD.to_owned()]));
}

#[test]
fn what_a_build_to_come_keeps_comes_back_as_it_is() {
    let key = "scaleside/2/fish/bream/a";
    let joined = with(&[], &[(key, "whatever")], key, true);
    assert_eq!(
        joined.brought,
        [(key.to_owned(), Some("whatever".to_owned()))]
    );
    let joined = with(&[], &[(key, "whatever")], key, false);
    assert_eq!(
        joined.tell,
        [(key.to_owned(), None)],
        "it was taken away here"
    );
}

#[test]
fn a_damaged_copy_of_the_second_home_is_set_aside_whole_and_told_of() {
    let mut phone = Phone::new();
    phone.join_all();
    phone.tap("bream");
    phone.tap("bream");
    phone.flush();
    for cut in [0, 1, 40] {
        let mut phone_b = Phone::new();
        let text = phone.second[B].clone();
        let damaged = text[..cut].to_owned();
        phone_b.second = phone.second.clone();
        phone_b.second.insert(B.to_owned(), damaged.clone());
        let joined = join(&phone_b.first, &phone_b.second, A, true, &phone_b.shop, NOW);
        assert_eq!(joined.aside, 1, "cut to {cut}");
        let aside = keys::asides(&phone_b.first).unwrap();
        assert_eq!(aside.into_values().collect::<Vec<_>>(), [damaged]);
        assert_eq!(phone_b.read("bream").unwrap().record, fish(&["1"]));
        tell(&mut phone_b.second, &joined);
        assert_eq!(phone_b.second.get(B), None, "its place is free again");
    }
}

#[test]
fn the_mark_of_a_removal_goes_once_both_homes_had_it_for_a_day() {
    let mut phone = Phone::new();
    phone.join_all();
    phone.tap("bream");
    phone.flush();
    phone.remove("bream");
    phone.flush();
    let mark = "scaleside/gone/fish/bream";
    let marked = |phone: &Phone| {
        let here = phone.first.get(mark).unwrap();
        (here.clone(), phone.second.get(mark).cloned() == here)
    };
    assert!(marked(&phone).0.is_some() && marked(&phone).1);
    // A clock that is set back keeps it.
    for (days, stays) in [(0, true), (-400, true), (1, true), (2, false)] {
        phone.now = NOW.plus_ms(days * 24 * 3_600_000 + 1);
        phone.restart();
        phone.join_all();
        assert_eq!(marked(&phone).0.is_some(), stays, "after {days} days");
        assert!(marked(&phone).1);
    }
    // A damaged one is none.
    let mut phone = Phone::new();
    phone.tap("bream");
    phone.first.change(mark, Some("99999999999999 5 00000000"));
    phone.join_all();
    assert_eq!(phone.read("bream").unwrap().record, fish(&["1"]));
}

/// A text of the second home as it may have become: any at all, or one of ours that is cut or changed in one place.
fn spoilt(ours: &str) -> impl Strategy<Value = String> + use<> {
    let ours = ours.to_owned();
    let length = ours.len();
    let changed = (0..length, any::<u8>(), any::<bool>()).prop_map(move |(at, byte, cut)| {
        let mut bytes = ours.clone().into_bytes();
        bytes[at] = byte & 0x7f;
        if cut {
            bytes.truncate(at);
        }
        String::from_utf8(bytes).unwrap()
    });
    prop_oneof![".{0,80}", changed]
}

fn tapped() -> Phone {
    let mut phone = Phone::new();
    phone.join_all();
    phone.tap("bream");
    phone.tap("bream");
    phone.flush();
    phone
}

/// The mark of the removal of such a record.
fn removal() -> String {
    let mut phone = tapped();
    phone.remove("bream");
    phone.flush();
    phone.second["scaleside/gone/fish/bream"].clone()
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 500, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn whatever_the_second_home_holds_costs_nothing_here(
        a in spoilt(&tapped().second[A]),
        b in spoilt(&tapped().second[B]),
        gone in spoilt(&removal()),
    ) {
        // A mark that is whole does take the record away.
        prop_assume!(gone != removal());
        let mut phone = tapped();
        phone.second.extend([
            (A.to_owned(), a.clone()),
            (B.to_owned(), b.clone()),
            ("scaleside/gone/fish/bream".to_owned(), gone),
        ]);
        let before = phone.second.clone();
        phone.restart();
        phone.join_all();
        prop_assert_eq!(phone.read("bream").unwrap().record, fish(&["1", "2"]));
        // What could not be read there was set aside, and its place holds the good copy again.
        let aside: Vec<String> = keys::asides(&phone.first).unwrap().into_values().collect();
        for key in [A, B] {
            let text = phone.first.get(key).unwrap();
            prop_assert_eq!(phone.second.get(key), text.as_ref());
            prop_assert!(Some(&before[key]) == text.as_ref() || aside.contains(&before[key]));
        }
    }
}
