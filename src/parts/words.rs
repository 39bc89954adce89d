//! Small pieces of wording that several screens share.

/// A length of time on a timer's face: `4:30`, and `1:02:05` from an hour on.
#[must_use]
pub fn face(ms: i64) -> String {
    let secs = (ms.max(0).saturating_add(999)) / 1000;
    let (hours, minutes, secs) = (secs / 3600, secs / 60 % 60, secs % 60);
    if hours > 0 {
        format!("{hours}:{minutes:02}:{secs:02}")
    } else {
        format!("{minutes}:{secs:02}")
    }
}

/// The words with a capital at their head.
#[must_use]
pub fn capital(words: &str) -> String {
    let mut letters = words.chars();
    letters.next().map_or_else(String::new, |first| {
        first.to_uppercase().chain(letters).collect()
    })
}

/// Our own words, which are in plain letters, with a capital at their head: it takes no table of all there are.
#[must_use]
pub fn plain_capital(words: &str) -> String {
    let mut letters = words.chars();
    letters.next().map_or_else(String::new, |first| {
        std::iter::once(first.to_ascii_uppercase())
            .chain(letters)
            .collect()
    })
}

/// The words with the last two held on one line: `3 packs of 250 g` never breaks before its unit.
#[must_use]
pub fn held(words: &str) -> String {
    match words.rsplit_once(' ') {
        Some((head, unit)) => format!("{head}\u{a0}{unit}"),
        None => words.to_owned(),
    }
}
