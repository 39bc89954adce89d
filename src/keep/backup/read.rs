//! Reads a backup: all of it, before anything on the phone is touched. A pure function of the file's bytes.

use std::borrow::Cow;
use std::collections::BTreeSet;

use miniz_oxide::inflate::decompress_to_vec_with_limit;
use rawzip::{CompressionMethod, ZipArchive, ZipFileHeaderRecord, ZipSliceArchive};

use super::refusals::{DAMAGED_PHOTO, NoBackup};
use super::write::WHAT;
use super::{LABEL, LAYOUT, Label, MOST_BYTES, MOST_ENTRIES, MOST_PHOTO_BYTES, Path};
use crate::base::crc;
use crate::base::refusal::Refusal;
use crate::journal::photo::PhotoName;
use crate::keep::kind::{Kind, Raw};
use crate::store::envelope;
use crate::store::envelope::Unreadable;
use crate::store::outcome::Held;

/// What every JPEG begins with.
const JPEG: [u8; 3] = [0xff, 0xd8, 0xff];

/// A backup as it was read.
pub struct Backup<'a> {
    /// What it says of itself.
    pub label: Label,
    /// Its records that this build can read, by kind.
    pub records: Vec<(&'static Kind, Held<Raw>)>,
    /// Its photos, by name.
    pub photos: Vec<(PhotoName, Cow<'a, [u8]>)>,
    /// The paths of what can't be read, and why.
    pub unread: Vec<(String, String)>,
}

/// Reads a whole file.
///
/// # Errors
/// The sentence for a file that is no backup, is cut off, or is not to be trusted. No bytes make it panic.
pub fn read(bytes: &[u8]) -> Result<Backup<'_>, Refusal> {
    if bytes.len() > MOST_BYTES {
        return Err(NoBackup::TooLarge.into());
    }
    let zip = ZipArchive::from_slice(bytes).map_err(|_| no_zip(bytes))?;
    let mut backup = Backup {
        label: read_label(&zip)?,
        records: Vec::new(),
        photos: Vec::new(),
        unread: Vec::new(),
    };
    // What is unpacked of a file is bounded by the sizes of a whole phone, not by what the file says.
    let mut room = MOST_BYTES;
    let mut seen = BTreeSet::new();
    let mut entries = zip.entries();
    while let Some(entry) = entries.next_entry().map_err(|_| NoBackup::CutOff)? {
        let path = path_of(&entry)?;
        if !seen.insert(path.clone()) {
            return Err(NoBackup::Twice(path).into());
        }
        if seen.len() > MOST_ENTRIES {
            return Err(NoBackup::Swollen.into());
        }
        match Path::parse(&path) {
            Path::Label | Path::Other => {}
            Path::Photo(name) => match unpack(&zip, &entry, MOST_PHOTO_BYTES, &mut room)? {
                Some(jpeg) if jpeg.starts_with(&JPEG) => backup.photos.push((name, jpeg)),
                _ => backup.unread.push((path, DAMAGED_PHOTO.into())),
            },
            Path::Record { kind, id } => {
                let text = unpack(&zip, &entry, envelope::MOST_BYTES, &mut room)?;
                match text.map_or(Err(Unreadable::Damaged), |text| record(&kind, &id, &text)) {
                    Ok(record) => backup.records.push(record),
                    Err(why) => backup.unread.push((path, why.to_string())),
                }
            }
        }
    }
    Ok(backup)
}

fn read_label(zip: &ZipSliceArchive<&[u8]>) -> Result<Label, Refusal> {
    let mut entries = zip.entries();
    while let Some(entry) = entries.next_entry().map_err(|_| NoBackup::CutOff)? {
        if entry.file_path().as_bytes() != LABEL.as_bytes() {
            continue;
        }
        let text = unpack(zip, &entry, envelope::MOST_BYTES, &mut MOST_BYTES.clone())?;
        let label = text.and_then(|text| serde_json::from_slice::<LooseLabel>(&text).ok());
        return match label {
            Some(label) if label.what == WHAT && label.layout > LAYOUT => {
                Err(NoBackup::Newer.into())
            }
            Some(label) if label.what == WHAT && label.layout > 0 => {
                serde_json::from_value(label.rest()).map_err(|_| NoBackup::CutOff.into())
            }
            _ => Err(NoBackup::NotOurs.into()),
        };
    }
    Err(NoBackup::NotOurs.into())
}

