//! Everything that is kept, as one file: a zip that any computer opens.
//!
//! | path | holds |
//! | --- | --- |
//! | `scaleside.json` | the layout's number, the build, the moment and the counts: [`Label`] |
//! | `READ-ME.txt` | what this file is, for whoever finds it |
//! | `records/<kind>/<id>.json` | one record, sealed as the store seals it: see [`crate::store::envelope`] |
//! | `photos/<kind>/<id>/<photo>.jpg` | one photo of that record |
//!
//! Nothing is compressed when written: photos are already, and texts are short. What was packed again by
//! another program may be.

pub mod last;
pub mod merge;
pub mod read;
pub(crate) mod refusals;
pub mod write;

use serde::{Deserialize, Serialize};

use crate::base::id::is_id;
use crate::base::instant::Instant;
use crate::journal::photo::PhotoName;

/// The layout that is written, and the newest that is read.
pub const LAYOUT: u32 = 1;

/// The longest file that is read, in bytes.
pub const MOST_BYTES: usize = 1 << 29;
/// The longest photo, in bytes.
pub const MOST_PHOTO_BYTES: usize = 1 << 23;
/// The most entries of a file.
pub const MOST_ENTRIES: usize = 50_000;

const LABEL: &str = "scaleside.json";
const READ_ME: &str = "READ-ME.txt";

/// What a backup says of itself.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Label {
    /// Always `scaleside backup`.
    pub what: String,
    /// The number of the layout.
    pub layout: u32,
    /// The build that made it.
    pub build: u64,
    /// When it was made.
    pub made: Instant,
    /// How many records it holds.
    pub records: usize,
    /// How many photos it holds.
    pub photos: usize,
}

/// What a path in a backup stands for.
enum Path {
    Label,
    Record { kind: String, id: String },
    Photo(PhotoName),
    Other,
}

impl Path {
    fn parse(path: &str) -> Self {
        if path == LABEL {
            return Self::Label;
        }
        let photo = path
            .strip_prefix("photos/")
            .and_then(|rest| PhotoName::parse(rest.strip_suffix(".jpg")?));
        if let Some(photo) = photo {
            return Self::Photo(photo);
        }
        let record = path
            .strip_prefix("records/")
            .and_then(|rest| rest.strip_suffix(".json")?.split_once('/'));
        match record {
            Some((kind, id)) if is_id(kind) && is_id(id) => Self::Record {
                kind: kind.to_owned(),
                id: id.to_owned(),
            },
            _ => Self::Other,
        }
    }
}

fn record_path(kind: &str, id: &str) -> String {
    format!("records/{kind}/{id}.json")
}

fn photo_path(name: &PhotoName) -> String {
    format!("photos/{name}.jpg")
}
