//! Two homes for every record: the browser is killed at random moments of random sessions, with what it had not put on
//! the disk of the one, and what the other had not yet been told; one home is emptied, or refused for a visit.

use std::cell::RefCell;
use std::collections::{BTreeMap, BTreeSet};

use proptest::prelude::*;
use scaleside::base::instant::Instant;
use scaleside::store::homes::{Joined, Joining, SecondTexts};
use scaleside::store::keys;
use scaleside::store::outcome::Held;
use scaleside::store::shelf::{Shelf, ShelfFault};

use crate::bench::{BUILD, Fish, NOW, Shop, fish, kept, shop_in, tap};

const IDS: [&str; 3] = ["bream", "snapper", "trout"];

/// The first home as the page sees it, and what was written since the disk had it all.
#[derive(Default)]
pub struct FirstHome {
    texts: RefCell<BTreeMap<String, String>>,
    disk: RefCell<BTreeMap<String, String>>,
    written: RefCell<BTreeSet<String>>,
}

impl FirstHome {
    pub fn change(&self, key: &str, value: Option<&str>) {
        let mut texts = self.texts.borrow_mut();
        match value {
            Some(value) => texts.insert(key.to_owned(), value.to_owned()),
            None => texts.remove(key),
        };
        self.written.borrow_mut().insert(keys::name_of(key));
    }
}

impl Shelf for FirstHome {
    fn get(&self, key: &str) -> Result<Option<String>, ShelfFault> {
        Ok(self.texts.borrow().get(key).cloned())
    }

    fn put(&self, key: &str, value: &str) -> Result<(), ShelfFault> {
        self.change(key, Some(value));
        Ok(())
    }

    fn remove(&self, key: &str) -> Result<(), ShelfFault> {
        self.change(key, None);
        Ok(())
    }

    fn keys(&self) -> Result<Vec<String>, ShelfFault> {
        Ok(self.texts.borrow().keys().cloned().collect())
    }
}

pub fn join(
    first: &FirstHome,
    second: &SecondTexts,
    name: &str,
    both_ways: bool,
    shop: &Shop,
    now: Instant,
) -> Joined {
    let under = keys::under(name);
    let part: SecondTexts = second
        .iter()
        .filter(|(key, _)| under.contains(key))
        .map(|(key, text)| (key.clone(), text.clone()))
        .collect();
    let joining = Joining {
        build: BUILD,
        now,
        both_ways,
        began_before: &|_, id, counter| shop.texts().began_before(id, counter),
    };
    joining.join(first, &part, name).unwrap()
}

pub fn tell(second: &mut SecondTexts, joined: &Joined) {
    for (key, text) in &joined.tell {
        match text {
            Some(text) => second.insert(key.clone(), text.clone()),
            None => second.remove(key),
        };
    }
}

/// A phone, with one page open at a time.
pub struct Phone {
    pub first: FirstHome,
    pub second: SecondTexts,
    pub shop: Shop,
    /// How many pages there have been: each is a tab of its own.
    pages: u32,
    joined: BTreeSet<String>,
    refused: bool,
    taps: u32,
    pub now: Instant,
    /// The taps of each record that may not be lost, by what is known of both homes; gone when it was removed.
    safe: BTreeMap<&'static str, Option<BTreeSet<String>>>,
    /// The taps that the first home has not put on the disk, nor told the second.
    at_risk: BTreeMap<&'static str, Option<BTreeSet<String>>>,
}

impl Phone {
    pub fn new() -> Self {
        Self {
            first: FirstHome::default(),
            second: SecondTexts::new(),
            shop: shop_in(1),
            pages: 1,
            joined: BTreeSet::new(),
            refused: false,
            taps: 0,
            now: NOW,
            safe: BTreeMap::new(),
            at_risk: BTreeMap::new(),
        }
    }

    pub fn read(&self, id: &str) -> Option<Held<Fish>> {
        self.shop.reread(&self.first, id).unwrap()
    }

    pub fn tap(&mut self, id: &'static str) {
        self.taps += 1;
        self.now = self.now.plus_ms(300);
        let mark = self.taps.to_string();
        match self.read(id) {
            Some(held) => {
                let outcome = self.shop.commit(&self.first, &held, self.now, tap(&mark));
                let held = kept(outcome);
                self.note(id, Some(held.record.taps.into_iter().collect()));
            }
            None => {
                let record = fish(&[&mark]);
                let outcome = self.shop.create(&self.first, id, record, self.now);
                self.note(id, Some(kept(outcome).record.taps.into_iter().collect()));
            }
        }
    }

    pub fn remove(&mut self, id: &'static str) {
        if let Some(held) = self.read(id) {
            self.shop.remove(&self.first, &held, self.now).unwrap();
            self.note(id, None);
        }
    }

    fn note(&mut self, id: &'static str, taps: Option<BTreeSet<String>>) {
        self.at_risk.insert(id, taps);
    }

    /// What was written since is told to the second home, and the page meets what that has.
    pub fn flush(&mut self) {
        if self.refused {
            return;
        }
        let names = std::mem::take(&mut *self.first.written.borrow_mut());
        for name in names {
            self.meet(&name);
        }
        self.is_safe();
    }

    /// Every record is joined, as at the start of a page.
    pub fn join_all(&mut self) {
        if self.refused {
            return;
        }
        let all: BTreeSet<String> = (self.first.keys().unwrap().iter())
            .chain(self.second.keys())
            .map(|key| keys::name_of(key))
            .collect();
        for name in all {
            self.meet(&name);
        }
        self.flush();
    }

