//! Opening a code again from what was typed, and saying what was put right.

use super::alphabet::{self, GROUP, Read};
use super::layout;
use super::letters::Code;
use super::mend::{self, LONGEST, SHORTEST};
use super::one_off::one_off;
use super::sheet::Sheet;
use super::unopened::Unopened;

/// A code that opened.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct OpenedCode {
    /// The readings.
    pub sheet: Sheet,
    /// The code as it should have been typed.
    pub code: Code,
    /// Places, from 0, of the letters that were wrong or unread and have been put right, in order.
    pub mended: Vec<usize>,
    /// A letter that was missing or too many, if one was.
    pub slipped: Option<LetterSlip>,
}

/// One letter of a code that had gone, or had come in.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum LetterSlip {
    /// It was missing at this place of the code, from 0.
    Missing(usize),
    /// It stood before this place of the code, from 0, and was left out.
    TooMany(usize),
}

impl OpenedCode {
    /// What was put right, in a sentence; `None` when nothing was.
    #[must_use]
    pub fn mending(&self) -> Option<String> {
        let named = |place: usize| {
            let letter = self.code.0.get(place).copied();
            let letter = letter.map_or('?', alphabet::letter);
            format!("{letter} in group {}", place / GROUP + 1)
        };
        match self.slipped {
            Some(LetterSlip::Missing(place)) => {
                return Some(format!("One letter was missing: {}.", named(place)));
            }
            Some(LetterSlip::TooMany(place)) => {
                let group = place.min(self.code.0.len().saturating_sub(1)) / GROUP + 1;
                return Some(format!(
                    "One letter too many was left out of group {group}."
                ));
            }
            None => {}
        }
        let named: Vec<String> = self.mended.iter().copied().map(named).collect();
        match named.as_slice() {
            [] => None,
            [one] => Some(format!("One letter was put right: {one}.")),
            [first @ .., last] => Some(format!(
                "{} letters were put right: {} and {last}.",
                named.len(),
                first.join(", ")
            )),
        }
    }
}

/// Opens a code as typed: either case, with or without hyphens and spaces, `?` for an unread letter.
///
/// # Errors
/// Why it does not open, and where.
pub fn open(typed: &str) -> Result<OpenedCode, Unopened> {
    let mut read = Vec::new();
    let mut groups: Vec<usize> = vec![0];
    for character in typed.trim().chars() {
        let letter = match alphabet::read(character) {
            Read::Letter(value) => Some(value),
            Read::Unread => None,
            Read::Gap if alphabet::is_invisible(character) => continue,
            Read::Gap => {
                if groups.last() != Some(&0) {
                    groups.push(0);
                }
                continue;
            }
            Read::Foreign => {
                return Err(Unopened::BadLetter {
                    letter: character,
                    group: read.len() / GROUP + 1,
                });
            }
        };
        // A page pasted by mistake is not read to its end.
        if read.len() <= 2 * LONGEST {
            read.push(letter);
            if let Some(group) = groups.last_mut() {
                *group += 1;
            }
        }
    }
    match open_read(&read) {
        Err(Unopened::TooManyWrong) => Err(why_not(&read, &groups)),
        outcome => outcome,
    }
}

/// Why letters that are no word do not open, `groups` as many letters as were kept apart: the group that is missing, or
/// does not fit, where all the others fit each other and no second answer does as well.
pub(super) fn why_not(read: &[Option<u8>], groups: &[usize]) -> Unopened {
    let whole = read.len().is_multiple_of(GROUP);
    let parted = groups.iter().filter(|letters| **letters > 0);
    let even = parted.clone().count() == 1 || parted.clone().all(|letters| *letters == GROUP);
    if whole && even {
        if let Some(group) = fits_without(read, GROUP) {
            return Unopened::WrongGroup(group);
        }
        if let Some(group) = fits_without(read, 0) {
            return Unopened::MissingGroup(group);
        }
    }
    if mend::is_length(read.len()) {
        Unopened::TooManyWrong
    } else {
        wrong_length(read.len(), groups)
    }
}

