//! Taps of every kind in several tabs that hear of each other late: what comes of it are the taps made one after the
//! other, in some order, each on the thing it named. One that can't be made is told of.

use std::collections::BTreeMap;
use std::fmt::Debug;

use proptest::prelude::*;
use scaleside::store::entry::Entry;
use serde::{Deserialize, Serialize};

use crate::bench::{Because, NOW};
use crate::browser::{Browser, Step, steps};
use crate::replayed_taps::{self, Named};

/// A record that writes down which taps were made on it, in their order.
#[derive(Clone, Serialize, Deserialize)]
struct Witness<T> {
    record: T,
    made: Vec<usize>,
}

/// As a phone reads it again.
fn stored<T: Entry>(record: &T) -> T {
    serde_json::from_str(&serde_json::to_string(record).unwrap()).unwrap()
}

fn run<T: Entry + Named + Debug>(
    tabs: usize,
    first: T,
    tap: fn(&T, usize, u32) -> T::Action,
    steps: Vec<Step<u32>>,
) where
    T::Action: Clone + Debug,
{
    let first = stored(&first);
    let witness = Witness {
        record: first.clone(),
        made: Vec::new(),
    };
    let mut browser = Browser::open(tabs, witness);
    let mut tapped = BTreeMap::new();
    for (number, step) in steps.into_iter().enumerate() {
        match step {
            Step::Tap(at, seed) => {
                let action = tap(&browser.tabs[at].held.record.record, number, seed);
                tapped.insert(number, action.clone());
                browser.tabs[at].tap(move |before: &Witness<T>| {
                    let record = (before.record.apply(&action, NOW))
                        .map_err(|why| Because(format!("{number}: {why}")))?;
                    let mut made = before.made.clone();
                    made.push(number);
                    Ok(Witness { record, made })
                });
            }
            Step::Take(at) => drop(browser.take(at)),
            Step::Show(at) => drop(browser.show(at)),
            Step::Hear(at) => drop(browser.hear(at)),
        }
    }
    browser.settle();
    let found: Vec<Witness<T>> = browser.tabs.iter().map(|tab| tab.found()).collect();
    let made = &found[0].made;
    let mut one_by_one = first;
    for number in made {
        let action = tapped.remove(number).expect("a tap is made once");
        let next = stored(&one_by_one.apply(&action, NOW).unwrap());
        one_by_one.differs_only_where(&next, &action);
        one_by_one = next;
    }
    for (tab, found) in found.iter().enumerate() {
        assert_eq!(found.record, one_by_one, "tab {tab}");
        assert_eq!(found.made, *made, "tab {tab}");
    }
    let told: Vec<String> = (browser.tabs.iter().flat_map(|tab| &tab.told))
        .map(ToString::to_string)
        .collect();
    for (number, action) in tapped {
        let opening = format!("{number}: ");
        let is_told = told.iter().any(|told| told.starts_with(&opening));
        assert!(is_told, "nothing is said of {number}: {action:?}");
    }
}

/// The case that began it: one tab takes the first line out while another types in the second.
#[test]
fn a_line_is_typed_where_it_was_meant_after_another_tab_took_one_out() {
    use scaleside::cards::recipe::RecipeAction;
    let first = stored(&replayed_taps::card(&["Oil", "Salt", "Bream", "Lemon"]));
    let (mut one, other) = (first.clone(), first.clone());
    let bream = other.lines[2].clone();
    let mut typed = bream.clone();
    typed.quantity = "310".into();
    let drop = RecipeAction::DropLine(one.lines[0].id.clone());
    one = stored(&one.apply(&drop, NOW).unwrap());
    let (was, is) = (Box::new(bream.clone()), Box::new(typed.clone()));
    let typing = RecipeAction::Line {
        id: bream.id,
        was,
        is,
    };
    let merged = stored(&one.apply(&typing, NOW).unwrap());
    let names: Vec<(&str, &str)> = (merged.lines.iter())
        .map(|line| (line.name.as_str(), line.quantity.as_str()))
        .collect();
    assert_eq!(names, [("Salt", ""), ("Bream", "310"), ("Lemon", "")]);
    let gone = RecipeAction::DropLine(typed.id);
    let without = merged.apply(&gone, NOW).unwrap();
    for late in [typing, gone] {
        let refusal = without.apply(&late, NOW).unwrap_err().to_string();
        assert_eq!(refusal, "This line was removed in another tab.");
    }
}

macro_rules! replays {
    ($($name:ident: $first:expr, $tap:expr;)*) => {
        proptest! {
            #![proptest_config(ProptestConfig::with_cases(400))]
            $(#[test]
            fn $name(two in steps(2, any::<u32>()), three in steps(3, any::<u32>())) {
                run(2, $first, $tap, two);
                run(3, $first, $tap, three);
            })*
        }
    };
}

replays! {
    taps_on_a_dish: replayed_taps::card(&["Oil", "Salt", "Bream", "Lemon"]), replayed_taps::of_card;
    taps_on_a_fish: replayed_taps::fish(), replayed_taps::of_fish;
    taps_on_a_class: replayed_taps::class(), replayed_taps::of_class;
    taps_on_a_price: replayed_taps::quote(), replayed_taps::of_quote;
    taps_on_a_pan: replayed_taps::pan(), replayed_taps::of_pan;
    taps_on_a_result_number: replayed_taps::credit(), replayed_taps::of_credit;
    taps_on_settings: scaleside::fish::settings::Settings::default(), replayed_taps::of_settings;
}
