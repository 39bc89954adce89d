//! What a drawer knows of its records without reading them: which there are, which cook, what is told of them. It is the
//! same whatever the kind, and compiled once.

use std::time::Duration;

use leptos::prelude::*;

use super::notice::Notices;
use crate::base::refusal::Refusal;
use crate::device::build;
use crate::device::storage::LocalShelf;
use crate::store::cooking;
use crate::store::outcome::{AsideNote, Fault};
use crate::store::standing::Standing;

/// The records of one kind by their identities. Copied freely: it holds only handles.
#[derive(Clone, Copy)]
pub struct Register {
    pub(super) kind: &'static str,
    pub(super) noun: &'static str,
    pub(super) notices: Notices,
    /// The identities of all, the latest first.
    pub(super) ids: RwSignal<Vec<String>>,
    /// The records whose timers may still ring; nothing where none of this kind has any.
    cooking: Option<RwSignal<Vec<String>>>,
}

impl Register {
    pub(super) fn empty(
        kind: &'static str,
        noun: &'static str,
        notices: Notices,
        cooking: Option<RwSignal<Vec<String>>>,
        ids: RwSignal<Vec<String>>,
    ) -> Self {
        Self {
            kind,
            noun,
            notices,
            ids,
            cooking,
        }
    }

    /// Puts a record on the list.
    pub(super) fn add(self, id: &str) {
        let place = self
            .ids
            .with_untracked(|ids| ids.binary_search_by(|other| id.cmp(other)));
        if let Err(place) = place {
            self.ids.update(|ids| ids.insert(place, id.to_owned()));
        }
    }

    /// Puts records on the list, beside those that are there.
    pub(super) fn list_too(self, found: Vec<String>) {
        let is_listed =
            |ids: &[String], id: &String| ids.binary_search_by(|other| id.cmp(other)).is_ok();
        let is_new = |ids: &Vec<String>| !found.iter().all(|id| is_listed(ids, id));
        if self.ids.with_untracked(is_new) {
            self.ids.update(|ids| {
                ids.extend(found);
                ids.sort_unstable_by(|one, other| other.cmp(one));
                ids.dedup();
            });
        }
    }

    /// Takes a record off the list: it is gone.
    pub(super) fn drop(self, id: &str) {
        self.notices.gone(&(self.kind, id.to_owned()));
        self.cooks(id, false);
        self.ids.update(|ids| ids.retain(|other| other != id));
    }

    /// Notes whether a timer of a record may still ring.
    pub(super) fn cooks(self, id: &str, cooks: bool) {
        let Some(cooking) = self.cooking else {
            return;
        };
        let listed = cooking.with_untracked(|cooking| cooking.iter().any(|other| other == id));
        if cooks == listed {
            return;
        }
        cooking.update(|cooking| {
            cooking.retain(|other| other != id);
            if cooks {
                cooking.push(id.to_owned());
            }
        });
        cooking::hint(&LocalShelf, build::number(), id, cooks);
    }

    /// A record was kept, with the changes of other tabs; perhaps without one of its own.
    pub(super) fn kept(self, id: String, left_out: &[Refusal]) {
        self.add(&id);
        self.notices.kept(&(self.kind, id));
        if let Some(refusal) = left_out.first() {
            self.notices.left_out(self.noun, refusal);
        }
    }

    /// As [`Register::kept`], for many new records. Returns how many.
    pub(super) fn kept_all(self, new: Vec<String>) -> usize {
        let count = new.len();
        if let Some(last) = new.last().cloned() {
            self.ids.update(|ids| {
                ids.extend(new);
                ids.sort_unstable_by(|one, other| other.cmp(one));
                ids.dedup();
            });
            self.notices.kept(&(self.kind, last));
        }
        count
    }

    /// Tells what could not be read of the record `id`, once the screens are through with it; `forget` is called where
    /// nothing of it is left.
    pub(super) fn tell(
        self,
        id: &str,
        aside: &[AsideNote],
        faults: Vec<Fault>,
        standing: Standing,
        forget: Option<Box<dyn FnOnce()>>,
    ) {
        let is_listed = || {
            self.ids
                .with_untracked(|ids| ids.iter().any(|other| other == id))
        };
        let forget = forget.filter(|_| faults.is_empty() && is_listed());
        let count = aside.len();
        if count == 0 && faults.is_empty() && forget.is_none() {
            return;
        }
        let tell = move || {
            if let Some(fault) = faults.first() {
                self.notices.fault(fault);
            } else if let (Standing::ReadOnly { why }, 1..) = (standing, count) {
                self.notices.fault(&Fault::ReadOnly(why));
            } else if count > 0 {
                self.notices.set_aside(self.noun, count);
            }
            if let Some(forget) = forget {
                forget();
            }
        };
        set_timeout(tell, Duration::ZERO);
    }
}
