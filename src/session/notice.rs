//! What the cook has to know whatever the screen, and how it is told, whatever kind of record it is about.

use std::collections::BTreeSet;
use std::sync::Arc;

use leptos::prelude::*;

use crate::base::refusal::Refusal;
use crate::store::outcome::Fault;

/// What the cook has to know whatever the screen.
#[derive(Clone, Debug)]
pub enum Notice {
    /// Something could not be written: why, and that it is kept in memory.
    NotKept(String),
    /// A newer build has written here.
    OlderBuild(String),
    /// Something was removed: what is said of it, and the name of the copy in the bin.
    Undo {
        /// The sentence.
        sentence: String,
        /// The name of the copy in the bin.
        copy: String,
        /// Puts it back, and answers what is to be said of that: whoever removes brings it along, so that the page
        /// as it comes first knows nothing of a bin.
        put_back: fn(&str) -> String,
    },
    /// Something the cook reads once.
    Told(String),
}

/// A record by its kind and identity.
type Name = (&'static str, String);

/// Tries once more to keep a record.
type Again = Arc<dyn Fn() + Send + Sync>;

/// The one notice that is shown, and what lies behind it. Copied freely: it holds only handles.
#[derive(Clone, Copy)]
pub struct Notices {
    /// What is shown.
    pub shown: RwSignal<Option<Notice>>,
    /// The records in memory that the shelf has not taken: few, so that a list will do.
    unkept: StoredValue<Vec<(Name, Again)>>,
    /// How many copies were set aside in this visit, and of what.
    aside: StoredValue<(usize, BTreeSet<&'static str>)>,
}

impl Notices {
    /// Nothing to tell.
    #[must_use]
    pub fn none() -> Self {
        Self {
            shown: RwSignal::new(None),
            unkept: StoredValue::new(Vec::new()),
            aside: StoredValue::new((0, BTreeSet::new())),
        }
    }

    /// Says something that is read once.
    pub fn say(self, sentence: impl Into<String>) {
        self.shown.set(Some(Notice::Told(sentence.into())));
    }

    /// Says why the shelf can't be read, or is not written to.
    pub fn fault(self, fault: &Fault) {
        self.shown.set(Some(match fault {
            Fault::ReadOnly(_) => Notice::OlderBuild(fault.to_string()),
            _ => Notice::NotKept(format!(
                "{fault} Your entries stay on this screen until it is closed, and are tried again with every tap."
            )),
        }));
    }

    /// Says that a record is in memory alone, and tries it again when the next one is kept.
    pub fn not_kept(self, name: Name, fault: &Fault, again: Again) {
        self.unkept.update_value(|unkept| {
            unkept.retain(|(other, _)| *other != name);
            unkept.push((name, again));
        });
        self.fault(fault);
    }

    /// A record was kept: so may those be that were not.
    pub fn kept(self, name: &Name) {
        let others = self.unkept.try_update_value(|unkept| {
            unkept.retain(|(other, _)| other != name);
            unkept.iter().map(|(other, _)| other.clone()).collect()
        });
        let others: Vec<Name> = others.unwrap_or_default();
        for other in others {
            // One that was kept meanwhile has seen to those behind it.
            let again = self.unkept.try_with_value(|unkept| {
                let found = unkept.iter().find(|(known, _)| *known == other);
                found.map(|(_, again)| again.clone())
            });
            if let Some(again) = again.flatten() {
                again();
            }
        }
        let all_kept = self.unkept.try_with_value(Vec::is_empty) == Some(true);
        if all_kept && matches!(self.shown.get_untracked(), Some(Notice::NotKept(_))) {
            self.shown.set(None);
        }
    }

    /// Whether anything is in memory alone.
    #[must_use]
    pub fn has_unkept(self) -> bool {
        self.unkept.try_with_value(Vec::is_empty) == Some(false)
    }

    /// The records of one kind that are in memory alone.
    pub(super) fn unkept(self, kind: &str) -> Vec<String> {
        let names = self.unkept.try_with_value(|unkept| {
            let of_kind = unkept.iter().filter(|((of, _), _)| *of == kind);
            of_kind.map(|((_, id), _)| id.clone()).collect()
        });
        names.unwrap_or_default()
    }

    /// A record is gone: nothing of it is left to keep.
    pub fn gone(self, name: &Name) {
        self.unkept.update_value(|unkept| {
            unkept.retain(|(other, _)| other != name);
        });
    }

    /// Says that a tap could not be made on top of another tab's.
    pub fn left_out(self, noun: &str, why: &Refusal) {
        self.say(format!(
            "Another tab changed this {noun} first, so one of your taps could not be kept: {why}"
        ));
    }

    /// Says that copies could not be read, together with those of before.
    pub fn set_aside(self, noun: &'static str, copies: usize) {
        let all = self.aside.try_update_value(|(count, nouns)| {
            *count = count.saturating_add(copies);
            nouns.insert(noun);
            (*count, nouns.iter().copied().collect::<Vec<_>>().join(", "))
        });
        let Some((count, nouns)) = all.filter(|_| {
            // What is not kept matters more.
            self.shown
                .with_untracked(|shown| matches!(shown, None | Some(Notice::Told(_))))
        }) else {
            return;
        };
        self.say(if count == 1 {
            format!("One stored copy ({nouns}) on this phone could not be read. It was set aside whole, and nothing else was touched.")
        } else {
            format!("{count} stored copies ({nouns}) on this phone could not be read. They were set aside whole, and nothing else was touched.")
        });
    }
}
