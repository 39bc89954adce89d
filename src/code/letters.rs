//! A code in the hand: written out, said aloud, and opened again from what was typed.

use std::fmt;

use super::alphabet::{self, GROUP, Read};
use super::mend::{self, LONGEST, SHORTEST};
use super::sheet::Sheet;
use super::{layout, link};
use crate::refusal::Refusal;

/// A whole code, check letters included.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Code(Vec<u8>);

impl Code {
    /// The code of a sheet.
    ///
    /// # Errors
    /// A sentence when a reading is more than a code carries.
    pub fn of(sheet: &Sheet) -> Result<Self, Refusal> {
        mend::seal(&layout::pack(sheet)?)
            .map(Self)
            .ok_or_else(|| Refusal::new("A code of this length can't be written."))
    }

    /// How many letters it has: 24 to 48.
    #[must_use]
    pub fn letters(&self) -> usize {
        self.0.len()
    }

    /// The words to say, one string a group: letters by the radiotelephony spelling alphabet.
    #[must_use]
    pub fn spoken(&self) -> Vec<String> {
        alphabet::spoken(&self.0)
    }

    /// The part of a link after the address: `#/c/` and the letters without hyphens.
    #[must_use]
    pub fn link(&self) -> String {
        link::compose(self.0.iter().copied().map(alphabet::letter))
    }
}

/// Written in groups of four, parted by hyphens.
impl fmt::Display for Code {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&alphabet::grouped(&self.0))
    }
}

/// A code that opened.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Opened {
    /// The readings.
    pub sheet: Sheet,
    /// The code as it should have been typed.
    pub code: Code,
    /// Places, from 0, of the letters that were wrong or unread and have been put right, in order.
    pub mended: Vec<usize>,
}

