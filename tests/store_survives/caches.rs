//! Tabs in processes of their own: each reads its own copy of the storage, and hears of the others' writes later.
//!
//! Chromium does it so: a tab sees its own write at once and sends it off; the writes of all tabs come to each in
//! one order; and a foreign write to a key with a write of one's own still on the way is passed over, since one's
//! own comes later in that order. Common practice, no source but the browser's own code; other browsers share
//! more.

use std::cell::RefCell;
use std::collections::BTreeMap;

use proptest::prelude::*;
use scaleside::store::outcome::{Held, Outcome};
use scaleside::store::shelf::{Shelf, ShelfFault};

use crate::bench::{Fish, NOW, Shop, kept, shop, tap};
use crate::hostile::HostileShelf;

const TABS: usize = 3;

type Write = (usize, String, Option<String>);

/// One tab's copy of the storage.
#[derive(Default)]
struct Cache {
    texts: RefCell<BTreeMap<String, String>>,
    /// What this tab wrote and the others have not been sent.
    sent: RefCell<Vec<(String, Option<String>)>>,
    /// How many of this tab's writes to a key have not come back in the order of all.
    on_the_way: RefCell<BTreeMap<String, usize>>,
    /// How much of that order this tab has seen.
    seen: RefCell<usize>,
}

impl Cache {
    fn write(&self, key: &str, value: Option<&str>) {
        self.sent
            .borrow_mut()
            .push((key.to_owned(), value.map(str::to_owned)));
        *self
            .on_the_way
            .borrow_mut()
            .entry(key.to_owned())
            .or_default() += 1;
        self.hold(key, value);
    }

    fn hold(&self, key: &str, value: Option<&str>) {
        let mut texts = self.texts.borrow_mut();
        match value {
            Some(value) => texts.insert(key.to_owned(), value.to_owned()),
            None => texts.remove(key),
        };
    }
}

impl Shelf for Cache {
    fn get(&self, key: &str) -> Result<Option<String>, ShelfFault> {
        Ok(self.texts.borrow().get(key).cloned())
    }

    fn put(&self, key: &str, value: &str) -> Result<(), ShelfFault> {
        self.write(key, Some(value));
        Ok(())
    }

    fn remove(&self, key: &str) -> Result<(), ShelfFault> {
        self.write(key, None);
        Ok(())
    }

    fn keys(&self) -> Result<Vec<String>, ShelfFault> {
        Ok(self.texts.borrow().keys().cloned().collect())
    }
}

struct Tab {
    cache: Cache,
    store: Shop,
    held: Held<Fish>,
}

impl Tab {
    fn act(&mut self, outcome: Option<Outcome<Fish>>) {
        if let Some(outcome) = outcome {
            self.held = kept(outcome);
        }
    }

    fn tap(&mut self, name: &str) {
        let outcome = self.store.commit(&self.cache, &self.held, NOW, tap(name));
        self.act(Some(outcome));
    }

    /// What a tab does when it hears of a write to the record: reads it again, and mends it.
    fn mend(&mut self) {
        if let Ok(Some(held)) = self.store.reread(&self.cache, "bream") {
            self.held = held;
        }
        let outcome = self.store.mend(&self.cache, &self.held, NOW);
        self.act(outcome);
    }
}

/// The browser between the tabs: the one order of all writes.
struct Browser {
    tabs: Vec<Tab>,
    order: Vec<Write>,
}

impl Browser {
    fn open() -> Self {
        let shelf = HostileShelf::kind();
        let held = crate::bench::on_shelf(&shelf, &["weighed"]);
        let tabs = (0..TABS).map(|_| Tab {
            cache: Cache {
                texts: shelf.texts.clone(),
                ..Cache::default()
            },
            store: shop(),
            held: held.clone(),
        });
        Self {
            tabs: tabs.collect(),
            order: Vec::new(),
        }
    }

