//! The order of the house: what a cook works out knows nothing of browsers, clocks or chance; files stay small;
//! the top of the repository holds what belongs there.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::indexing_slicing,
    clippy::panic,
    missing_docs
)]

use std::fs;
use std::path::{Path, PathBuf};

/// What of `src` may know the browser. Everything beside them is pure, what comes new included.
const BROWSER: &[&str] = &[
    "device",
    "errand",
    "parts",
    "pictures.rs",
    "screens",
    "session",
    "worker.rs",
];

const TOP: &[&str] = &[
    ".cargo",
    ".ci",
    ".clippy.toml",
    ".gitignore",
    "Cargo.lock",
    "Cargo.toml",
    "DEVELOPERS.md",
    "LICENSE",
    "README.md",
    "Trunk.toml",
    "public",
    "src",
    "style",
    "tests",
];

/// What git does not keep.
const MADE: &[&str] = &[".git", "dist", "target"];

const LONGEST: usize = 400;

fn house() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR"))
}

fn rust_files(folder: &Path, found: &mut Vec<PathBuf>) {
    for entry in fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        if path.is_dir() {
            rust_files(&path, found);
        } else if path.extension().is_some_and(|ending| ending == "rs") {
            found.push(path);
        }
    }
}

/// The words in `code` that have no place in the pure part.
fn foreign(code: &str) -> Vec<String> {
    const CRATES: &[&str] = &[
        "web_sys",
        "js_sys",
        "wasm_bindgen",
        "leptos",
        "getrandom",
        "fastrand",
        "SystemTime",
    ];
    let words = code.split(|letter: char| !letter.is_alphanumeric() && letter != '_');
    let mut found: Vec<String> = words
        .filter(|word| CRATES.contains(word) || word.starts_with("gloo"))
        .map(str::to_owned)
        .collect();
    // Also the name of a currency, so only as the head of a path.
    if code.contains("rand::") {
        found.push("rand".to_owned());
    }
    let clock = code
        .split("std::time")
        .skip(1)
        .any(|rest| !rest.starts_with("::Duration"));
    if clock {
        found.push("std::time".to_owned());
    }
    found
}

#[test]
fn a_foreign_word_is_recognised() {
    let cases: &[(&str, &[&str])] = &[
        ("use web_sys::Window;", &["web_sys"]),
        ("let moment = js_sys::Date::now();", &["js_sys"]),
        (
            "#[wasm_bindgen] use leptos::prelude::*;",
            &["wasm_bindgen", "leptos"],
        ),
        ("gloo_storage::LocalStorage::get(key)", &["gloo_storage"]),
        ("rand::random::<f64>()", &["rand"]),
        ("use std::time::{Duration, Instant};", &["std::time"]),
        ("std::time::SystemTime::now()", &["SystemTime", "std::time"]),
        (
            "use std::time::Duration; use crate::instant::Instant; // a random order, igloo",
            &[],
        ),
    ];
    for (code, expected) in cases {
        assert_eq!(foreign(code), *expected, "{code}");
    }
}

#[test]
fn what_a_cook_works_out_knows_no_browser_clock_or_chance() {
    let mut files = Vec::new();
    rust_files(&house().join("src"), &mut files);
    let pure = |path: &PathBuf| {
        !BROWSER
            .iter()
            .any(|folder| path.starts_with(house().join("src").join(folder)))
    };
    files.retain(pure);
    assert!(
        files.iter().any(|path| path.ends_with("trade/yields.rs")),
        "the pure part was not found"
    );
    for path in files {
        assert_eq!(
            foreign(&fs::read_to_string(&path).unwrap()),
            [""; 0],
            "{}",
            path.display()
        );
    }
}

#[test]
fn a_refusal_is_worded_only_where_its_room_words_them() {
    let src = house().join("src");
    let mut files = Vec::new();
    rust_files(&src, &mut files);
    // Nothing but a reason with a sentence becomes a refusal, so where reasons get theirs, refusals are worded.
    files.retain(|path| fs::read_to_string(path).unwrap().contains("impl Said for"));
    let (theirs, elsewhere): (Vec<PathBuf>, Vec<PathBuf>) = files
        .into_iter()
        .partition(|path| path.ends_with("refusals.rs"));
    assert!(
        theirs.contains(&src.join("base/refusals.rs")),
        "the refusals were not found"
    );
    assert_eq!(
        elsewhere,
        [""; 0].map(PathBuf::from),
        "name the reason and word it in the refusals.rs of its room"
    );
}

/// A kind that the bin does not know could be removed and never put back.
#[test]
fn every_kind_of_record_can_be_binned_and_backed_up() {
    let mut files = Vec::new();
    rust_files(&house().join("src"), &mut files);
    let texts = files.iter().map(|path| fs::read_to_string(path).unwrap());
    let kinds: Vec<String> = texts
        .flat_map(|text| {
            let opening = "const KIND: &'static str = \"";
            let found = text.split(opening).skip(1);
            let names = found.filter_map(|rest| Some(rest.split_once('"')?.0.to_owned()));
            names.collect::<Vec<_>>()
        })
        .collect();
    assert!(kinds.contains(&"class".to_owned()), "no kind was found");
    for kind in kinds {
        let known = scaleside::keep::kind::Kind::named(&kind);
        assert!(known.is_some(), "{kind} is missing in keep/kind.rs");
    }
}

#[test]
fn no_file_of_rust_is_too_long_to_read() {
    let mut files = Vec::new();
    rust_files(&house().join("src"), &mut files);
    rust_files(&house().join("tests"), &mut files);
    let long: Vec<String> = files
        .iter()
        .map(|path| (path, fs::read_to_string(path).unwrap().lines().count()))
        .filter(|(_, lines)| *lines > LONGEST)
        .map(|(path, lines)| format!("{}: {lines} lines", path.display()))
        .collect();
    assert_eq!(
        long, [""; 0],
        "split what is longer than {LONGEST} lines by its nouns"
    );
}

#[test]
fn the_top_holds_what_belongs_there() {
    let names = fs::read_dir(house())
        .unwrap()
        .map(|entry| entry.unwrap().file_name().into_string().unwrap());
    let strange: Vec<String> = names
        .filter(|name| !TOP.contains(&name.as_str()) && !MADE.contains(&name.as_str()))
        .collect();
    assert_eq!(strange, [""; 0]);
}
