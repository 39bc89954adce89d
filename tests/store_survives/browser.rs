//! Tabs in processes of their own: each reads its own copy of the storage, and hears of the others' writes later.
//!
//! Chromium does it so: a tab sees its own write at once and sends it off; the writes of all tabs come to each in
//! one order; and a foreign write to a key with a write of one's own still on the way is passed over, since one's
//! own comes later in that order. Common practice, no source but the browser's own code; other browsers share
//! more.

use std::cell::RefCell;
use std::collections::BTreeMap;

use proptest::prelude::*;
use scaleside::base::refusal::Refusal;
use scaleside::store::outcome::{Held, Outcome};
use scaleside::store::records::{Keepable, Store};
use scaleside::store::shelf::{Shelf, ShelfFault};

use crate::bench::{BUILD, NOW};
use crate::hostile::HostileShelf;

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

/// The kind of every record here, and the one there is.
const KIND: &str = "fish";
const ID: &str = "bream";

/// What a record has to be for this.
pub trait Record: Keepable {}

impl<T: Keepable> Record for T {}

pub struct Tab<T> {
    cache: Cache,
    store: Store<T>,
    pub held: Held<T>,
    /// What this tab was told of taps that could not be made.
    pub told: Vec<Refusal>,
    /// How many writes of others stand in its copy of the storage, and it has not been told of.
    unheard: usize,
}

impl<T: Record> Tab<T> {
    fn act(&mut self, outcome: Outcome<T>) {
        match outcome {
            Outcome::Kept { held, left_out, .. } => {
                self.held = held;
                self.told.extend(left_out);
            }
            Outcome::Refused(refusal) => self.told.push(refusal),
            Outcome::NotKept { fault, .. } => panic!("not kept: {fault}"),
        }
    }

    pub fn tap(&mut self, change: impl Fn(&T) -> Result<T, Refusal> + Send + Sync + 'static) {
        let outcome = self.store.commit(&self.cache, &self.held, NOW, change);
        self.act(outcome);
    }

    /// What a tab does when it hears of a write to the record: reads it again, and mends it.
    fn mend(&mut self) {
        if let Ok(Some(held)) = self.store.reread(&self.cache, ID) {
            self.held = held;
        }
        if let Some(outcome) = self.store.mend(&self.cache, &self.held, NOW) {
            self.act(outcome);
        }
    }

    /// What a start on this tab's copy of the storage finds.
    pub fn found(&self) -> T {
        let mut loaded = Store::new(KIND, BUILD).load_all(&self.cache, NOW);
        assert_eq!((loaded.records.len(), loaded.aside.len()), (1, 0));
        loaded.records.remove(0).record
    }
}

/// The browser between the tabs: the one order of all writes.
pub struct Browser<T> {
    pub tabs: Vec<Tab<T>>,
    order: Vec<Write>,
}

impl<T: Record> Browser<T> {
    /// `tabs` tabs, each with the record `first` in hand.
    pub fn open(tabs: usize, first: T) -> Self {
        let shelf = HostileShelf::kind();
        let mut store = Store::new(KIND, BUILD);
        let mut kept = store.create(&shelf, ID, first, NOW);
        // Both slots are filled.
        if let Outcome::Kept { held, .. } = &kept {
            kept = store.commit(&shelf, held, NOW, |record: &T| Ok(record.clone()));
        }
        let Outcome::Kept { held, .. } = kept else {
            panic!("not kept");
        };
        let tabs = (1..).take(tabs).map(|number| Tab {
            cache: Cache {
                texts: shelf.texts.clone(),
                ..Cache::default()
            },
            store: Store::new(KIND, BUILD).signed(number),
            held: held.clone(),
            told: Vec::new(),
            unheard: 0,
        });
        Self {
            tabs: tabs.collect(),
            order: Vec::new(),
        }
    }

    /// The browser takes the next write of a tab into the order.
    pub fn take(&mut self, tab: usize) -> bool {
        let mut sent = self.tabs[tab].cache.sent.borrow_mut();
        if sent.is_empty() {
            return false;
        }
        let (key, value) = sent.remove(0);
        self.order.push((tab, key, value));
        true
    }

    /// A tab's copy of the storage takes the next write of the order; of another's the tab will be told.
    pub fn show(&mut self, tab: usize) -> bool {
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
        // The text is there at once, the tab is told of it when it has time.
        this.unheard += 1;
        true
    }

    /// A tab is told of the next write of another that it may have seen long since.
    pub fn hear(&mut self, tab: usize) -> bool {
        let this = &mut self.tabs[tab];
        if this.unheard == 0 {
            return false;
        }
        this.unheard -= 1;
        this.mend();
        true
    }

    /// Lets everything arrive everywhere, until no tab has anything to mend.
    pub fn settle(&mut self) {
        for _ in 0..10_000 {
            let mut moved = false;
            for tab in 0..self.tabs.len() {
                moved |= self.take(tab);
                moved |= self.show(tab);
                moved |= self.hear(tab);
            }
            if !moved {
                return;
            }
        }
        panic!("the tabs never came to rest");
    }
}

/// What happens among the tabs.
#[derive(Clone, Debug)]
pub enum Step<A> {
    Tap(usize, A),
    Take(usize),
    Show(usize),
    Hear(usize),
}

/// Random steps of `tabs` tabs; `tap` makes what is tapped.
pub fn steps<A: std::fmt::Debug + Clone + 'static>(
    tabs: usize,
    tap: impl Strategy<Value = A> + 'static,
) -> impl Strategy<Value = Vec<Step<A>>> {
    let step = prop_oneof![
        2 => (0..tabs, tap).prop_map(|(tab, tap)| Step::Tap(tab, tap)),
        2 => (0..tabs).prop_map(Step::Take),
        3 => (0..tabs).prop_map(Step::Show),
        3 => (0..tabs).prop_map(Step::Hear),
    ];
    prop::collection::vec(step, 1..60)
}
