//! Every figure that a screen marks has its row in the table, every row is of a figure that some screen shows, and what
//! stands on a screen in words of its own says the same number.
#![allow(clippy::unwrap_used, clippy::indexing_slicing, missing_docs)]

use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};

use scaleside::keep::bin::DAYS;
use scaleside::says;

/// The Rust files of the screens and of their pieces, each with its text.
fn screens() -> Vec<(PathBuf, String)> {
    fn below(folder: &Path, into: &mut Vec<(PathBuf, String)>) {
        for entry in fs::read_dir(folder).unwrap() {
            let path = entry.unwrap().path();
            if path.is_dir() {
                below(&path, into);
            } else if path.extension().is_some_and(|kind| kind == "rs") {
                let text = fs::read_to_string(&path).unwrap();
                into.push((path, text));
            }
        }
    }
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let mut all = Vec::new();
    below(&root.join("src/screens"), &mut all);
    below(&root.join("src/parts"), &mut all);
    all
}

#[test]
fn the_table_and_the_screens_name_the_same_figures() {
    let mut shown = BTreeSet::new();
    for (_, text) in screens() {
        for after in text.split("data-says=\"").skip(1) {
            let keys = after.split('"').next().unwrap().split(' ');
            shown.extend(keys.map(str::to_owned));
        }
    }
    let told: BTreeSet<String> = says::rows().iter().map(|row| row.key.to_owned()).collect();
    assert_eq!(shown, told);
    assert_eq!(told.len(), says::rows().len(), "a key is of one row");
}

#[test]
fn every_row_says_all_of_it() {
    for row in says::rows() {
        for part in [&row.formula, &row.inputs, &row.source, &row.covers] {
            assert!(part.len() > 4 && part.ends_with('.'), "{row:?}");
        }
        assert!(row.name.len() > 4, "{row:?}");
        // A source is named, or it is said that there is none.
        let words = [
            "ommon practice, no source",
            "ur choice",
            "rithmetic",
            "Each figure names its own",
            "The browser",
        ];
        let is_dated = row.source.split([' ', '.', ',', ';']).any(|word| {
            word.len() == 4 && word.starts_with(['1', '2']) && word.parse::<u32>().is_ok()
        });
        let is_said = words.iter().any(|word| row.source.contains(word));
        let books = [
            "Traster",
            "Butcher",
            "Hahn",
            "Dittmer",
            "Ontario",
            "USDA",
            "FDA",
            "Food Standards",
        ];
        assert!(
            is_dated || is_said || books.iter().any(|book| row.source.contains(book)),
            "{row:?}"
        );
        assert_eq!(says::of(row.key), Some(row));
    }
}

#[test]
fn what_is_said_of_the_bin_in_other_places_is_what_the_bin_does() {
    let mut found = 0;
    for (path, text) in screens() {
        let pieces: Vec<&str> = text.split(" days.").collect();
        let (_, told) = pieces.split_last().unwrap();
        for before in told {
            let (rest, number) = before.rsplit_once(' ').unwrap_or_default();
            if rest.ends_with("bin for") && number.parse::<i64>().is_ok() {
                assert_eq!(number, DAYS.to_string(), "{}", path.display());
                found += 1;
            }
        }
    }
    assert!(found >= 3, "{found}");
}