    fn meet(&mut self, name: &str) {
        let both_ways = self.joined.insert(name.to_owned());
        let joined = join(
            &self.first,
            &self.second,
            name,
            both_ways,
            &self.shop,
            self.now,
        );
        tell(&mut self.second, &joined);
        for (key, _) in joined.brought {
            let Some(id) = self.shop.id_of(&key) else {
                continue;
            };
            if let Some(held) = self.read(id)
                && let Some(outcome) = self.shop.mend(&self.first, &held, self.now)
            {
                kept(outcome);
            }
        }
    }

    fn is_safe(&mut self) {
        self.safe.append(&mut self.at_risk);
    }

    /// The browser puts what the first home has on the disk.
    fn put_on_disk(&mut self) {
        *self.first.disk.borrow_mut() = self.first.texts.borrow().clone();
        self.is_safe();
    }

    fn kill(&mut self) {
        *self.first.texts.borrow_mut() = self.first.disk.borrow().clone();
        self.restart();
    }

    pub fn restart(&mut self) {
        self.first.written.borrow_mut().clear();
        self.joined.clear();
        self.at_risk.clear();
        self.pages += 1;
        self.shop = shop_in(self.pages);
        self.refused = false;
    }

    fn check(&self) {
        for (id, safe) in &self.safe {
            let found = self.read(id).map(|held| held.record.taps);
            match (safe, found) {
                (None, None) => {}
                (Some(safe), Some(found)) => {
                    let set: BTreeSet<String> = found.iter().cloned().collect();
                    assert_eq!(set.len(), found.len(), "{id} has a tap twice: {found:?}");
                    assert!(safe.is_subset(&set), "{id} lost of {safe:?}: {found:?}");
                }
                // A removal, or a record begun again, that neither home had on the disk.
                (safe, found) => panic!("{id}: {safe:?} is safe, and {found:?} is there"),
            }
        }
    }
}

#[derive(Clone, Debug)]
enum Step {
    Tap(usize),
    Remove(usize),
    Flush,
    JoinAll,
    ToDisk,
    /// Killed, started again, tapped so often before the second home answers, and joined.
    Kill(Vec<usize>),
    /// The first home is cleared while the app is closed.
    ClearFirst(Vec<usize>),
    /// The second home is deleted while the app is closed.
    ClearSecond,
    /// A visit without the second home, closed well.
    Refused(Vec<usize>, Option<usize>),
}

fn steps() -> impl Strategy<Value = Vec<Step>> {
    let id = 0..IDS.len();
    let early = || prop::collection::vec(0..IDS.len(), 0..5);
    let step = prop_oneof![
        8 => id.clone().prop_map(Step::Tap),
        2 => id.prop_map(Step::Remove),
        5 => Just(Step::Flush),
        1 => Just(Step::JoinAll),
        2 => Just(Step::ToDisk),
        3 => early().prop_map(Step::Kill),
        1 => early().prop_map(Step::ClearFirst),
        1 => Just(Step::ClearSecond),
        1 => (early(), prop::option::of(0..IDS.len())).prop_map(|(taps, gone)| Step::Refused(taps, gone)),
    ];
    prop::collection::vec(step, 1..40)
}

fn play(steps: &[Step]) {
    let mut phone = Phone::new();
    phone.join_all();
    for step in steps {
        match step {
            Step::Tap(id) => phone.tap(IDS[*id]),
            Step::Remove(id) => phone.remove(IDS[*id]),
            Step::Flush => phone.flush(),
            Step::JoinAll => phone.join_all(),
            Step::ToDisk => phone.put_on_disk(),
            Step::Kill(early) => {
                phone.kill();
                start(&mut phone, early);
            }
            Step::ClearFirst(early) => {
                phone.flush();
                phone.restart();
                phone.first.texts.borrow_mut().clear();
                start(&mut phone, early);
            }
            Step::ClearSecond => {
                phone.put_on_disk();
                phone.restart();
                phone.second.clear();
                start(&mut phone, &[]);
            }
            Step::Refused(taps, gone) => {
                phone.flush();
                phone.put_on_disk();
                phone.restart();
                phone.refused = true;
                for id in taps {
                    phone.tap(IDS[*id]);
                }
                if let Some(gone) = gone {
                    phone.remove(IDS[*gone]);
                }
                phone.put_on_disk();
                phone.restart();
                start(&mut phone, &[]);
            }
        }
    }
    phone.flush();
    phone.kill();
    start(&mut phone, &[]);
}

/// A page begins: tapped before the second home answers, then joined; nothing that was safe is missing.
fn start(phone: &mut Phone, early: &[usize]) {
    let early: Vec<&'static str> = (early.iter().map(|id| IDS[*id]))
        // A tap on what is not on the screen yet can't be made.
        .filter(|id| phone.read(id).is_some())
        .collect();
    let mut made: BTreeMap<&str, BTreeSet<String>> = BTreeMap::new();
    for id in early {
        phone.tap(id);
        made.entry(id).or_default().insert(phone.taps.to_string());
    }
    phone.at_risk.clear();
    // Removed in one home, and tapped here before that was known: the tap says that it is wanted.
    for id in made.keys() {
        if let Some(safe @ None) = phone.safe.get_mut(*id) {
            *safe = Some(BTreeSet::new());
        }
    }
    phone.join_all();
    for (id, made) in made {
        let found: BTreeSet<String> = phone.read(id).unwrap().record.taps.into_iter().collect();
        assert!(made.is_subset(&found), "{id}: {made:?} of {found:?}");
    }
    phone.check();
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 3_000, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn nothing_that_one_home_had_is_lost_or_done_twice(steps in steps()) {
        play(&steps);
    }
}
