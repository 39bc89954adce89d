//! Files that go into the app and come out of it, as through the phone's own sheets.

use std::path::{Path, PathBuf};

use thirtyfour::By;

use crate::bench::{Bench, patiently};

impl Bench {
    /// Chooses a file in a field.
    #[track_caller]
    pub fn choose(&self, field: &str, file: &Path) {
        // The field itself is not shown: its label is the button.
        let outcome = patiently(|| {
            self.runtime().block_on(async {
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

    /// The newest file that the page has given the phone to keep and whose name ends so, once it is there whole.
    #[track_caller]
    pub fn saved(&self, ending: &str) -> PathBuf {
        let outcome = patiently(|| newest(self.downloads.path(), ending).ok_or(()));
        outcome.unwrap_or_else(|()| self.fail(format!("no file {ending} was saved")))
    }
}

/// The browser first takes the name, with nothing in it; what has come lies beside it under another until all is there.
fn newest(folder: &Path, ending: &str) -> Option<PathBuf> {
    let whole = std::fs::read_dir(folder).unwrap().filter_map(|entry| {
        let entry = entry.unwrap();
        let about = entry.metadata().ok().filter(|about| about.len() > 0)?;
        Some((about.modified().unwrap(), entry.path()))
    });
    whole
        .filter(|(_, path)| path.to_str().unwrap().ends_with(ending))
        .max()
        .map(|(_, path)| path)
}