    /// The browser takes the next write of a tab into the order.
    fn take(&mut self, tab: usize) -> bool {
        let mut sent = self.tabs[tab].cache.sent.borrow_mut();
        if sent.is_empty() {
            return false;
        }
        let (key, value) = sent.remove(0);
        self.order.push((tab, key, value));
        true
    }

    /// A tab sees the next write of the order, and mends the record if the write is another's.
    fn show(&mut self, tab: usize) -> bool {
        let this = &mut self.tabs[tab];
        let seen = *this.cache.seen.borrow();
        let Some((by, key, value)) = self.order.get(seen).cloned() else {
            return false;
        };
        *this.cache.seen.borrow_mut() += 1;
        let mut on_the_way = this.cache.on_the_way.borrow_mut();
        let own = on_the_way.get(&key).copied().unwrap_or_default();
        if by == tab {
            on_the_way.insert(key, own - 1);
            return true;
        }
        drop(on_the_way);
        if own == 0 {
            this.cache.hold(&key, value.as_deref());
        }
        if let Some(text) = &value {
            this.store.hear("bream", text);
        }
        this.mend();
        true
    }

    /// Lets everything arrive everywhere, until no tab has anything to mend.
    fn settle(&mut self) {
        for _ in 0..10_000 {
            let mut moved = false;
            for tab in 0..TABS {
                moved |= self.take(tab);
                moved |= self.show(tab);
            }
            if !moved {
                return;
            }
        }
        panic!("the tabs never came to rest");
    }
}

#[derive(Clone, Debug)]
enum Step {
    Tap(usize),
    Take(usize),
    Show(usize),
}

fn steps() -> impl Strategy<Value = Vec<Step>> {
    let tab = 0..TABS;
    let step = prop_oneof![
        2 => tab.clone().prop_map(Step::Tap),
        2 => tab.clone().prop_map(Step::Take),
        3 => tab.prop_map(Step::Show),
    ];
    prop::collection::vec(step, 1..60)
}

/// The taps that were made, and those each tab finds in the end.
fn run(steps: Vec<Step>) -> (Vec<String>, Vec<Vec<String>>) {
    let mut browser = Browser::open();
    let mut made = vec!["weighed".to_owned()];
    for (number, step) in steps.into_iter().enumerate() {
        match step {
            Step::Tap(tab) => {
                let name = format!("{tab}:{number}");
                browser.tabs[tab].tap(&name);
                made.push(name);
            }
            Step::Take(tab) => drop(browser.take(tab)),
            Step::Show(tab) => drop(browser.show(tab)),
        }
    }
    browser.settle();
    made.sort();
    let found = browser.tabs.iter().map(|tab| {
        let mut taps = shop().load_all(&tab.cache, NOW).records[0]
            .record
            .taps
            .clone();
        taps.sort();
        taps
    });
    (made, found.collect())
}

#[test]
fn three_tabs_that_tap_in_the_same_instant_lose_nothing() {
    let taps = (0..TABS).map(Step::Tap).collect();
    let (made, found) = run(taps);
    assert_eq!(made.len(), 4);
    for found in found {
        assert_eq!(found, made);
    }
}

/// Once found at random: a copy that the last tab saw was written over by one with fewer writes before that tab's
/// first tap, and the chain of copies went through it.
#[test]
fn a_copy_seen_before_the_first_tap_still_tells_what_is_in_the_newest() {
    use Step::{Show, Take, Tap};
    let steps = [
        Tap(2),
        Take(2),
        Tap(2),
        Show(0),
        Tap(1),
        Take(2),
        Tap(1),
        Tap(2),
        Take(2),
        Show(0),
        Show(0),
        Take(1),
        Tap(2),
        Take(2),
        Take(1),
        Show(0),
        Show(0),
        Show(0),
        Tap(2),
        Tap(0),
    ];
    let (made, found) = run(steps.into());
    for found in found {
        assert_eq!(found, made);
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(3_000))]

    #[test]
    fn tabs_that_hear_late_lose_nothing_and_do_nothing_twice(steps in steps()) {
        let (made, found) = run(steps);
        for found in found {
            prop_assert_eq!(&found, &made);
        }
    }
}
