//! The pictures of codes that `vectors/qr_photos.py` has made.

use std::fs;
use std::path::PathBuf;

use zune_jpeg::JpegDecoder;
use zune_jpeg::zune_core::bytestream::ZCursor;

const VECTORS: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/tests/vectors");

/// One of them.
pub struct Taken {
    /// The name of its file.
    pub name: String,
    /// How it was taken.
    pub kind: String,
    /// The text of the code in it; empty where there is none.
    pub says: String,
}

impl Taken {
    /// Where it lies.
    pub fn path(&self) -> PathBuf {
        [VECTORS, "qr_photos", &self.name].iter().collect()
    }

    /// Width, height, and how light each point is: its colours are all alike.
    pub fn grey(&self) -> (usize, usize, Vec<u8>) {
        let file = fs::read(self.path()).unwrap();
        let mut decoder = JpegDecoder::new(ZCursor::new(file));
        let values = decoder.decode().unwrap();
        let (wide, high) = decoder.dimensions().unwrap();
        let each = values.len() / wide / high;
        (wide, high, values.into_iter().step_by(each).collect())
    }
}

/// All of them.
pub fn taken() -> Vec<Taken> {
    let mut table = csv::Reader::from_path(format!("{VECTORS}/qr_photos.csv")).unwrap();
    let rows = table.records().map(|row| {
        let row = row.unwrap();
        let [name, kind, says] = [0, 1, 2].map(|at| row[at].to_owned());
        Taken { name, kind, says }
    });
    rows.collect()
}
