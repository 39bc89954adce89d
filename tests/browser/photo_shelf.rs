//! The photos as the browser keeps them, behind the back of the app.

use std::process::Command;

use serde_json::{Value, json};

use crate::bench::Bench;
use crate::journal::stdin;

/// Opens the photos, does `WORK` with their store and with what is `given`, and returns the `answer`.
const PHOTOS: &str = "return new Promise((done, failed) => {
    const given = arguments[0];
    const open = indexedDB.open('scaleside', 1);
    open.onupgradeneeded = () => open.result.createObjectStore('photos');
    open.onerror = () => failed(open.error);
    open.onsuccess = () => {
        const change = open.result.transaction('photos', 'readwrite');
        const photos = change.objectStore('photos');
        let answer = true;
        WORK;
        change.oncomplete = () => { open.result.close(); done(answer); };
    };
})";

/// Every photo that is kept, as its name and its bytes in base 64.
const KEPT: &str = "const keys = photos.getAllKeys(), values = photos.getAll();
    const text = (bytes) => btoa(Array.from(bytes, (byte) => String.fromCharCode(byte)).join(''));
    values.onsuccess = () => { answer = keys.result.map((key, nth) => [key, text(values.result[nth])]); }";

fn with(work: &str) -> String {
    PHOTOS.replace("WORK", work)
}

impl Bench {
    /// The names of all photos that are kept, and their bytes.
    #[track_caller]
    pub fn kept_photos(&self) -> Vec<(String, Vec<u8>)> {
        let kept: Vec<(String, String)> =
            serde_json::from_value(self.run(&with(KEPT), &[])).unwrap();
        let bytes = |text: &str| {
            let read = Command::new("node")
                .args([
                    "-e",
                    "process.stdout.write(Buffer.from(require('fs').readFileSync(0, 'utf8'), 'base64'))",
                ])
                .stdin(stdin(text))
                .output()
                .unwrap();
            read.stdout
        };
        kept.iter()
            .map(|(name, text)| (name.clone(), bytes(text)))
            .collect()
    }

    /// Waits until the last photo is gone.
    #[track_caller]
    pub fn has_no_photos(&self) {
        let none = format!(
            "return (function () {{ {} }})().then((kept) => kept.length === 0)",
            with(KEPT)
        );
        self.until("a photo is still there", &none, &[]);
    }

    /// Does `work` with the store of photos, called `photos`, and what is `given`.
    #[track_caller]
    pub fn with_photos(&self, work: &str, given: Value) {
        assert_eq!(self.run(&with(work), &[given]), json!(true));
    }

    /// Holds the photos in a change that never ends, so that nobody else is answered.
    #[track_caller]
    pub fn holds_photos_for_ever(&self) {
        let work =
            "const again = () => { photos.get('x').onsuccess = again; }; again(); done(true)";
        assert_eq!(self.run(&with(work), &[]), json!(true));
    }
}
