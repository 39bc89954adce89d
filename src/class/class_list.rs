//! A tutor's class as it is kept: its name and the letters of its codes. Everything else is worked out again.

use std::collections::HashSet;

use serde::{Deserialize, Serialize};

use super::refusals::NoClass;
use crate::base::instant::Instant;
use crate::base::refusal::Refusal;
use crate::code::find::Findings;
use crate::code::letters::Code;
use crate::store::entry::Entry;

/// The most codes of one class.
pub const MOST_CODES: usize = 5_000;
/// The longest name of a class, in letters.
const LONGEST_NAME: usize = 60;
/// The longest text that is kept of something that did not open, in letters.
const LONGEST_TEXT: usize = 120;

/// A class.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Class {
    /// What the tutor calls it.
    pub name: String,
    /// When it was begun.
    pub begun: Instant,
    /// The letters of each code, in the order they came. What did not open is kept as it was read: it may
    /// open in a later version, and the tutor can ask for it again.
    pub codes: Vec<String>,
}

/// What a tutor does to a class.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum ClassAction {
    /// It was given another name.
    Name(String),
    /// Codes came in; those that are there already stay where they are.
    Add(Vec<String>),
    /// One was taken out.
    Drop(String),
}

impl Class {
    /// An empty class.
    ///
    /// # Errors
    /// The sentence for a name that can't be taken.
    pub fn new(name: &str, now: Instant) -> Result<Self, Refusal> {
        Ok(Self {
            name: named(name)?,
            begun: now,
            codes: Vec::new(),
        })
    }
}

impl Entry for Class {
    type Action = ClassAction;
    const KIND: &'static str = "class";
    const NOUN: &'static str = "class";

    fn begun(&self) -> Instant {
        self.begun
    }

    fn apply(&self, action: &ClassAction, _now: Instant) -> Result<Self, Refusal> {
        let mut next = self.clone();
        match action {
            ClassAction::Name(name) => next.name = named(name)?,
            ClassAction::Add(codes) => {
                let mut known: HashSet<&str> = self.codes.iter().map(String::as_str).collect();
                let new = codes.iter().filter(|code| known.insert(code));
                next.codes.extend(new.cloned());
                if next.codes.len() > MOST_CODES {
                    return Err(NoClass::Full.into());
                }
            }
            ClassAction::Drop(code) => next.codes.retain(|known| known != code),
        }
        Ok(next)
    }
}

/// What one text brings to a class, for the tutor to look over.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Intake {
    /// What is to be added, in order; what did not open stands last.
    pub codes: Vec<String>,
    /// How many codes are new.
    pub new: usize,
    /// The lines, from 1, of codes that were there already.
    pub repeated: Vec<usize>,
    /// The lines of codes with letters put right, and which.
    pub mended: Vec<(usize, String)>,
    /// What looks like a code and does not open.
    pub refused: Vec<NotRead>,
    /// How many lines hold words and no code.
    pub plain: usize,
    /// The first line that was not read, of a text that is too long.
    pub unread_from: Option<usize>,
}

impl Intake {
    /// What a text brings to a class in which some codes are known already.
    #[must_use]
    pub fn of(findings: Findings, mut known: HashSet<String>) -> Self {
        let mut intake = Self {
            plain: findings.plain.len(),
            unread_from: findings.unread_from,
            ..Self::default()
        };
        for found in findings.found {
            if let Some(sentence) = found.opened.mending() {
                intake.mended.push((found.line, sentence));
            }
            let letters = letters(&found.opened.code);
            if known.insert(letters.clone()) {
                intake.new += 1;
                intake.codes.push(letters);
            } else {
                intake.repeated.push(found.line);
            }
        }
        for refused in findings.refused {
            intake.codes.push(cut(&refused.text));
            intake.refused.push(NotRead {
                line: refused.line,
                why: refused.why.to_string(),
                text: refused.text,
            });
        }
        intake
    }
}

