//! The kinds of record that are kept, for what treats all of them alike: the bin and the backup.

use serde::de::DeserializeOwned;
use serde_json::value::RawValue;

use crate::cards::pan::KeptPan;
use crate::cards::quote::Quote;
use crate::cards::recipe::Recipe;
use crate::class::class_list::Class;
use crate::fish::credit::Credit;
use crate::fish::record::Fish;
use crate::fish::settings::Settings;
use crate::store::entry::Entry;

/// A record as its own JSON text, whatever kind it is of.
pub type Raw = Box<RawValue>;

/// One kind of record.
pub struct Kind {
    /// Its name in the keys of the store.
    pub name: &'static str,
    /// What a cook calls it, inside a sentence.
    pub noun: &'static str,
    title: fn(&str) -> Option<String>,
}

/// Every kind. A kind that is missing here can't be put in the bin or backed up.
pub const KINDS: [Kind; 7] = [
    Kind {
        name: Fish::KIND,
        noun: Fish::NOUN,
        title: |body| read::<Fish>(body).map(|fish| fish.name()),
    },
    Kind {
        name: Class::KIND,
        noun: Class::NOUN,
        title: |body| read::<Class>(body).map(|class| class.name),
    },
    Kind {
        name: Recipe::KIND,
        noun: Recipe::NOUN,
        title: |body| read::<Recipe>(body).map(|recipe| recipe.name),
    },
    Kind {
        name: Quote::KIND,
        noun: Quote::NOUN,
        title: |body| read::<Quote>(body).map(|quote| quote.species.name()),
    },
    Kind {
        name: KeptPan::KIND,
        noun: KeptPan::NOUN,
        title: |body| read::<KeptPan>(body).map(|pan| pan.name),
    },
    Kind {
        name: Credit::KIND,
        noun: Credit::NOUN,
        title: |body| read::<Credit>(body).map(|credit| credit.now.title()),
    },
    Kind {
        name: Settings::KIND,
        noun: Settings::NOUN,
        title: |body| read::<Settings>(body).map(|_| "Your settings".to_owned()),
    },
];

impl Kind {
    /// The kind of this name.
    #[must_use]
    pub fn named(name: &str) -> Option<&'static Self> {
        KINDS.iter().find(|kind| kind.name == name)
    }

    /// What a record is called in a list; nothing when the text is no record of this kind.
    #[must_use]
    pub fn title(&self, body: &str) -> Option<String> {
        (self.title)(body)
    }
}

fn read<T: DeserializeOwned>(body: &str) -> Option<T> {
    serde_json::from_str(body).ok()
}
