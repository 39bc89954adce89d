//! A start reads what its first screen shows, however much is kept: counts of what is read, on a shelf that counts.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::indexing_slicing,
    clippy::panic,
    missing_docs
)]

mod memory_shelf;

use std::cell::RefCell;
use std::collections::BTreeSet;

use memory_shelf::Memory;
use scaleside::base::id::new_id;
use scaleside::base::instant::Instant;
use scaleside::fish::action::Action;
use scaleside::fish::demo;
use scaleside::fish::record::Fish;
use scaleside::fish::settings::Settings;
use scaleside::store::cooking;
use scaleside::store::entry::Entry;
use scaleside::store::records::Store;
use scaleside::store::shelf::{Shelf, ShelfFault};
use scaleside::store::standing::Standing;
use scaleside::store::start::Start;

const BUILD: u64 = 7;
const NOW: Instant = Instant(1_773_099_000_000);
const MANY: i64 = 10_000;
/// What the list of fish shows at first.
const SHOWN: usize = 20;

/// A shelf that remembers which keys were read.
#[derive(Default)]
struct Counting {
    shelf: Memory,
    read: RefCell<Vec<String>>,
}

impl Counting {
    /// The records that were read since it was last asked.
    fn records(&self) -> BTreeSet<String> {
        let keys = self.read.take().into_iter();
        let records = keys.filter(|key| key.starts_with("scaleside/1/"));
        let id = |key: String| key.rsplit_once('/').unwrap().0.to_owned();
        records.map(id).collect()
    }
}

impl Shelf for Counting {
    fn get(&self, key: &str) -> Result<Option<String>, ShelfFault> {
        self.read.borrow_mut().push(key.to_owned());
        self.shelf.get(key)
    }

    fn put(&self, key: &str, value: &str) -> Result<(), ShelfFault> {
        self.shelf.put(key, value)
    }

    fn remove(&self, key: &str) -> Result<(), ShelfFault> {
        self.shelf.remove(key)
    }

    fn keys(&self) -> Result<Vec<String>, ShelfFault> {
        self.shelf.keys()
    }
}

/// Ten thousand fish, a minute apart; the one before the last but a thousand is being cooked.
fn full() -> (Counting, Vec<String>, String) {
    let shelf = Counting::default();
    let mut store = Store::<Fish>::new(Fish::KIND, BUILD);
    let (mut ids, mut cooks) = (Vec::new(), String::new());
    for nth in 0..MANY {
        let begun = NOW.plus_secs(60 * nth);
        let id = new_id(begun, 7);
        let mut fish = demo::bream(id.clone(), begun, &Settings::default());
        if nth == MANY - 1_000 {
            fish = fish.apply(&Action::Start { insist: true }, begun).unwrap();
            cooks.clone_from(&id);
        }
        store.create(&shelf, &id, fish, begun);
        ids.push(id);
    }
    ids.reverse();
    shelf.records();
    (shelf, ids, cooks)
}

/// What the first screen reads: the fish that cook, and those the list shows.
fn first_screen(shelf: &Counting) -> (Start, usize) {
    let start = Start::find(shelf, BUILD).unwrap();
    let mut store = Store::<Fish>::new(Fish::KIND, BUILD);
    let latest = start.latest_first(Fish::KIND);
    let mut read = 0;
    for id in start.cooking.iter().chain(latest.iter().take(SHOWN)) {
        read += store.load(shelf, id, NOW).records.len();
    }
    (start, read)
}

#[test]
fn a_start_with_ten_thousand_fish_reads_those_it_shows_and_those_that_cook() {
    let (shelf, ids, cooks) = full();
    let (start, read) = first_screen(&shelf);
    assert_eq!(start.latest_first(Fish::KIND), ids);
    assert_eq!(start.standing, Standing::Writing);
    assert_eq!((start.cooking.len(), read), (0, SHOWN));
    assert_eq!(shelf.records().len(), SHOWN);

    cooking::hint(&shelf, BUILD, &cooks, true);
    let (start, read) = first_screen(&shelf);
    assert_eq!(start.cooking, [cooks.as_str()]);
    let records = shelf.records();
    println!("{MANY} fish kept, {} read at the start", records.len());
    assert_eq!((read, records.len()), (SHOWN + 1, SHOWN + 1));
    assert!(records.contains(&format!("scaleside/1/fish/{cooks}")));
}

/// The ids are tried and the records speak for themselves: a hint too few or too many costs no ring.
#[test]
fn the_hint_is_only_a_hint() {
    let shelf = Counting::default();
    assert_eq!(cooking::hinted(&shelf), [""; 0]);
    for (id, cooks, hinted) in [
        ("bream", true, vec!["bream"]),
        ("cod", true, vec!["bream", "cod"]),
        ("bream", true, vec!["bream", "cod"]),
        ("hake", false, vec!["bream", "cod"]),
        ("bream", false, vec!["cod"]),
        ("cod", false, vec![]),
    ] {
        cooking::hint(&shelf, BUILD, id, cooks);
        assert_eq!(cooking::hinted(&shelf), hinted);
    }
    assert!(
        !shelf
            .keys()
            .unwrap()
            .contains(&"scaleside/cooking".to_owned())
    );
    shelf
        .put("scaleside/cooking", "cod ../x  UPPER {\"a\":1} hake")
        .unwrap();
    assert_eq!(cooking::hinted(&shelf), ["cod", "hake"]);
    shelf
        .put("scaleside/cooking", &"cod ".repeat(1_000))
        .unwrap();
    assert!(cooking::hinted(&shelf).len() <= 64);
    // An older build, still open, writes nothing any more.
    shelf.put("scaleside/build", "8").unwrap();
    cooking::hint(&shelf, BUILD, "sole", true);
    assert!(!cooking::hinted(&shelf).contains(&"sole".to_owned()));
}
