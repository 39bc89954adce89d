//! How the texts of one kind are read when a page starts, all of them or one: what can't be read is set aside.

use std::collections::BTreeSet;

use super::keys::{self, SlotSide};
use super::outcome::{AsideNote, Fault, Held, Loaded};
use super::shelf::{Shelf, ShelfFault};
use super::slot::{self, StoredSlot};
use super::standing::{self, Newer, Standing};
use super::texts::Texts;
use crate::base::instant::Instant;

impl Texts {
    /// Reads every record of this kind. Never fails: what can't be read is moved aside whole and noted, or
    /// left where it is when that is not possible or when a newer build owns the shelf.
    pub(super) fn load_all(&mut self, shelf: &dyn Shelf, now: Instant) -> Loaded<String> {
        let mut loaded = Loaded::nothing();
        self.barred = None;
        let read = standing::standing(shelf, self.build).and_then(|standing| {
            loaded.standing = standing;
            let keys = shelf.keys()?;
            let ids = keys.iter().filter_map(|key| keys::id_of(self.kind, key));
            ids.collect::<BTreeSet<_>>()
                .into_iter()
                .try_for_each(|id| self.read_into(&mut loaded, shelf, id))
        });
        self.conclude(read, loaded, shelf, now)
    }

    /// As [`Texts::load_all`], for one record: no other is looked at.
    pub(super) fn load(&mut self, shelf: &dyn Shelf, id: &str, now: Instant) -> Loaded<String> {
        let mut loaded = Loaded::nothing();
        if let Err(Fault::ReadOnly(why)) = standing::may_write(shelf, self.build) {
            loaded.standing = Standing::ReadOnly { why };
        }
        let read = self.read_into(&mut loaded, shelf, id);
        self.conclude(read, loaded, shelf, now)
    }

    fn conclude(
        &mut self,
        read: Result<(), ShelfFault>,
        mut loaded: Loaded<String>,
        shelf: &dyn Shelf,
        now: Instant,
    ) -> Loaded<String> {
        if let Err(fault) = read {
            loaded.faults.push(fault.into());
        }
        if let Standing::ReadOnly {
            why: Newer::Format(format),
        } = loaded.standing
        {
            self.barred = Some(format);
        }
        if loaded.standing == Standing::Writing && self.barred.is_none() {
            for note in &mut loaded.aside {
                match slot::move_aside(shelf, &note.key, &self.known, now) {
                    Ok(moved_to) => note.moved_to = moved_to,
                    Err(fault) => loaded.faults.push(fault),
                }
            }
        }
        loaded
    }

    fn read_into(
        &self,
        loaded: &mut Loaded<String>,
        shelf: &dyn Shelf,
        id: &str,
    ) -> Result<(), ShelfFault> {
        let pair = self.pair(shelf, id)?;
        if let Some(format) = pair.future() {
            loaded.standing = Standing::ReadOnly {
                why: Newer::Format(format),
            };
        }
        for side in SlotSide::BOTH {
            if let StoredSlot::Bad { reason, .. } = pair.at(side) {
                let key = keys::slot(self.kind, id, side);
                loaded.aside.push(AsideNote {
                    key,
                    moved_to: None,
                    reason: *reason,
                });
            }
        }
        if let Some(newest) = pair.into_newest() {
            loaded.records.push(Held {
                id: id.to_owned(),
                record: newest.body.clone(),
                counter: newest.counter,
                tally: newest.tally.clone(),
            });
        }
        Ok(())
    }
}
