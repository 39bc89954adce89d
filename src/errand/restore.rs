//! A backup looked at, and its photos put in. Its records are put in by the page, which alone reaches the shelf.

use js_sys::{Array, Uint8Array};
use serde::{Deserialize, Serialize};
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::JsFuture;
use web_sys::File;

use super::Errand;
use super::refusals::NoFile;
use super::snapshot::Snapshot;
use crate::base::instant::Instant;
use crate::base::refusal::Refusal;
use crate::device::photos;
use crate::journal::photo::PhotoName;
use crate::keep::backup::merge::{self, MergeLine};
use crate::keep::backup::refusals::NoBackup;
use crate::keep::backup::{MOST_BYTES, read};
use crate::work::{QuestionKind, WorkerLane};

/// A backup to be looked at. The file and the shelf go with it.
#[derive(Serialize, Deserialize)]
pub struct LookAt {
    /// Which build this is.
    pub build: u64,
}

/// What a backup would do.
#[derive(Clone, Serialize, Deserialize)]
pub struct Look {
    /// When it was made.
    pub made: Instant,
    /// Its records, and what each would do.
    pub lines: Vec<MergeLine>,
    /// Its photos that are not here.
    pub photos: Vec<PhotoName>,
    /// The paths of what can't be read, and why.
    pub unread: Vec<(String, String)>,
}

/// Photos to be put in. The file goes with them.
#[derive(Serialize, Deserialize)]
pub struct KeepPhotos(pub Vec<PhotoName>);

impl Errand for LookAt {
    type Answer = Result<Look, Refusal>;
    const KIND: QuestionKind = QuestionKind {
        name: "look at a backup",
        lane: WorkerLane::Files,
        newest: true,
    };
}

impl Errand for KeepPhotos {
    type Answer = Result<(), Refusal>;
    const KIND: QuestionKind = QuestionKind {
        name: "photos of a backup",
        lane: WorkerLane::Files,
        newest: false,
    };
}

pub(super) async fn look(asked: LookAt, with: &JsValue) -> Result<Look, Refusal> {
    let with: Array = with.clone().unchecked_into();
    let bytes = bytes(with.get(0)).await?;
    let here = photos::names("").await.unwrap_or_default();
    let backup = read::read(&bytes)?;
    let names = backup.photos.iter().map(|(name, _)| name);
    Ok(Look {
        made: backup.label.made,
        lines: merge::look(&Snapshot::of(&with.get(1)), asked.build, &backup)?,
        photos: names.filter(|name| !here.contains(name)).cloned().collect(),
        unread: backup.unread,
    })
}

pub(super) async fn keep_photos(asked: KeepPhotos, file: &JsValue) -> Result<(), Refusal> {
    let bytes = bytes(file.clone()).await?;
    for (name, jpeg) in read::read(&bytes)?.photos {
        if asked.0.contains(&name) {
            photos::keep(&name, &jpeg).await?;
        }
    }
    Ok(())
}

async fn bytes(file: JsValue) -> Result<Vec<u8>, Refusal> {
    let file: File = file.dyn_into().map_err(|_| NoFile::Unreadable)?;
    #[allow(clippy::cast_precision_loss)]
    if file.size() > MOST_BYTES as f64 {
        return Err(NoBackup::TooLarge.into());
    }
    let buffer = JsFuture::from(file.array_buffer()).await;
    let buffer = buffer.map_err(|_| NoFile::Unreadable)?;
    Ok(Uint8Array::new(&buffer).to_vec())
}