/// The one group, from 1, that can stand in for the `taken` letters at its place so that a code opens.
fn fits_without(read: &[Option<u8>], taken: usize) -> Option<usize> {
    let length = read.len() + GROUP - taken;
    if !mend::is_length(length) {
        return None;
    }
    let mut fitting = (0..length / GROUP).filter(|group| {
        let at = group * GROUP;
        let before = read.iter().take(at);
        let after = read.iter().skip(at + taken);
        let letters = before.chain(&[None; GROUP]).chain(after).copied();
        let letters: Vec<Option<u8>> = letters.collect();
        open_read(&letters).is_ok_and(|opened| opened.mended.len() == GROUP)
    });
    let first = fitting.next()?;
    fitting.next().is_none().then_some(first + 1)
}

/// Opens a code with one letter missing or one too many, where trying each place finds exactly one answer.
pub(super) fn open_one_off(read: &[Option<u8>]) -> Option<OpenedCode> {
    let found = one_off(read)?;
    let word: Vec<Option<u8>> = found.word.iter().copied().map(Some).collect();
    let opened = open_read(&word)
        .ok()
        .filter(|opened| opened.mended.is_empty())?;
    let slipped = if found.missing {
        LetterSlip::Missing(found.place)
    } else {
        LetterSlip::TooMany(found.place)
    };
    Some(OpenedCode {
        slipped: Some(slipped),
        ..opened
    })
}

/// Opens a code whose letters have been read one by one, `None` for an unread one.
///
/// # Errors
/// [`Unopened::TooManyWrong`] for letters that are no word of any length, else what `layout` finds.
pub(super) fn open_read(read: &[Option<u8>]) -> Result<OpenedCode, Unopened> {
    let mended = mend::mend(read).map_err(|mend::TooManyWrong| Unopened::TooManyWrong)?;
    Ok(OpenedCode {
        sheet: layout::unpack(&mended.carried)?,
        code: Code(mended.word),
        mended: mended.places,
        slipped: None,
    })
}

/// Names the group that is short or long where the groups were kept apart, else judges by the whole.
fn wrong_length(letters: usize, groups: &[usize]) -> Unopened {
    let groups = match groups {
        [kept @ .., 0] => kept,
        kept => kept,
    };
    let parted = groups.len() > 1;
    let odd = (1..)
        .zip(groups)
        .find(|(_, letters)| parted && **letters != GROUP);
    match odd {
        _ if letters > LONGEST && letters.is_multiple_of(GROUP) => Unopened::TooLong {
            letters,
            group: None,
        },
        Some((group, length)) if *length < GROUP => Unopened::TooShort {
            letters,
            group: Some(group),
        },
        Some((group, _)) => Unopened::TooLong {
            letters,
            group: Some(group),
        },
        None if letters > LONGEST || (letters > SHORTEST && letters % GROUP == 1) => {
            Unopened::TooLong {
                letters,
                group: None,
            }
        }
        None => Unopened::TooShort {
            letters,
            group: None,
        },
    }
}

#[cfg(test)]
mod tests {
    use super::super::bits::BitWriter;
    use super::super::sheet::sample;
    use super::*;
    use crate::base::refusal::Refusal;

    /// What is typed for the code of the full sheet, and what is said.
    #[test]
    fn a_code_is_opened_or_refused_where_it_is_wrong() {
        let code = Code::of(&sample::full()).unwrap().to_string();
        let groups: Vec<&str> = code.split('-').collect();
        let with = |nth: usize, group: &str| {
            let mut groups = groups.clone();
            groups[nth] = group;
            groups.join(" ")
        };
        let (head, _) = groups[0].split_at(3);
        for (typed, said) in [
            (code.to_lowercase(), "opens"),
            (code.replace('-', ""), "opens"),
            (format!("  {}\n", code.replace('-', "\u{2014} ")), "opens"),
            (with(0, &format!("{head}?")), "One letter was put right: "),
            (with(9, "????"), "4 letters were put right: "),
            (
                with(9, "????").replacen(head, "???", 1),
                "Too many letters are wrong",
            ),
            (with(4, ""), "Group 5 is missing"),
            (
                with(4, if groups[4] == "7777" { "8888" } else { "7777" }),
                "Group 5 does not fit the others",
            ),
            (with(4, head), "Group 5 is short"),
            (with(4, &format!("{head}{head}")), "Group 5 is too long"),
            (with(4, "22*2"), "There is no * in a code: look at group 5"),
            (groups[..9].concat(), "Group 10 is missing"),
            (
                code.replace('-', "").split_at(39).0.into(),
                "cut short: it has 39 letters",
            ),
            (code.replace('-', "") + "7", "too long: it has 41 letters"),
            (groups[..3].concat(), "cut short: it has 12 letters"),
            (code.repeat(2), "too long: it has 80 letters"),
            (code.repeat(5_000), "too long"),
            (" ".into(), "Type the code"),
            (String::new(), "Type the code"),
        ] {
            let answer = match open(&typed) {
                Ok(opened) => {
                    assert_eq!(opened.code.to_string(), code);
                    opened.mending().unwrap_or_else(|| "opens".into())
                }
                Err(refused) => Refusal::from(refused).to_string(),
            };
            assert!(answer.contains(said), "{typed:.60}: {answer}");
        }
    }

