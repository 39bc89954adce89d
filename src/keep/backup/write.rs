//! Writes a backup piece by piece, so that a phone never holds all photos at once.

use std::cell::RefCell;
use std::io::{self, Write};
use std::rc::Rc;

use rawzip::{CompressionMethod, ZipArchiveWriter};

use super::refusals::NoMaking;
use super::{LABEL, LAYOUT, Label, READ_ME, photo_path, record_path};
use crate::base::instant::Instant;
use crate::base::refusal::Refusal;
use crate::journal::photo::PhotoName;
use crate::keep::kind::Raw;
use crate::store::envelope;
use crate::store::outcome::Held;

const READ_ME_TEXT: &str = "This is a backup of Scaleside, an app for cooks who fillet, weigh and cost fish.\n\
To bring it back, open Scaleside, go to Settings, What is kept, Restore, and choose this file.\n\
Photos are ordinary JPEG files; each record is a JSON file with a checksum.\n";

/// What is written and not yet taken.
#[derive(Clone, Default)]
struct Tray(Rc<RefCell<Vec<u8>>>);

impl Write for Tray {
    fn write(&mut self, bytes: &[u8]) -> io::Result<usize> {
        self.0.borrow_mut().extend_from_slice(bytes);
        Ok(bytes.len())
    }

    fn flush(&mut self) -> io::Result<()> {
        Ok(())
    }
}

/// A backup being written.
pub struct BackupWriter {
    zip: ZipArchiveWriter<Tray>,
    tray: Tray,
    build: u64,
}

impl BackupWriter {
    /// A backup of so many records and photos, made by `build`.
    ///
    /// # Errors
    /// The sentence for what can't be written.
    pub fn begin(
        build: u64,
        made: Instant,
        records: usize,
        photos: usize,
    ) -> Result<Self, Refusal> {
        let label = Label {
            what: WHAT.to_owned(),
            layout: LAYOUT,
            build,
            made,
            records,
            photos,
        };
        let label = serde_json::to_string_pretty(&label).map_err(|_| NoMaking::Unwritten)?;
        let tray = Tray::default();
        let mut writer = Self {
            zip: ZipArchiveWriter::new(tray.clone()),
            tray,
            build,
        };
        writer.entry(LABEL, label.as_bytes())?;
        writer.entry(READ_ME, READ_ME_TEXT.as_bytes())?;
        Ok(writer)
    }

    /// Writes one record.
    ///
    /// # Errors
    /// The sentence for a record that can't be written.
    pub fn record(&mut self, kind: &str, held: &Held<Raw>) -> Result<(), Refusal> {
        let text = envelope::seal(&held.record, held.counter, self.build)
            .map_err(|_| NoMaking::Unwritten)?;
        self.entry(&record_path(kind, &held.id), text.as_bytes())
    }

    /// Writes one photo.
    ///
    /// # Errors
    /// The sentence for a photo that can't be written.
    pub fn photo(&mut self, name: &PhotoName, jpeg: &[u8]) -> Result<(), Refusal> {
        self.entry(&photo_path(name), jpeg)
    }

    /// Takes away what has been written since the last call.
    pub fn take(&mut self) -> Vec<u8> {
        self.tray.0.take()
    }

    /// Ends the file and returns the rest of it.
    ///
    /// # Errors
    /// The sentence for what can't be written.
    pub fn finish(self) -> Result<Vec<u8>, Refusal> {
        self.zip.finish().map_err(|_| NoMaking::Unwritten)?;
        Ok(self.tray.0.take())
    }

    fn entry(&mut self, path: &str, bytes: &[u8]) -> Result<(), Refusal> {
        let mut write = || {
            let (mut entry, config) = self
                .zip
                .new_file(path)
                .compression_method(CompressionMethod::STORE)
                .unix_permissions(0o644)
                .start()?;
            let mut writer = config.wrap(&mut entry);
            writer.write_all(bytes)?;
            let (_, descriptor) = writer.finish()?;
            entry.finish(descriptor)
        };
        write()
            .map(|_| ())
            .map_err(|_: rawzip::Error| NoMaking::Unwritten.into())
    }
}

pub(super) const WHAT: &str = "scaleside backup";
