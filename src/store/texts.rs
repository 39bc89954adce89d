//! Keeps the texts of one kind of record, so that nothing that can happen to a phone costs more than the last tap.
//! It is compiled once, whatever the kinds: a record is its JSON text here, a change a function of that text.
//!
//! - A tap writes one record, not the list: two slots a record, and a write goes to the slot that does not
//!   hold the newest good copy. A torn write leaves the copy before it.
//! - What can't be read is copied aside before its place is used again, and where that fails it stays.
//! - A change is a function, so that it can be made on top of what another tab has stored meanwhile, and
//!   made again when it could not be kept at first.
//!
//! Two tabs that write the same record in the very same moment: whoever reads back the other's text makes
//! the change again on top of it. Where each tab reads its own text at first, since browsers bring tabs
//! together only later, a copy says how many changes of each tab are in it ([`Tally`]): a tab looks again when it
//! hears of the other's write, and makes those of its own again that are not in the newest copy ([`Texts::mend`]).

use super::envelope::{self, Sealed, Unsealable};
use super::gone::{self, GoneMark};
use super::keys::{self, SlotSide};
use super::known::{Fits, KnownTexts, Whole};
use super::outcome::{Fault, Held, Outcome};
use super::refusals::NoEntry;
use super::shelf::{Shelf, ShelfFault};
use super::slot::{self, Pair, StoredSlot};
use super::standing::{self, Newer};
use super::tally::Tally;
use super::waiting::{ChangeBase, TextChange, Waiting};
use crate::base::instant::Instant;
use crate::base::refusal::Refusal;

/// How often a change is made again when another tab writes in the same moment.
const ROUNDS: u32 = 4;

/// A record as the app holds it. Its text is asked for only where it is not on the shelf.
pub(super) struct InHand<'a> {
    pub(super) id: &'a str,
    /// The count of writes of the copy this was last read from or written to; 0 when it was never stored.
    pub(super) counter: u64,
    pub(super) tally: &'a Tally,
    pub(super) text: &'a dyn Fn() -> Result<String, Refusal>,
}

/// Keeps the texts of one kind. In memory it holds only the changes that are not kept yet, and what was met last.
pub struct Texts {
    pub(super) kind: &'static str,
    pub(super) build: u64,
    /// Tells a record of this kind from any other text.
    pub(super) known: KnownTexts,
    /// The newer format that was found when reading: then nothing is written.
    pub(super) barred: Option<u32>,
    waiting: Waiting,
}

impl Texts {
    pub(super) fn new(kind: &'static str, build: u64, fits: Box<Fits>) -> Self {
        Self {
            kind,
            build,
            known: KnownTexts::new(fits),
            barred: None,
            waiting: Waiting::of(0),
        }
    }

    /// Before anything is changed: counts the changes as those of this tab.
    pub(super) fn sign(&mut self, tab: u32) {
        self.waiting = Waiting::of(tab);
    }

    pub(super) fn pair(&self, shelf: &dyn Shelf, id: &str) -> Result<Pair, ShelfFault> {
        Pair::read(shelf, self.kind, id, &self.known)
    }

    /// The record as it stands now, with the changes that are waiting to be kept: for when another tab has
    /// changed it. Nothing when no copy on the shelf opens.
    ///
    /// # Errors
    /// [`Fault::Shelf`] when the shelf can't be read.
    pub(super) fn reread(
        &self,
        shelf: &dyn Shelf,
        id: &str,
    ) -> Result<Option<Held<String>>, Fault> {
        let pair = self.pair(shelf, id)?;
        Ok(self.waiting.rebase(id, 0, &pair).map(|start| Held {
            id: id.to_owned(),
            record: start.body,
            counter: start.counter,
            tally: start.tally,
        }))
    }

    /// Stores a new record.
    pub(super) fn create(
        &mut self,
        shelf: &dyn Shelf,
        new: &InHand<'_>,
        now: Instant,
    ) -> Outcome<String> {
        let taken = (self.pair(shelf, new.id)).is_ok_and(|pair| pair.newest().is_some());
        if taken {
            return Outcome::Refused(NoEntry::Taken.into());
        }
        self.waiting.begin(new.id);
        self.retry(shelf, new, now)
    }

    /// Makes `change` on the newest state of a record and stores it. A record that another tab has taken
    /// away meanwhile is stored again: a tap on it says that it is wanted.
    pub(super) fn commit(
        &mut self,
        shelf: &dyn Shelf,
        held: &InHand<'_>,
        now: Instant,
        change: Box<TextChange>,
    ) -> Outcome<String> {
        let outcome = self.write(shelf, held, now, Some(&*change));
        if !matches!(outcome, Outcome::Refused(_)) {
            self.waiting.push(held.id, change, now);
        }
        outcome
    }

