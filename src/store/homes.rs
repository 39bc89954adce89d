//! Two homes for every record: the shelf, which answers at once and which a browser may put on the disk a minute later,
//! and a second one, which answers later and has on the disk what it took. Here is how they are joined, by the rule that
//! joins the copies of tabs: the newest copy of a record stands, and a tab makes its own changes again on top of it.
//!
//! - The second home holds the same texts under the same keys, so it has two copies of a record as well.
//! - The first time that a page meets a record there, it is joined both ways: what only the second home knows comes back
//!   as if another tab had written it. After that, the second home is only told.
//! - A removal is a mark in both ([`super::gone`]), so that neither brings a removed record back.
//! - Nothing that can't be read is written over, in either home: it is set aside on the shelf.
//! - An older build leaves both alone.

use std::collections::BTreeMap;

use super::envelope::{self, Unsealable};
use super::gone::{self, GoneMark};
use super::keys::{self, SlotSide};
use super::known::{KnownTexts, Whole};
use super::outcome::Fault;
use super::shelf::{Shelf, ShelfFault};
use super::slot::{self, Pair, StoredSlot};
use super::standing;
use crate::base::instant::Instant;

/// Whose number a copy has that is written because homes are joined: it holds what it held before.
const NO_TAB: u32 = 0;

/// What the second home holds, or a part of it: texts under their keys.
pub type SecondTexts = BTreeMap<String, String>;

/// How two homes are to be joined.
pub struct Joining<'a> {
    /// The build that does it.
    pub build: u64,
    /// The present moment.
    pub now: Instant,
    /// Whether what only the second home knows comes back.
    pub both_ways: bool,
    /// Whether this page has changed a record, by kind and id, beginning with an older copy than that with a counter, and
    /// can make every change of it again.
    pub began_before: &'a dyn Fn(&str, &str, u64) -> bool,
}

/// What came of it.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Joined {
    /// What the second home has to write, or to take away.
    pub tell: Vec<(String, Option<String>)>,
    /// What was written to the shelf, or taken from it, as if by another tab.
    pub brought: Vec<(String, Option<String>)>,
    /// How many texts could not be read, and were set aside.
    pub aside: usize,
}