    #[test]
    fn a_mended_letter_is_named_with_its_group() {
        let code = Code::of(&sample::full()).unwrap().to_string();
        let right = code.chars().nth(7).unwrap();
        let wrong = if right == 'Z' { 'Y' } else { 'Z' };
        let typed: String = code
            .char_indices()
            .map(|(at, letter)| if at == 7 { wrong } else { letter })
            .collect();
        let opened = open(&typed).unwrap();
        assert_eq!(opened.mended, [6]);
        let said = format!("One letter was put right: {right} in group 2.");
        assert_eq!(opened.mending(), Some(said));
    }

    /// Words that hold but are not from this version: `fields` are numbers and their bits.
    #[test]
    fn what_holds_but_is_not_understood_is_named() {
        let opens = |fields: &[(u32, u32)]| {
            let mut writer = BitWriter::default();
            for (value, width) in fields {
                writer.put(*value, *width).unwrap();
            }
            let mut carried = writer.symbols();
            carried.resize(carried.len().next_multiple_of(GROUP).max(16), 0);
            let word = mend::seal(&carried).unwrap();
            open(&alphabet::grouped(&word)).map(|_| ()).unwrap_err()
        };
        let (version, none) = ((1, 4), (0, 5));
        let weights = [(3, 4), (0, 2), (648, 11), (302, 11)];
        for (fields, why) in [
            (vec![(5, 4)], Unopened::FutureVersion(5)),
            (vec![(15, 4), (31, 5)], Unopened::FutureVersion(15)),
            (vec![(0, 4)], Unopened::OutOfRange("version")),
            (vec![version, none, (127, 7)], Unopened::Newer("fish")),
            (
                vec![version, none, (1, 7), (4, 3)],
                Unopened::Newer("form of delivery"),
            ),
            (
                vec![version, none, (1, 7), (0, 3), (11, 4)],
                Unopened::Newer("scale"),
            ),
            (
                vec![version, (31, 5), (1, 7), (0, 3)],
                Unopened::OutOfRange("length"),
            ),
            // Weights that need eleven bits, written in fifteen.
            (
                vec![
                    version,
                    none,
                    (1, 7),
                    (0, 3),
                    (3, 4),
                    (1, 2),
                    (648, 15),
                    (302, 15),
                    (0, 27),
                ],
                Unopened::OutOfRange("spelling"),
            ),
            (
                vec![
                    version,
                    none,
                    (1, 7),
                    (0, 3),
                    (8, 4),
                    (2, 2),
                    (1_000_000, 20),
                    (1, 20),
                ],
                Unopened::OutOfRange("weights"),
            ),
            // A bit set after the last field.
            (
                [
                    vec![version, none, (1, 7), (0, 3)],
                    weights.to_vec(),
                    vec![(0, 27), (1, 1)],
                ]
                .concat(),
                Unopened::OutOfRange("spelling"),
            ),
            (
                [
                    vec![version, (8, 5), (1, 7), (0, 3)],
                    weights.to_vec(),
                    vec![(0, 27)],
                ]
                .concat(),
                Unopened::OutOfRange("length"),
            ),
        ] {
            assert_eq!(opens(&fields), why, "{fields:?}");
        }
    }
}
