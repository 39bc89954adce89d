//! A length of time as a cook says it.

/// A stretch of time as it is said: `45 s`, `1 min 30 s`, `2 h 5 min`.
#[must_use]
pub fn stretch(secs: i64) -> String {
    let all = secs.unsigned_abs();
    let parts = [(all / 3600, "h"), (all / 60 % 60, "min"), (all % 60, "s")];
    let said: Vec<String> = (parts.iter().filter(|p| p.0 > 0))
        .map(|(n, unit)| format!("{n} {unit}"))
        .collect();
    if said.is_empty() {
        "0 s".to_owned()
    } else {
        said.join(" ")
    }
}

/// The same for milliseconds, as shown in a sentence: from an hour on the seconds are left out.
#[must_use]
pub(crate) fn in_words(ms: i64) -> String {
    let secs = ms.max(0) / 1000;
    stretch(if secs < 3600 { secs } else { secs - secs % 60 })
}

#[cfg(test)]
mod tests {
    use super::stretch;

    #[test]
    fn stretches_are_said_as_a_cook_says_them() {
        for (secs, said) in [
            (0, "0 s"),
            (45, "45 s"),
            (60, "1 min"),
            (90, "1 min 30 s"),
            (7500, "2 h 5 min"),
            (-30, "30 s"),
        ] {
            assert_eq!(stretch(secs), said);
        }
    }
}