    /// Forgets the changes of a record that another tab has taken away.
    pub(super) fn forget(&mut self, id: &str) {
        self.waiting.clear(id);
    }

    /// Whether this tab has changed a record, beginning with an older copy than that with `counter`, and can make every
    /// change of it again.
    #[must_use]
    pub fn began_before(&self, id: &str, counter: u64) -> bool {
        self.waiting.began_before(id, counter)
    }

    /// Makes the changes of this tab again that another tab, writing in the same instant, wrote over; nothing
    /// when they are all there.
    pub(super) fn mend(
        &mut self,
        shelf: &dyn Shelf,
        held: &InHand<'_>,
        now: Instant,
    ) -> Option<Outcome<String>> {
        let pair = self.pair(shelf, held.id).ok()?;
        let missing = pair.newest().is_some() && self.waiting.is_missing(held.id, &pair);
        missing.then(|| self.retry(shelf, held, now))
    }

    /// Stores what was not kept so far, without a change of its own.
    pub(super) fn retry(
        &mut self,
        shelf: &dyn Shelf,
        held: &InHand<'_>,
        now: Instant,
    ) -> Outcome<String> {
        self.write(shelf, held, now, None)
    }

    /// Drops the older copy of a record that is finished, to halve its room. The next change is written
    /// beside the copy that is left, so a torn write still costs no more than itself; but with one copy,
    /// damage to it costs the record.
    ///
    /// # Errors
    /// [`Fault`] says why both copies may still be there.
    pub(super) fn settle(&self, shelf: &dyn Shelf, id: &str) -> Result<(), Fault> {
        let pair = self.pair(shelf, id)?;
        self.may_write(shelf, &pair)?;
        match (
            pair.newest_side(),
            pair.at(SlotSide::A),
            pair.at(SlotSide::B),
        ) {
            (Some(newest), StoredSlot::Good(_), StoredSlot::Good(_)) => {
                slot::remove_and_check(shelf, &keys::slot(self.kind, id, newest.other()))
            }
            _ => Ok(()),
        }
    }

    /// Takes a record off the shelf, the newest copy last. A copy that can't be read is set aside.
    ///
    /// # Errors
    /// [`Fault::ChangedElsewhere`] when another tab has changed it since the copy with `counter`; otherwise why it
    /// may still be there.
    pub(super) fn remove(
        &mut self,
        shelf: &dyn Shelf,
        id: &str,
        counter: u64,
        now: Instant,
    ) -> Result<(), Fault> {
        let pair = self.pair(shelf, id)?;
        self.may_write(shelf, &pair)?;
        let newest = self.waiting.rebase(id, counter, &pair);
        if newest.is_some_and(|newest| newest.merged) {
            return Err(Fault::ChangedElsewhere);
        }
        // Marked first, so that a removal which is cut off is finished; on a full phone, once there is room.
        let removed = pair.marks().map(|(counter, _)| counter).max();
        let mark = |counter| {
            let mark = GoneMark { counter, at: now };
            gone::put(shelf, self.kind, id, mark, self.build)
        };
        let is_marked = removed.is_none_or(mark);
        let taken = self.take_copies(shelf, id, &pair, now);
        if taken.is_err() {
            // It stays, so it is not gone. Where the mark stays as well, the copies are no newer than it says.
            let _ = shelf.remove(&keys::gone(self.kind, id));
        } else if !is_marked {
            removed.map(mark);
        }
        taken?;
        self.waiting.clear(id);
        Ok(())
    }

    fn take_copies(
        &self,
        shelf: &dyn Shelf,
        id: &str,
        pair: &Pair,
        now: Instant,
    ) -> Result<(), Fault> {
        for side in [pair.target(), pair.target().other()] {
            let key = keys::slot(self.kind, id, side);
            match pair.at(side) {
                StoredSlot::Empty => {}
                StoredSlot::Good(_) => slot::remove_and_check(shelf, &key)?,
                StoredSlot::Bad { .. } => {
                    slot::move_aside(shelf, &key, &self.known, now)?;
                }
            }
        }
        Ok(())
    }