impl Joining<'_> {
    /// Joins what both homes have under a name (see [`keys::name_of`]): writes to the shelf what comes back, and says
    /// what the second home is to be told. `second` holds what that has under the same name.
    ///
    /// # Errors
    /// [`Fault`] when nothing may be written, or could not be: then both are as they were, or one step further.
    pub fn join(
        &self,
        shelf: &dyn Shelf,
        second: &SecondTexts,
        name: &str,
    ) -> Result<Joined, Fault> {
        if name == keys::BUILD {
            return self.join_builds(shelf, second.get(name));
        }
        standing::may_write(shelf, self.build)?;
        match keys::record_of(name) {
            Some((kind, id)) => self.join_record(shelf, second, kind, id),
            None => self.join_other(shelf, second.get(name), name),
        }
    }

    /// The newest build that was anywhere counts; but the cook may have gone on with an older one.
    fn join_builds(&self, shelf: &dyn Shelf, there: Option<&String>) -> Result<Joined, Fault> {
        let mut joined = Joined::default();
        let here = shelf.get(keys::BUILD)?;
        let number = |text: Option<&String>| text.and_then(|text| text.parse::<u64>().ok());
        match (number(here.as_ref()), number(there)) {
            (here, Some(newer)) if self.both_ways && here.is_none_or(|here| here < newer) => {
                let text = newer.to_string();
                slot::put_and_check(shelf, keys::BUILD, &text)?;
                joined.brought.push((keys::BUILD.to_owned(), Some(text)));
            }
            // An older build leaves the telling to the newer one.
            (Some(number), there) if there != Some(number) && number <= self.build => {
                joined.tell.push((keys::BUILD.to_owned(), here));
            }
            _ => {}
        }
        Ok(joined)
    }

    /// What is no record: a text set aside, a hint, what a build to come keeps under keys of its own.
    fn join_other(
        &self,
        shelf: &dyn Shelf,
        there: Option<&String>,
        key: &str,
    ) -> Result<Joined, Fault> {
        let mut joined = Joined::default();
        let here = shelf.get(key)?;
        match (here, there) {
            (None, Some(text)) if self.both_ways => {
                slot::put_and_check(shelf, key, text)?;
                joined.brought.push((key.to_owned(), Some(text.clone())));
            }
            (here, there) if here.as_ref() != there => joined.tell.push((key.to_owned(), here)),
            _ => {}
        }
        Ok(joined)
    }

    fn join_record(
        &self,
        shelf: &dyn Shelf,
        second: &SecondTexts,
        kind: &str,
        id: &str,
    ) -> Result<Joined, Fault> {
        let mut joined = Joined::default();
        // Which kinds there are, and whether a text is of its kind, is seen when it is read.
        let known = KnownTexts::new(Box::new(|_| true));
        let second = Snapshot(second);
        let there = Pair::read(&second, kind, id, &known)?;
        let here = Pair::read(shelf, kind, id, &known)?;
        if here.future().is_some() || there.future().is_some() {
            return Ok(joined);
        }
        let marks = [gone::read(shelf, kind, id)?, gone::read(&second, kind, id)?];
        let [told, telling] = marks;
        let is_newer = gone_before(told, telling);
        let gone = if is_newer { telling } else { told };
        self.set_aside(shelf, &there, kind, id, &mut joined)?;
        if self.both_ways {
            if is_newer {
                let key = keys::gone(kind, id);
                let told = second.get(&key)?.unwrap_or_default();
                slot::put_and_check(shelf, &key, &told)?;
            }
            self.bring(shelf, (here, there), gone, (kind, id), &mut joined)?;
        }
        let here = Pair::read(shelf, kind, id, &known)?;
        let there = Pair::read(&second, kind, id, &known)?;
        tell(&here, &there, gone, (kind, id), &mut joined);
        self.tell_mark(shelf, marks, (kind, id), &mut joined)?;
        Ok(joined)
    }

    /// What the second home can't read is moved to the shelf, whole: its place will be written over.
    fn set_aside(
        &self,
        shelf: &dyn Shelf,
        there: &Pair,
        kind: &str,
        id: &str,
        joined: &mut Joined,
    ) -> Result<(), Fault> {
        for side in SlotSide::BOTH {
            if let StoredSlot::Bad { text, .. } = there.at(side) {
                slot::set_aside(shelf, &keys::slot(kind, id, side), text, self.now)?;
                joined.aside = joined.aside.saturating_add(1);
            }
        }
        Ok(())
    }

    /// Writes to the shelf what only the second home knows of a record: that it is gone, or a newer copy.
    fn bring(
        &self,
        shelf: &dyn Shelf,
        (here, there): (Pair, Pair),
        gone: Option<GoneMark>,
        (kind, id): (&str, &str),
        joined: &mut Joined,
    ) -> Result<(), Fault> {
        let known = KnownTexts::new(Box::new(|_| true));
        let kept = there.newest().filter(|copy| !is_gone(copy, gone));
        if kept.is_none() {
            self.keep_wanted(shelf, &here, gone, (kind, id))?;
        }
        for side in SlotSide::BOTH {
            let key = keys::slot(kind, id, side);
            let copy = StoredSlot::read(shelf, &key, &known)?;
            if copy.whole().is_some_and(|copy| is_gone(copy, gone)) {
                slot::remove_and_check(shelf, &key)?;
                joined.brought.push((key, None));
            }
        }
        let Some(newest) = kept else {
            return Ok(());
        };
        let here = Pair::read(shelf, kind, id, &known)?;
        let Some(text) = self.missing(&here, newest, kind, id)? else {
            return Ok(());
        };
        let side = here.target();
        let key = keys::slot(kind, id, side);
        if let StoredSlot::Bad { text, .. } = here.at(side) {
            slot::set_aside(shelf, &key, text, self.now)?;
            joined.aside = joined.aside.saturating_add(1);
        }
        slot::put_and_check(shelf, &key, &text)?;
        joined.brought.push((key, Some(text)));
        Ok(())
    }

    /// A tap on a record that was removed, made before this page could know of it, says that it is wanted.
    fn keep_wanted(
        &self,
        shelf: &dyn Shelf,
        here: &Pair,
        gone: Option<GoneMark>,
        (kind, id): (&str, &str),
    ) -> Result<(), Fault> {
        let Some((newest, mark)) = here.newest().zip(gone) else {
            return Ok(());
        };
        if !is_gone(newest, gone) || !(self.began_before)(kind, id, mark.counter) {
            return Ok(());
        }
        let counter = envelope::next(mark.counter, NO_TAB);
        let Whole { body, tally, .. } = newest;
        if let Ok(sealed) = envelope::seal_body(body, counter, self.build, tally) {
            slot::put_and_check(shelf, &keys::slot(kind, id, here.target()), &sealed.text)?;
        }
        Ok(())
    }

    /// What is to be written to the shelf, so that the newest copy of the second home is not lost; nothing when it is
    /// there, or older.
    fn missing(
        &self,
        here: &Pair,
        newest: &Whole,
        kind: &str,
        id: &str,
    ) -> Result<Option<String>, Fault> {
        let Whole {
            counter,
            sum,
            body,
            tally,
            ..
        } = newest;
        if here.marks().any(|(_, known)| known == sum) {
            return Ok(None);
        }
        let Some(latest) = here.newest().filter(|here| here.counter >= *counter) else {
            return Ok(Some(newest.text.clone()));
        };
        if latest.tally.holds_all_of(tally) || !(self.began_before)(kind, id, *counter) {
            return Ok(None);
        }
        // The page went on from an older copy, and further than this one: so this one is written as the newest, and the
        // page makes its changes again on top of it.
        let counter = envelope::next(latest.counter, NO_TAB);
        match envelope::seal_body(body, counter, self.build, tally) {
            Ok(sealed) => Ok(Some(sealed.text)),
            // It was sealed before, so it is not too long but for a figure.
            Err(Unsealable::TooLong | Unsealable::NoText) => Ok(None),
        }
    }

    /// The mark of a removal stays until both homes have had it for long enough.
    fn tell_mark(
        &self,
        shelf: &dyn Shelf,
        [here, there]: [Option<GoneMark>; 2],
        (kind, id): (&str, &str),
        joined: &mut Joined,
    ) -> Result<(), Fault> {
        let key = keys::gone(kind, id);
        let is_told = here.is_some_and(|mark| mark.is_told(self.now));
        if self.both_ways && here == there && is_told {
            // What stays for now goes at the next start.
            let _ = shelf.remove(&key);
            joined.tell.push((key, None));
        } else if gone_before(there, here) {
            joined.tell.push((key.clone(), shelf.get(&key)?));
        }
        Ok(())
    }
}

