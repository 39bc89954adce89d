//! A small phone in memory, and a backup of it.

use std::cell::RefCell;
use std::collections::BTreeMap;

use scaleside::base::instant::Instant;
use scaleside::class::class_list::Class;
use scaleside::fish::demo;
use scaleside::fish::record::Fish;
use scaleside::fish::settings::Settings;
use scaleside::journal::photo::PhotoName;
use scaleside::keep::backup::write::BackupWriter;
use scaleside::keep::kind::{KINDS, Raw};
use scaleside::store::outcome::{Held, Outcome};
use scaleside::store::records::Store;
use scaleside::store::shelf::{Shelf, ShelfFault};

pub const BUILD: u64 = 7;
pub const NOW: Instant = Instant(1_773_099_000_000);

/// The start of a JPEG, and bytes enough to tell when one is missing.
pub const JPEG: &[u8] =
    b"\xff\xd8\xff\xe0\x00\x10JFIF not a whole picture, and quite enough for a test";

#[derive(Default)]
pub struct Phone {
    pub texts: RefCell<BTreeMap<String, String>>,
    /// So many more writes, then the page is gone.
    pub writes_left: std::cell::Cell<Option<usize>>,
}

impl Phone {
    fn may_write(&self) -> Result<(), ShelfFault> {
        match self.writes_left.get() {
            Some(0) => Err(ShelfFault::Refused("gone".into())),
            Some(left) => {
                self.writes_left.set(Some(left - 1));
                Ok(())
            }
            None => Ok(()),
        }
    }
}

impl Shelf for Phone {
    fn get(&self, key: &str) -> Result<Option<String>, ShelfFault> {
        Ok(self.texts.borrow().get(key).cloned())
    }

    fn put(&self, key: &str, value: &str) -> Result<(), ShelfFault> {
        self.may_write()?;
        self.texts.borrow_mut().insert(key.into(), value.into());
        Ok(())
    }

    fn remove(&self, key: &str) -> Result<(), ShelfFault> {
        self.may_write()?;
        self.texts.borrow_mut().remove(key);
        Ok(())
    }

    fn keys(&self) -> Result<Vec<String>, ShelfFault> {
        Ok(self.texts.borrow().keys().cloned().collect())
    }
}

pub fn fish(phone: &Phone, id: &str) -> Held<Fish> {
    let fish = demo::bream(id.into(), NOW, &Settings::default());
    kept(Store::new("fish", BUILD).create(phone, id, fish, NOW))
}

pub fn class(phone: &Phone, id: &str) -> Held<Class> {
    let class = Class::new("Tuesday — première année", NOW).unwrap();
    kept(Store::new("class", BUILD).create(phone, id, class, NOW))
}

/// Writes a note into a fish, so many times.
pub fn noted(phone: &Phone, held: Held<Fish>, note: &'static str) -> Held<Fish> {
    kept(
        Store::new("fish", BUILD).commit(phone, &held, NOW, move |fish: &Fish| {
            let mut fish = fish.clone();
            fish.note = note.into();
            Ok(fish)
        }),
    )
}

pub fn kept<T: std::fmt::Debug>(outcome: Outcome<T>) -> Held<T> {
    match outcome {
        Outcome::Kept { held, .. } => held,
        other => panic!("not kept: {other:?}"),
    }
}

pub fn records(phone: &Phone) -> Vec<(&'static str, Held<Raw>)> {
    let all = KINDS.iter().flat_map(|kind| {
        let loaded = Store::<Raw>::new(kind.name, BUILD).load_all(phone, NOW);
        loaded.records.into_iter().map(|held| (kind.name, held))
    });
    all.collect()
}

/// What a phone holds, as texts that can be compared.
pub fn contents(phone: &Phone) -> BTreeMap<String, String> {
    let all = records(phone).into_iter();
    all.map(|(kind, held)| (format!("{kind}/{}", held.id), held.record.get().to_owned()))
        .collect()
}

pub fn photo(id: &str) -> PhotoName {
    PhotoName {
        kind: "fish".into(),
        id: id.into(),
        photo: "p1".into(),
    }
}

/// A backup of a phone with one photo for each name.
pub fn backup(phone: &Phone, photos: &[PhotoName]) -> Vec<u8> {
    let records = records(phone);
    let mut writer = BackupWriter::begin(BUILD, NOW, records.len(), photos.len()).unwrap();
    let mut bytes = Vec::new();
    for (kind, held) in &records {
        writer.record(kind, held).unwrap();
        bytes.extend(writer.take());
    }
    for name in photos {
        writer.photo(name, JPEG).unwrap();
        bytes.extend(writer.take());
    }
    bytes.extend(writer.finish().unwrap());
    bytes
}