    fn write(
        &mut self,
        shelf: &dyn Shelf,
        held: &InHand<'_>,
        now: Instant,
        change: Option<&TextChange>,
    ) -> Outcome<String> {
        if !crate::base::id::is_id(held.id) {
            return Outcome::Refused(NoEntry::NoIdentity.into());
        }
        let mut rounds = 0;
        loop {
            rounds += 1;
            let pair = self.pair(shelf, held.id);
            let start = pair
                .as_ref()
                .ok()
                .and_then(|pair| self.rebase(held, pair, now));
            let start = start.map_or_else(|| self.anew(shelf, held), Ok);
            let changed = start.and_then(|start| {
                let body = change.map_or_else(|| Ok(start.body.clone()), |f| f(&start.body))?;
                let counter = self.waiting.next(start.counter);
                if !envelope::is_above(counter, start.counter) {
                    return Err(NoEntry::Worn.into());
                }
                let more = usize::from(change.is_some());
                let tally = self.waiting.tally(held.id, &start.tally, more);
                let sealed = self.seal(&body, counter, &tally)?;
                let whole = Whole {
                    text: sealed.text,
                    body,
                    counter,
                    tally,
                    sum: sealed.sum,
                };
                Ok((start, whole))
            });
            let (start, whole) = match changed {
                Ok(changed) => changed,
                Err(refusal) => return Outcome::Refused(refusal),
            };
            let placed = pair
                .map_err(Fault::from)
                .and_then(|pair| self.place(shelf, held.id, &pair, &whole, now));
            let (record, tally) = (whole.body.clone(), whole.tally.clone());
            let id = held.id.to_owned();
            match placed {
                Ok(()) => {
                    let counter = whole.counter;
                    self.known.remember(whole);
                    return Outcome::Kept {
                        held: Held {
                            id,
                            record,
                            counter,
                            tally,
                        },
                        merged: start.merged,
                        left_out: start.left_out,
                    };
                }
                Err(Fault::ChangedElsewhere) if rounds < ROUNDS => {}
                Err(fault) => {
                    let counter = start.counter;
                    return Outcome::NotKept {
                        held: Held {
                            id,
                            record,
                            counter,
                            tally,
                        },
                        fault,
                    };
                }
            }
        }
    }

    /// The record in hand, where the shelf has none: newer than all that was removed under this name.
    fn anew(&self, shelf: &dyn Shelf, held: &InHand<'_>) -> Result<ChangeBase, Refusal> {
        let mut start = ChangeBase::in_hand(held)?;
        let removed = gone::last_counter(shelf, self.kind, held.id);
        start.counter = start.counter.max(removed);
        Ok(start)
    }

    /// A body that does not read back as what it is would only fail at the next start.
    fn seal(&self, body: &str, counter: u64, tally: &Tally) -> Result<Sealed, Unsealable> {
        if !envelope::is_bounded(body) {
            return Err(Unsealable::TooLong);
        }
        if !self.known.fits(body) {
            return Err(Unsealable::NoText);
        }
        envelope::seal_body(body, counter, self.build, tally)
    }

    fn rebase(&mut self, held: &InHand<'_>, pair: &Pair, now: Instant) -> Option<ChangeBase> {
        let start = self.waiting.rebase(held.id, held.counter, pair);
        self.waiting.settle(held.id, pair, now);
        start
    }

    /// Puts a sealed text where it destroys nothing, and reads it back.
    fn place(
        &mut self,
        shelf: &dyn Shelf,
        id: &str,
        pair: &Pair,
        whole: &Whole,
        now: Instant,
    ) -> Result<(), Fault> {
        self.may_write(shelf, pair)?;
        standing::claim(shelf, self.build, now)?;
        let side = pair.target();
        let key = keys::slot(self.kind, id, side);
        if let StoredSlot::Bad {
            text: unreadable, ..
        } = pair.at(side)
        {
            slot::set_aside(shelf, &key, unreadable, now)?;
        }
        let Whole {
            text, counter, sum, ..
        } = whole;
        let Err(fault) = slot::put_and_check(shelf, &key, text) else {
            self.waiting.wrote(id, whole);
            return Ok(());
        };
        match StoredSlot::read(shelf, &key, &self.known) {
            Err(_) => {
                // It may have arrived all the same.
                self.waiting.wrote(id, whole);
                Err(fault)
            }
            Ok(StoredSlot::Good(found)) if found.counter == *counter && found.sum == *sum => {
                self.waiting.wrote(id, whole);
                Ok(())
            }
            Ok(StoredSlot::Good(found))
                if envelope::writes(found.counter) >= envelope::writes(*counter) =>
            {
                Err(Fault::ChangedElsewhere)
            }
            Ok(_) => Err(fault),
        }
    }

    /// Stops an older build. Reads one short key, not all of them: a build that first writes a newer format
    /// has raised the number before.
    fn may_write(&self, shelf: &dyn Shelf, pair: &Pair) -> Result<(), Fault> {
        if let Some(format) = self.barred.or(pair.future()) {
            return Err(Fault::ReadOnly(Newer::Format(format)));
        }
        standing::may_write(shelf, self.build)
    }
}