/// Whether the one home knows of a later removal than the other.
fn gone_before(one: Option<GoneMark>, other: Option<GoneMark>) -> bool {
    let order = |mark: Option<GoneMark>| mark.map(|mark| (mark.counter, mark.at));
    order(one) < order(other)
}

/// What the second home has to be told of the copies of a record. What it has that is newer stays.
fn tell(
    here: &Pair,
    there: &Pair,
    gone: Option<GoneMark>,
    (kind, id): (&str, &str),
    joined: &mut Joined,
) {
    for side in SlotSide::BOTH {
        let copy = here.at(side).whole().filter(|copy| !is_gone(copy, gone));
        let kept = there.at(side).whole().filter(|copy| !is_gone(copy, gone));
        let key = keys::slot(kind, id, side);
        match (copy, kept, there.at(side)) {
            (Some(copy), Some(kept), _)
                if kept.counter > copy.counter || kept.text == copy.text => {}
            (Some(copy), ..) => joined.tell.push((key, Some(copy.text.clone()))),
            (None, None, StoredSlot::Good(_) | StoredSlot::Bad { .. }) => {
                joined.tell.push((key, None));
            }
            (None, ..) => {}
        }
    }
}

fn is_gone(copy: &Whole, gone: Option<GoneMark>) -> bool {
    gone.is_some_and(|gone| copy.counter <= gone.counter)
}

/// The texts of the second home, to be read as a shelf is.
struct Snapshot<'a>(&'a SecondTexts);

impl Shelf for Snapshot<'_> {
    fn get(&self, key: &str) -> Result<Option<String>, ShelfFault> {
        Ok(self.0.get(key).cloned())
    }

    fn put(&self, _: &str, _: &str) -> Result<(), ShelfFault> {
        Err(ShelfFault::Full)
    }

    fn remove(&self, _: &str) -> Result<(), ShelfFault> {
        Err(ShelfFault::Full)
    }

    fn keys(&self) -> Result<Vec<String>, ShelfFault> {
        Ok(self.0.keys().cloned().collect())
    }
}
