//! What came of reading and writing: typed, and with a sentence for the cook whenever something was not kept.

use serde::{Deserialize, Serialize};

use super::envelope::Unreadable;
use super::shelf::ShelfFault;
use super::standing::{Newer, Standing};
use super::tally::Tally;
use crate::base::refusal::Refusal;

/// A record as the app holds it, and how far what is stored has got.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Held<T> {
    /// Tells this record from all others; see [`is_id`](crate::base::id::is_id).
    pub id: String,
    /// The record, with every change made so far, stored or not.
    pub record: T,
    /// The count of writes of the copy this was last read from or written to; 0 when it was never stored.
    pub counter: u64,
    /// How many changes of each tab are in the record.
    #[serde(default)]
    pub tally: Tally,
}

impl<T> Held<T> {
    /// A record that is not from the shelf: out of a file, or made just now.
    #[must_use]
    pub fn from_elsewhere(id: &str, record: T, counter: u64) -> Self {
        Self {
            id: id.to_owned(),
            record,
            counter,
            tally: Tally::default(),
        }
    }

    /// The same record in another shape.
    #[must_use]
    pub fn with<U>(self, record: U) -> Held<U> {
        Held {
            id: self.id,
            record,
            counter: self.counter,
            tally: self.tally,
        }
    }
}

/// What came of one change.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Outcome<T> {
    /// The record is stored, and was read back.
    Kept {
        /// The record as stored.
        held: Held<T>,
        /// Another tab had written since: its changes are in the record too.
        merged: bool,
        /// Why earlier changes that were waiting to be kept could not be made on top of the other tab's.
        left_out: Vec<Refusal>,
    },
    /// The change can't be made. Nothing is different, here or on the shelf.
    Refused(Refusal),
    /// The change is made on the record in hand and is not stored. The next commit of the record, or
    /// [`retry`](crate::store::records::Store::retry), stores it too.
    NotKept {
        /// The record with the change, in memory only.
        held: Held<T>,
        /// Why.
        fault: Fault,
    },
}

/// Why something could not be kept, read or taken away. Shown as a sentence for the cook.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Fault {
    /// The shelf is full, or refuses.
    Shelf(ShelfFault),
    /// A newer Scaleside has written here: this one only reads.
    ReadOnly(Newer),
    /// What was written did not read back the same.
    NotReadBack,
    /// Another tab changed the record at the same moment.
    ChangedElsewhere,
}

impl From<ShelfFault> for Fault {
    fn from(fault: ShelfFault) -> Self {
        Self::Shelf(fault)
    }
}

impl std::error::Error for Fault {}

/// Everything of one kind that could be read. Whatever is wrong with the shelf, there is a `Loaded`.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Loaded<T> {
    /// The newest readable copy of each record, in the order of their ids.
    pub records: Vec<Held<T>>,
    /// The copies that could not be read.
    pub aside: Vec<AsideNote>,
    /// What else went wrong.
    pub faults: Vec<Fault>,
    /// Whether this build may write here.
    pub standing: Standing,
}

impl<T> Loaded<T> {
    pub(super) fn nothing() -> Self {
        Self {
            records: Vec::new(),
            aside: Vec::new(),
            faults: Vec::new(),
            standing: Standing::Writing,
        }
    }

    /// The same with other records.
    pub(super) fn map<U>(self, each: impl FnMut(Held<T>) -> Option<Held<U>>) -> Loaded<U> {
        Loaded {
            records: self.records.into_iter().filter_map(each).collect(),
            aside: self.aside,
            faults: self.faults,
            standing: self.standing,
        }
    }
}

/// A stored text that could not be read. It is never thrown away.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct AsideNote {
    /// The key it was found under.
    pub key: String,
    /// The key it was moved to, whole; nothing when it still stands where it was found.
    pub moved_to: Option<String>,
    /// Why it can't be read.
    pub reason: Unreadable,
}
