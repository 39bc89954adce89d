//! A tutor's class as it is kept: its name and the letters of its codes. Everything else is worked out again.

use std::collections::HashSet;

use serde::{Deserialize, Serialize};

use super::refusals::NoClass;
use super::settled::Settled;
use crate::base::instant::Instant;
use crate::base::refusal::Refusal;
use crate::code::find::Findings;
use crate::code::letters::Code;
use crate::code::opening::open;
use crate::store::entry::Entry;

/// The most codes of one class.
pub const MOST_CODES: usize = 5_000;
/// The longest name of a class, in letters.
const LONGEST_NAME: usize = 60;
/// How many codes that did not open are held against each new one, to see whether it came again.
const HELD_AGAINST: usize = 50;

/// A class.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Class {
    /// What the tutor calls it.
    pub name: String,
    /// When it was begun.
    pub begun: Instant,
    /// The letters of each code, in the order they came. Of what looks like one and did not open the letters are kept in
    /// their groups: it may open in a later version, and the tutor can ask for it again.
    pub codes: Vec<String>,
    /// What the tutor answered where a result may be a correction or another's.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub settled: Vec<Settled>,
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
    /// It was said what a result is.
    Settle(Settled),
    /// The answer about this code was taken back.
    Unsettle(String),
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
            settled: Vec::new(),
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
            ClassAction::Drop(code) => {
                next.codes.retain(|known| known != code);
                next.settled.retain(|settled| settled.code != *code);
            }
            ClassAction::Settle(settled) => {
                next.settled.retain(|other| other.code != settled.code);
                // What another tab has taken out needs no answer.
                if self.codes.contains(&settled.code) {
                    next.settled.push(settled.clone());
                }
            }
            ClassAction::Unsettle(code) => next.settled.retain(|settled| settled.code != *code),
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
    /// What did not open earlier, as the class keeps it, and came again whole.
    pub settled: Vec<String>,
    /// The lines of what does not open in this text and stands whole in it as well.
    pub again: Vec<usize>,
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
        let unopened: Vec<String> = known
            .iter()
            .filter(|code| open(code).is_err())
            .cloned()
            .collect();
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
        let came = |near: &str| intake.codes.iter().any(|code| comes_again(near, code));
        let settled = unopened
            .into_iter()
            .take(HELD_AGAINST)
            .filter(|near| came(near));
        let settled: Vec<String> = settled.collect();
        let mut refused = Vec::new();
        for (nth, near) in findings.refused.into_iter().enumerate() {
            if nth < HELD_AGAINST && came(&near.text) {
                intake.again.push(near.line);
                continue;
            }
            refused.push(near);
        }
        for refused in refused {
            intake.codes.push(refused.text.clone());
            intake.refused.push(NotRead {
                line: refused.line,
                why: refused.why.to_string(),
                text: refused.text,
                words: refused.words,
            });
        }
        intake.settled = settled;
        intake
    }
}

/// Whether a code is what somebody meant who sent `near`: of its letters at least 85 in 100 stand in the code, in their
/// order. Two codes of a class have some six in ten in common.
fn comes_again(near: &str, code: &str) -> bool {
    let near: Vec<char> = near.chars().filter(char::is_ascii_alphanumeric).collect();
    // The longest run of letters that both have in their order, row by row.
    let mut row = vec![0; near.len() + 1];
    for letter in code.chars() {
        let mut before = 0;
        for (own, at) in near.iter().zip(1..) {
            let left = row.get(at - 1).copied().unwrap_or(0);
            let Some(here) = row.get_mut(at) else { break };
            let best = if *own == letter {
                before + 1
            } else {
                left.max(*here)
            };
            before = std::mem::replace(here, best);
        }
    }
    row.last()
        .is_some_and(|common| common * 20 >= near.len() * 17)
}

/// A line with something like a code in it that does not open.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct NotRead {
    /// The line, from 1.
    pub line: usize,
    /// The letters of what looks like a code.
    pub text: String,
    /// What its sender wrote in that line: shown, and never kept.
    pub words: String,
    /// Why it does not open, in a sentence.
    pub why: String,
}

/// The letters of a code, run together: how a class keeps it.
#[must_use]
pub fn letters(code: &Code) -> String {
    code.to_string().replace('-', "")
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
            .map(|(nth, c)| match (nth % 10, c) {
                (0, 'Z') => 'Y',
                (0, _) => 'Z',
                _ => c,
            })
            .collect();
        let class = Class::new("x", NOW).unwrap();
        let class = after(&class, &[ClassAction::Add(vec![letters(&full)])]);
        let mut mended = bare.to_string();
        mended.replace_range(..1, "?");
        let text = format!("hello all\n{full}\n{mended}\n{wrong}, from Tern\n{full}\n{bare}\n");
        let known: HashSet<String> = class.codes.iter().cloned().collect();
        let intake = Intake::of(find(&text), known.clone());
        assert_eq!((intake.new, intake.plain), (1, 1));
        assert_eq!(intake.repeated, [2, 5, 6]);
        assert_eq!(intake.mended.len(), 1);
        assert_eq!(intake.mended[0].0, 3);
        assert_eq!(intake.refused.len(), 1);
        assert_eq!(intake.codes, [letters(&bare), wrong.clone()]);
        assert_eq!(intake.refused[0].words, format!("{wrong}, from Tern"));

        // Sent again whole, it is settled: at once, or later.
        let whole = count(3);
        let at_once = Intake::of(
            find(&format!("{wrong}\nsorry, again: {whole}")),
            known.clone(),
        );
        assert_eq!(
            (at_once.codes, at_once.again),
            (vec![letters(&whole)], vec![1])
        );
        let later: HashSet<String> = known.into_iter().chain([wrong.clone()]).collect();
        let other = Intake::of(find(&bare.to_string()), later.clone());
        assert_eq!((other.new, other.settled.len()), (1, 0));
        let later = Intake::of(find(&whole.to_string()), later);
        assert_eq!(
            (later.codes, later.settled),
            (vec![letters(&whole)], vec![wrong])
        );
    }
}
