//! A small record in which every change leaves a mark, and the shortest way to make one.

use std::fmt;
use std::sync::atomic::{AtomicU32, Ordering};

use scaleside::base::instant::Instant;
use scaleside::base::refusal::{Refusal, Said};
use scaleside::store::outcome::{Fault, Held, Loaded, Outcome};
use scaleside::store::records::Store;
use serde::{Deserialize, Serialize};

use crate::hostile::HostileShelf;

pub const BUILD: u64 = 7;
pub const NOW: Instant = Instant(1_700_000_000_000);
pub const A: &str = "scaleside/1/fish/bream/a";
pub const B: &str = "scaleside/1/fish/bream/b";

#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Fish {
    pub taps: Vec<String>,
}

pub type Shop = Store<Fish>;

/// A reason of a test's own, in its words.
pub struct Because(pub String);

impl Said for Because {}

impl fmt::Display for Because {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.0)
    }
}

/// A store in a tab of its own.
pub fn shop() -> Shop {
    static TABS: AtomicU32 = AtomicU32::new(1);
    shop_in(TABS.fetch_add(1, Ordering::Relaxed))
}

/// A store in the tab of this number.
pub fn shop_in(tab: u32) -> Shop {
    Store::new("fish", BUILD).signed(tab)
}

pub fn fish(taps: &[&str]) -> Fish {
    Fish {
        taps: taps.iter().map(|&tap| tap.to_owned()).collect(),
    }
}

/// A change that leaves the mark `tap`.
pub fn tap(tap: &str) -> impl Fn(&Fish) -> Result<Fish, Refusal> + Send + Sync + 'static {
    let tap = tap.to_owned();
    move |before: &Fish| {
        let mut after = before.clone();
        after.taps.push(tap.clone());
        Ok(after)
    }
}

pub fn kept(outcome: Outcome<Fish>) -> Held<Fish> {
    match outcome {
        Outcome::Kept { held, left_out, .. } if left_out.is_empty() => held,
        other => panic!("not kept: {other:?}"),
    }
}

pub fn not_kept(outcome: Outcome<Fish>) -> (Held<Fish>, Fault) {
    match outcome {
        Outcome::NotKept { held, fault } => (held, fault),
        other => panic!("expected a fault: {other:?}"),
    }
}

/// A fish on the shelf with one tap for each name, the last in slot `b` when there are two.
pub fn on_shelf(shelf: &HostileShelf, taps: &[&str]) -> Held<Fish> {
    let mut store = shop();
    let held = kept(store.create(shelf, "bream", Fish::default(), NOW));
    taps.iter().fold(held, |held, name| {
        kept(store.commit(shelf, &held, NOW, tap(name)))
    })
}

/// What a new start finds.
pub fn start(shelf: &HostileShelf) -> Loaded<Fish> {
    shop().load_all(shelf, NOW)
}

/// The taps of the only record that a new start finds.
pub fn taps(shelf: &HostileShelf) -> Vec<String> {
    let loaded = start(&shelf.at_next_start());
    assert_eq!(loaded.records.len(), 1, "{loaded:?}");
    loaded.records[0].record.taps.clone()
}
