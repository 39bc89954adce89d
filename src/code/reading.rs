//! One code wherever it comes from: a typed field, a link, a picture.

use super::find::{Findings, find};
use super::opening::{OpenedCode, open};
use super::unopened::Unopened;

/// As much as is read of what should be one code, in characters: spelled out with all around it.
const MOST: usize = 2_000;

/// Opens the one code that was typed, said or linked, as tolerantly as a paste is read.
///
/// # Errors
/// Why it does not open, and where.
pub fn read_one(typed: &str) -> Result<OpenedCode, Unopened> {
    let plain = open(typed);
    if plain.is_ok() {
        return plain;
    }
    let text: String = typed.chars().take(MOST).collect();
    let Findings { found, refused, .. } = find(&text);
    let mut found = found.into_iter();
    match (found.next(), found.next()) {
        (Some(one), None) => Ok(one.opened),
        (None, _) if plain.as_ref().is_err_and(is_foreign) => {
            let why = refused.into_iter().next().map(|refused| refused.why);
            why.map_or(plain, Err)
        }
        _ => plain,
    }
}

/// A mark between the groups is only worth a word where nothing else is wrong.
fn is_foreign(why: &Unopened) -> bool {
    matches!(why, Unopened::BadLetter { .. })
}

#[cfg(test)]
mod tests {
    use super::super::letters::Code;
    use super::super::sheet::sample;
    use super::*;

    #[test]
    fn one_code_is_read_however_it_is_written() {
        let code = Code::of(&sample::full()).unwrap();
        let written = code.to_string();
        let numbered: String = (1..)
            .zip(written.split('-'))
            .map(|(nth, group)| format!("{nth}. {group}\n"))
            .collect();
        let (head, tail) = written.split_at(17);
        for typed in [
            written.clone(),
            written.replace('-', "."),
            written.replace('-', " / "),
            numbered,
            code.spoken().join(", "),
            format!("{head}{}", tail.get(1..).unwrap()),
            format!("{head}7{tail}"),
            format!("https://host.example/kitchen/{}", code.link()),
        ] {
            let opened = read_one(&typed).unwrap_or_else(|why| panic!("{typed}: {why}"));
            assert_eq!(opened.code, code, "{typed}");
        }
        for (typed, said) in [
            (format!("{head}*{tail}").replacen("-", "", 1), "opens"),
            ("22*2".into(), "There is no *"),
            (
                written.replace('-', ",").get(5..).unwrap().into(),
                "Group 1 is missing",
            ),
            (written.repeat(2), "too long"),
        ] {
            let answer = read_one(&typed).map_or_else(|why| why.to_string(), |_| "opens".into());
            assert!(answer.contains(said), "{typed}: {answer}");
        }
    }
}
