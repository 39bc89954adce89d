//! What was chosen in a field for files.

use web_sys::{File, HtmlInputElement};

/// Takes the file that was chosen in a field, and empties the field for the next.
#[must_use]
pub fn chosen(field: &HtmlInputElement) -> Option<File> {
    all_chosen(field).into_iter().next()
}

/// Takes all files that were chosen in a field, and empties the field for the next.
#[must_use]
pub fn all_chosen(field: &HtmlInputElement) -> Vec<File> {
    let files = field.files();
    let taken = files.map(|files| {
        (0..files.length())
            .filter_map(|nth| files.get(nth))
            .collect()
    });
    field.set_value("");
    taken.unwrap_or_default()
}