/// The part of a label that every layout to come will have.
#[derive(serde::Deserialize)]
struct LooseLabel {
    what: String,
    layout: u32,
    #[serde(flatten)]
    more: serde_json::Map<String, serde_json::Value>,
}

impl LooseLabel {
    fn rest(self) -> serde_json::Value {
        let mut all = self.more;
        all.insert("what".into(), self.what.into());
        all.insert("layout".into(), self.layout.into());
        all.into()
    }
}

/// The path of an entry, when it can be trusted.
fn path_of(entry: &ZipFileHeaderRecord<'_>) -> Result<String, Refusal> {
    let bytes = entry.file_path().as_bytes();
    let path = String::from_utf8_lossy(bytes).into_owned();
    let outside = path.starts_with('/')
        || path.contains(['\\', ':', '\0'])
        || path.split('/').any(|part| part == "..");
    if outside || bytes.len() > 300 {
        let shown = path.chars().take(60).collect();
        return Err(NoBackup::LeadsOutside(shown).into());
    }
    Ok(path)
}

/// The bytes of an entry; nothing when they are damaged.
fn unpack<'a>(
    zip: &ZipSliceArchive<&'a [u8]>,
    entry: &ZipFileHeaderRecord<'_>,
    most: usize,
    room: &mut usize,
) -> Result<Option<Cow<'a, [u8]>>, Refusal> {
    let Ok(local) = zip.get_entry(entry.wayfinder()) else {
        return Err(NoBackup::CutOff.into());
    };
    // `get_entry` lends for as long as the archive; the range says where in the file itself it is.
    let (from, to) = local.compressed_data_range();
    let packed = match (usize::try_from(from), usize::try_from(to)) {
        (Ok(from), Ok(to)) => zip.get_ref().get(from..to).ok_or(NoBackup::CutOff)?,
        _ => return Err(NoBackup::CutOff.into()),
    };
    let bytes = match entry.compression_method() {
        CompressionMethod::STORE => Cow::Borrowed(packed),
        CompressionMethod::DEFLATE => match decompress_to_vec_with_limit(packed, most.min(*room)) {
            Ok(bytes) => Cow::Owned(bytes),
            Err(error) if error.status == miniz_oxide::inflate::TINFLStatus::HasMoreOutput => {
                return Err(NoBackup::Swollen.into());
            }
            Err(_) => return Ok(None),
        },
        _ => return Ok(None),
    };
    // Several entries may point at the same bytes, so what is stored counts as well.
    *room = room.checked_sub(bytes.len()).ok_or(NoBackup::Swollen)?;
    if bytes.len() > most {
        return Err(NoBackup::Swollen.into());
    }
    let whole =
        crc::of(&bytes) == entry.crc32() && bytes.len() as u64 == entry.uncompressed_size_hint();
    Ok(whole.then_some(bytes))
}

fn record(kind: &str, id: &str, text: &[u8]) -> Result<(&'static Kind, Held<Raw>), Unreadable> {
    let kind = Kind::named(kind).ok_or(Unreadable::Unfamiliar)?;
    let text = std::str::from_utf8(text).map_err(|_| Unreadable::Damaged)?;
    let opened = envelope::open(text)?;
    if !envelope::is_bounded(opened.body) {
        return Err(Unreadable::Unfamiliar);
    }
    kind.title(opened.body).ok_or(Unreadable::Unfamiliar)?;
    Ok((
        kind,
        Held::from_elsewhere(id, opened.record()?, envelope::brought(opened.counter)),
    ))
}

fn no_zip(bytes: &[u8]) -> NoBackup {
    if bytes.starts_with(b"PK") {
        NoBackup::CutOff
    } else {
        NoBackup::NotOurs
    }
}
