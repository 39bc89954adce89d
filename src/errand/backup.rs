//! Everything on this phone put together as one file.

use js_sys::{Array, Uint8Array};
use serde::{Deserialize, Serialize};
use wasm_bindgen::JsValue;

use super::Errand;
use super::refusals::NoFile;
use super::snapshot::Snapshot;
use crate::base::instant::Instant;
use crate::base::refusal::Refusal;
use crate::device::photos::NoPhoto;
use crate::device::{download, photos};
use crate::journal::photo::PhotoName;
use crate::keep::backup::write::BackupWriter;
use crate::keep::kind::{KINDS, Kind, Raw};
use crate::store::outcome::Held;
use crate::store::records::Store;
use crate::work;
use crate::work::WorkerLane;

/// A backup to be made. The shelf goes with it, as keys and texts in turn.
#[derive(Serialize, Deserialize)]
pub struct Make {
    /// What is in memory alone, in place of what the shelf has of it.
    pub unkept: Vec<Unkept>,
    /// Which build this is.
    pub build: u64,
    /// Now.
    pub now: Instant,
    /// What the file is to be called.
    pub name: String,
}

/// A record that no shelf has taken.
#[derive(Serialize, Deserialize)]
pub struct Unkept {
    kind: String,
    id: String,
    counter: u64,
    record: Raw,
}

impl From<(&'static str, Held<Raw>)> for Unkept {
    fn from((kind, held): (&'static str, Held<Raw>)) -> Self {
        Self {
            kind: kind.to_owned(),
            id: held.id,
            counter: held.counter,
            record: held.record,
        }
    }
}

/// What the file holds; the file itself goes with it.
#[derive(Clone, Serialize, Deserialize)]
pub struct Made {
    /// So many records.
    pub records: usize,
    /// So many photos.
    pub photos: usize,
    /// What the photos belong to that the browser can't read, and that are not in it: once for each.
    pub unread: Vec<String>,
    /// Whether what keeps the photos said nothing: then there may be more of them.
    pub silent: bool,
}

impl Errand for Make {
    type Answer = Result<Made, Refusal>;
    const KIND: work::QuestionKind = work::QuestionKind {
        name: "backup",
        lane: WorkerLane::Files,
        newest: true,
    };
}

pub(super) async fn make(asked: Make, shelf: &JsValue) -> (Result<Made, Refusal>, JsValue) {
    match put_together(asked, shelf).await {
        Ok((made, file)) => (Ok(made), file),
        Err(refusal) => (Err(refusal), JsValue::UNDEFINED),
    }
}

async fn put_together(asked: Make, shelf: &JsValue) -> Result<(Made, JsValue), Refusal> {
    let (build, now, name) = (asked.build, asked.now, asked.name.clone());
    let records = records(asked, &Snapshot::of(shelf));
    // Where there is no database there are no photos to lose; one that says nothing is waited for once.
    let named = photos::names("").await;
    let mut silent = named == Err(NoPhoto::Silent);
    let mut names = named.unwrap_or_default();
    // Those of what lies in the bin would come back to nothing.
    names.retain(|photo| {
        let mut records = records.iter();
        records.any(|(kind, held)| *kind == photo.kind && held.id == photo.id)
    });
    let mut writer = BackupWriter::begin(build, now, records.len(), names.len())?;
    for (kind, held) in &records {
        writer.record(kind, held)?;
    }
    let parts = Array::new();
    let push = |bytes: &[u8]| parts.push(&Uint8Array::from(bytes));
    let mut kept = 0_usize;
    let mut unread = Vec::new();
    for name in &names {
        if silent {
            unread.push(owner(&records, name));
            continue;
        }
        match photos::get(name).await {
            Ok(Some(jpeg)) => {
                writer.photo(name, &jpeg)?;
                kept = kept.saturating_add(1);
            }
            // It was taken away meanwhile.
            Ok(None) => {}
            // One that is damaged keeps nothing else from being saved.
            Err(why) => {
                silent = why == NoPhoto::Silent;
                unread.push(owner(&records, name));
            }
        }
        push(&writer.take());
    }
    push(&writer.finish()?);
    let file = download::made(&name, "application/zip", &parts).ok_or(NoFile::NoRoom)?;
    let made = Made {
        records: records.len(),
        photos: kept,
        unread,
        silent,
    };
    Ok((made, file.into()))
}

/// What the record of a photo is called.
fn owner(records: &[(&'static str, Held<Raw>)], photo: &PhotoName) -> String {
    let mut records = records.iter();
    records
        .find(|(kind, held)| *kind == photo.kind && held.id == photo.id)
        .and_then(|(kind, held)| Kind::named(kind)?.title(held.record.get()))
        .unwrap_or_default()
}

/// Every record on the shelf, and those in memory that no shelf has taken.
fn records(asked: Make, shelf: &Snapshot) -> Vec<(&'static str, Held<Raw>)> {
    let mut all: Vec<(&'static str, Held<Raw>)> = Vec::new();
    for kind in &KINDS {
        let loaded = Store::<Raw>::new(kind.name, asked.build).load_all(shelf, asked.now);
        let known = loaded.records.into_iter();
        let known = known.filter(|held| kind.title(held.record.get()).is_some());
        all.extend(known.map(|held| (kind.name, held)));
    }
    for unkept in asked.unkept {
        let Some(kind) = Kind::named(&unkept.kind) else {
            continue;
        };
        all.retain(|(of, held)| (*of, &held.id) != (kind.name, &unkept.id));
        let held = Held::from_elsewhere(&unkept.id, unkept.record, unkept.counter);
        all.push((kind.name, held));
    }
    all
}
