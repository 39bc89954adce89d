//! What the app shows is drawn, or written in characters that any phone's font has: a font that lacks one shows an
//! empty box in its place.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::indexing_slicing,
    clippy::panic,
    missing_docs
)]

use std::fs;
use std::path::{Path, PathBuf};

/// Beside plain letters, what stands in the common repertoire of Latin fonts: the figures, quotes, dashes and money that
/// Roboto, the font of most phones, has alone (looked up with `fc-list ':charset=…'`, fonts-roboto-unhinted 2:0~20170802).
const COMMON: &str = "–—‘’“”…›−₫€₩₹₺⅓⅔⅛₀₁₂₃⁴⁰⁵ⁿ≤√Σ⁄";

fn is_common(c: char) -> bool {
    c.is_ascii()
        || ('\u{a0}'..='\u{17f}').contains(&c)
        || ('\u{1ea0}'..='\u{1ef9}').contains(&c)
        || COMMON.contains(c)
}

fn files(folder: &Path, found: &mut Vec<PathBuf>) {
    for entry in fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        let ending = path.extension().and_then(|ending| ending.to_str());
        if path.is_dir() {
            files(&path, found);
        } else if ending.is_some_and(|ending| ["rs", "css", "html", "json"].contains(&ending)) {
            found.push(path);
        }
    }
}

/// What of a file can come onto the screen: not its comments, and not its tests.
fn shown(text: &str) -> impl Iterator<Item = &str> {
    let product = text.split("#[cfg(test)]").next().unwrap_or_default();
    product
        .lines()
        .map(|line| line.split("// ").next().unwrap_or_default())
        .filter(|line| !line.trim_start().starts_with("//"))
}

fn odd(text: &str) -> Vec<String> {
    shown(text)
        .filter(|line| !line.chars().all(is_common))
        .map(|line| line.trim().to_owned())
        .collect()
}

#[test]
fn no_screen_shows_a_character_that_a_font_may_lack() {
    let mut found = Vec::new();
    for folder in ["src", "style", "public"] {
        files(
            &Path::new(env!("CARGO_MANIFEST_DIR")).join(folder),
            &mut found,
        );
    }
    found.retain(|path| !path.ends_with("tests.rs"));
    assert!(found.len() > 200, "{}", found.len());
    let odd: Vec<String> = found
        .iter()
        .flat_map(|path| {
            let text = fs::read_to_string(path).unwrap();
            odd(&text)
                .into_iter()
                .map(|line| format!("{}: {line}", path.display()))
                .collect::<Vec<_>>()
        })
        .collect();
    assert_eq!(odd, [""; 0]);
}

#[test]
fn a_character_that_a_font_may_lack_is_found() {
    assert_eq!(odd("say(\"✓ done\"); // fine"), ["say(\"✓ done\");"]);
    assert_eq!(odd("// ✓\nsay(\"“8 × 2” · €4.99…\");"), [""; 0]);
}