/// A line with something like a code in it that does not open.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct NotRead {
    /// The line, from 1.
    pub line: usize,
    /// What looks like a code.
    pub text: String,
    /// Why it does not open, in a sentence.
    pub why: String,
}

/// The letters of a code, run together: how a class keeps it.
#[must_use]
pub fn letters(code: &Code) -> String {
    code.to_string().replace('-', "")
}

fn cut(text: &str) -> String {
    text.chars().take(LONGEST_TEXT).collect()
}

fn named(name: &str) -> Result<String, Refusal> {
    let name = name.trim();
    match name.chars().count() {
        0 => Err(NoClass::Unnamed.into()),
        1..=LONGEST_NAME => Ok(name.to_owned()),
        _ => Err(NoClass::LongName.into()),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::code::find::find;
    use crate::code::sheet::{Sheet, sample};

    const NOW: Instant = Instant(1_773_099_000_000);

    fn after(class: &Class, actions: &[ClassAction]) -> Class {
        actions.iter().fold(class.clone(), |class, action| {
            class.apply(action, NOW).unwrap()
        })
    }

    #[test]
    fn a_name_is_asked_for_and_kept_short() {
        for (name, kept) in [
            (" Tuesday, first year ", Some("Tuesday, first year")),
            ("  ", None),
            ("x", Some("x")),
        ] {
            let class = Class::new(name, NOW).ok();
            assert_eq!(class.map(|class| class.name).as_deref(), kept, "{name:?}");
        }
        let class = Class::new("x", NOW).unwrap();
        assert!(
            class
                .apply(&ClassAction::Name("x".repeat(61)), NOW)
                .is_err()
        );
        assert_eq!(
            after(&class, &[ClassAction::Name("Wednesday".into())]).name,
            "Wednesday"
        );
    }

    #[test]
    fn codes_keep_their_order_and_come_once() {
        let add = |codes: &[&str]| ClassAction::Add(codes.iter().map(|&c| c.into()).collect());
        let class = Class::new("x", NOW).unwrap();
        let class = after(&class, &[add(&["B", "A", "B"]), add(&["A", "C"])]);
        assert_eq!(class.codes, ["B", "A", "C"]);
        let class = after(&class, &[ClassAction::Drop("A".into())]);
        assert_eq!(class.codes, ["B", "C"]);
        let many = (0..MOST_CODES).map(|nth| nth.to_string()).collect();
        assert!(class.apply(&ClassAction::Add(many), NOW).is_err());
    }

    #[test]
    fn every_line_of_a_text_is_accounted_for() {
        let full = Code::of(&sample::full()).unwrap();
        let bare = Code::of(&sample::bare()).unwrap();
        let count = |count| {
            let sheet = Sheet {
                count,
                ..sample::bare()
            };
            Code::of(&sheet).unwrap()
        };
        let wrong: String = count(3)
            .to_string()
            .chars()
            .enumerate()
            .map(|(nth, c)| match (nth % 5, c) {
                (0, 'Z') => 'Y',
                (0, _) => 'Z',
                _ => c,
            })
            .collect();
        let class = Class::new("x", NOW).unwrap();
        let class = after(&class, &[ClassAction::Add(vec![letters(&full)])]);
        let mut mended = bare.to_string();
        mended.replace_range(..1, "?");
        let text = format!("hello all\n{full}\n{mended}\n{wrong}\n{bare}\n");
        let known = class.codes.iter().cloned().collect();
        let intake = Intake::of(find(&text), known);
        assert_eq!((intake.new, intake.plain), (1, 1));
        assert_eq!(intake.repeated, [2, 5]);
        assert_eq!(intake.mended.len(), 1);
        assert_eq!(intake.mended[0].0, 3);
        assert_eq!(intake.refused.len(), 1);
        assert_eq!(intake.codes, [letters(&bare), wrong]);
    }
}