impl Opened {
    /// What was put right, in a sentence; `None` when nothing was.
    #[must_use]
    pub fn mending(&self) -> Option<String> {
        let named: Vec<String> = self
            .mended
            .iter()
            .map(|place| {
                let letter = self
                    .code
                    .0
                    .get(*place)
                    .copied()
                    .map_or('?', alphabet::letter);
                format!("{letter} in group {}", place / GROUP + 1)
            })
            .collect();
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

/// Why a code did not open. Groups count from 1.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Unopened {
    /// Letters are missing.
    TooShort {
        /// Letters there are.
        letters: usize,
        /// The first group with fewer than four, if the groups were kept apart.
        group: Option<usize>,
    },
    /// There are letters too many.
    TooLong {
        /// Letters there are.
        letters: usize,
        /// The first group with more than four, if the groups were kept apart.
        group: Option<usize>,
    },
    /// A character that is in no code.
    BadLetter {
        /// The character.
        letter: char,
        /// The group it stands in.
        group: usize,
    },
    /// More letters are wrong or unread than can be mended.
    TooManyWrong,
    /// The code was made by a later version of the format.
    FutureVersion(u8),
    /// The code names something that this version of the app does not know.
    Newer(&'static str),
    /// The letters hold but a field does not make sense.
    OutOfRange(&'static str),
}

impl fmt::Display for Unopened {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::TooShort { letters: 0, .. } => f.write_str("Type the code, or paste it."),
            Self::TooShort { group: Some(group), .. } => {
                write!(f, "Group {group} is short: every group has four letters.")
            }
            Self::TooShort { letters, .. } => write!(
                f,
                "The code is cut short: it has {letters} letters, and every code has 24 to 48 in groups of four."
            ),
            Self::TooLong { group: Some(group), .. } => {
                write!(f, "Group {group} is too long: every group has four letters.")
            }
            Self::TooLong { letters, .. } => write!(
                f,
                "The code is too long: it has {letters} letters, and every code has 24 to 48 in groups of four."
            ),
            Self::BadLetter { letter, group } => write!(
                f,
                "There is no {letter} in a code: look at group {group} again, or type ? for a letter you can't read."
            ),
            Self::TooManyWrong => f.write_str(
                "Too many letters are wrong, or a group is missing: read the code again group by group.",
            ),
            Self::FutureVersion(version) => write!(
                f,
                "This code was made by a newer app (format {version}): update this one to open it."
            ),
            Self::Newer(what) => write!(
                f,
                "This code names a {what} that this app does not know yet: update it to open the code."
            ),
            Self::OutOfRange(what) => write!(
                f,
                "The letters fit together, but the {what} in them can't be: ask for the code again."
            ),
        }
    }
}

impl std::error::Error for Unopened {}

impl From<Unopened> for Refusal {
    fn from(unopened: Unopened) -> Self {
        Self::new(unopened.to_string())
    }
}

/// Opens a code as typed: either case, with or without hyphens and spaces, `?` for an unread letter.
///
/// # Errors
/// Why it does not open, and where.
pub fn open(typed: &str) -> Result<Opened, Unopened> {
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
    if !mend::is_length(read.len()) {
        return Err(wrong_length(read.len(), &groups));
    }
    open_read(&read)
}

/// Opens a code whose letters have been read one by one, `None` for an unread one.
///
/// # Errors
/// [`Unopened::TooManyWrong`] for letters that are no word of any length, else what `layout` finds.
pub(super) fn open_read(read: &[Option<u8>]) -> Result<Opened, Unopened> {
    let mended = mend::mend(read).map_err(|mend::TooManyWrong| Unopened::TooManyWrong)?;
    Ok(Opened {
        sheet: layout::unpack(&mended.carried)?,
        code: Code(mended.word),
        mended: mended.places,
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
    use rust_decimal::Decimal;

    use super::super::bits::Writer;
    use super::super::sheet::{Student, sample};
    use super::*;
    use crate::trade::breakdown::Weights;
    use crate::trade::mass::{Mass, Scale};
    use crate::trade::money::{Currency, MassPrice, PriceUnit};

    #[test]
    fn one_fish_with_everything_takes_forty_letters_and_the_barest_twenty_four() {
        let several = Sheet {
            count: 32,
            ..sample::full()
        };
        for (sheet, letters) in [(sample::full(), 40), (sample::bare(), 24), (several, 44)] {
            let code = Code::of(&sheet).unwrap();
            assert_eq!(code.letters(), letters);
            let opened = open(&code.to_string()).unwrap();
            assert_eq!((&opened.sheet, opened.mending()), (&sheet, None));
            assert_eq!(code.spoken().len(), letters / GROUP);
        }
    }

    #[test]
    fn a_link_opens_as_the_code_does() {
        let code = Code::of(&sample::full()).unwrap();
        assert_eq!(code.link().len(), "#/c/".len() + 40);
        let opened = link::open_link(&code.link()).unwrap().unwrap();
        assert_eq!(opened.code, code);
    }

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
        let head = &groups[0][..3];
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
            (with(4, head), "Group 5 is short"),
            (with(4, &format!("{head}{head}")), "Group 5 is too long"),
            (with(4, "22*2"), "There is no * in a code: look at group 5"),
            (
                groups[..9].concat(),
                "Too many letters are wrong, or a group is missing",
            ),
            (
                code.replace('-', "")[..39].into(),
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
            let mut writer = Writer::default();
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
            (vec![(2, 4)], Unopened::FutureVersion(2)),
            (vec![(15, 4), (31, 5)], Unopened::FutureVersion(15)),
            (vec![(0, 4)], Unopened::OutOfRange("version")),
            (vec![version, none, (29, 7)], Unopened::Newer("fish")),
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

    #[test]
    fn what_a_code_can_t_carry_is_refused() {
        let student = sample::full().student.unwrap();
        for (sheet, said) in [
            (
                Sheet {
                    portions: Some(64),
                    ..sample::full()
                },
                "1 to 63 portions",
            ),
            (
                Sheet {
                    portions: Some(0),
                    ..sample::full()
                },
                "1 to 63 portions",
            ),
            (
                Sheet {
                    count: 0,
                    ..sample::full()
                },
                "1 to 32 fish",
            ),
            (
                Sheet {
                    count: 33,
                    ..sample::full()
                },
                "1 to 32 fish",
            ),
            (
                Sheet {
                    student: Some(Student { test: 9, ..student }),
                    ..sample::full()
                },
                "tests numbered 1 to 8",
            ),
            (
                Sheet {
                    student: Some(Student { test: 0, ..student }),
                    ..sample::full()
                },
                "tests numbered 1 to 8",
            ),
            (
                Sheet {
                    scale: Scale {
                        division: Mass::from_mg(3),
                    },
                    ..sample::full()
                },
                "scale's division",
            ),
            (
                Sheet {
                    weights: Weights {
                        delivered: Mass::from_mg(100_000_001),
                        ..sample::full().weights
                    },
                    ..sample::full()
                },
                "weight as heavy",
            ),
            (
                Sheet {
                    price: Some(
                        MassPrice::new(Decimal::new(12_345, 3), Currency::Eur, PriceUnit::Kilo)
                            .unwrap(),
                    ),
                    ..sample::full()
                },
                "too many figures",
            ),
        ] {
            let refusal = Code::of(&sheet).unwrap_err().to_string();
            assert!(refusal.contains(said), "{refusal}");
        }
    }
}
