//! Files that go into the app and come out of it, as through the phone's own sheets.

use std::path::{Path, PathBuf};

use serde_json::json;
use tempfile::TempDir;
use thirtyfour::By;

use crate::bench::{Bench, patiently};

impl Bench {
    /// Chooses a file in a field.
    #[track_caller]
    pub fn choose(&self, field: &str, file: &Path) {
        // The field itself is not shown: its label is the button.
        let outcome = patiently(|| {
            self.runtime.block_on(async {
                let found = self.browser().find(By::Css(field)).await?;
                found.send_keys(file.to_str().unwrap()).await
            })
        });
        if let Err(why) = outcome {
            self.fail(format!(
                "could not choose {} in {field}: {why}",
                file.display()
            ));
        }
    }

    /// Where files that are saved land from now on.
    #[track_caller]
    pub fn downloads(&self) -> TempDir {
        let folder = tempfile::tempdir().unwrap();
        self.command(
            "Browser.setDownloadBehavior",
            json!({ "behavior": "allow", "downloadPath": folder.path() }),
        );
        folder
    }
}

/// Waits for the one file of a folder whose name ends so.
#[track_caller]
pub fn saved(folder: &TempDir, ending: &str) -> PathBuf {
    for _ in 0..200 {
        let entries = std::fs::read_dir(folder.path()).unwrap();
        let mut paths = entries.map(|entry| entry.unwrap().path());
        if let Some(path) = paths.find(|path| path.to_str().unwrap().ends_with(ending)) {
            return path;
        }
        std::thread::sleep(std::time::Duration::from_millis(50));
    }
    panic!("no {ending} was saved");
}
