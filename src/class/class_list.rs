//! A tutor's class as it is kept: its name, the letters of its codes, and what the tutor says. Everything else is worked
//! out again.

use std::collections::HashSet;

use serde::{Deserialize, Deserializer, Serialize};

use super::lesson::{Lesson, LessonAction};
use super::refusals::NoClass;
use super::settled::Settled;
use crate::base::instant::Instant;
use crate::base::refusal::Refusal;
use crate::code::alphabet::{GROUP, LETTERS};
use crate::code::find::find;
use crate::code::letters::Code;
use crate::code::mend::{LONGEST, SHORTEST};
use crate::store::entry::Entry;

/// The most codes of one class.
pub const MOST_CODES: usize = 5_000;
/// The longest name of a class, in letters.
const LONGEST_NAME: usize = 60;
/// The longest that is kept of what looks like a code, in letters.
const MOST_OF_ONE: usize = 4 * LONGEST;

/// A class.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Class {
    /// What the tutor calls it.
    pub name: String,
    /// When it was begun.
    pub begun: Instant,
    /// The letters of each code, in the order they came. Of what looks like one and did not open the letters are kept in
    /// their groups: it may open in a later version, and the tutor can ask for it again.
    #[serde(deserialize_with = "letters_alone")]
    pub codes: Vec<String>,
    /// What was taken out, to be put back.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub taken_out: Vec<TakenOut>,
    /// What the tutor answered where a result may be a correction or another's.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub settled: Vec<Settled>,
    /// What the tutor keeps beside the codes.
    #[serde(default, skip_serializing_if = "Lesson::is_empty")]
    pub lesson: Lesson,
}

/// A code that was taken out.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct TakenOut {
    /// Its letters.
    pub code: String,
    /// Its place among the codes: which of two came first says which is the correction.
    pub from: usize,
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
    /// One that was taken out is put back.
    PutBack(String),
    /// It was said what a result is.
    Settle(Settled),
    /// The answer about this code was taken back.
    Unsettle(String),
    /// Something beside the codes.
    Lesson(LessonAction),
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
            taken_out: Vec::new(),
            settled: Vec::new(),
            lesson: Lesson::default(),
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
                next.taken_out.retain(|out| !codes.contains(&out.code));
                if next.codes.len() > MOST_CODES {
                    return Err(NoClass::Full.into());
                }
            }
            ClassAction::Drop(code) => {
                if let Some(from) = self.codes.iter().position(|known| known == code) {
                    next.codes.remove(from);
                    next.taken_out.push(TakenOut {
                        code: code.clone(),
                        from,
                    });
                }
            }
            ClassAction::PutBack(code) => {
                if let Some(nth) = self.taken_out.iter().position(|out| out.code == *code) {
                    let TakenOut { code, from } = next.taken_out.remove(nth);
                    next.codes.insert(from.min(self.codes.len()), code);
                }
            }
            ClassAction::Settle(settled) => {
                next.settled.retain(|other| other.code != settled.code);
                // What another tab has taken out needs no answer.
                if self.codes.contains(&settled.code) {
                    next.settled.push(settled.clone());
                }
            }
            ClassAction::Unsettle(code) => next.settled.retain(|settled| settled.code != *code),
            ClassAction::Lesson(action) => next.lesson = self.lesson.after(action)?,
        }
        Ok(next)
    }
}

/// The letters of a code, run together: how a class keeps it.
#[must_use]
pub fn letters(code: &Code) -> String {
    code.to_string().replace('-', "")
}

/// Reads what a class keeps as letters alone: the first builds kept what was pasted around them as well.
fn letters_alone<'de, D: Deserializer<'de>>(from: D) -> Result<Vec<String>, D::Error> {
    let kept: Vec<String> = Vec::deserialize(from)?;
    if kept.iter().all(|text| is_letters_alone(text)) {
        return Ok(kept);
    }
    let mut alone = Vec::with_capacity(kept.len());
    for text in kept {
        if is_letters_alone(&text) {
            alone.push(text);
            continue;
        }
        let found = find(&text);
        alone.extend(found.found.iter().map(|one| letters(&one.opened.code)));
        alone.extend(found.refused.into_iter().map(|near| near.text));
    }
    let mut known = HashSet::new();
    alone.retain(|text| known.insert(text.clone()));
    Ok(alone)
}

/// Whether it is a code run together, what looks like one in its groups, or too short to be anything.
fn is_letters_alone(text: &str) -> bool {
    let is_plain = |c: char| c.is_ascii_uppercase() || c.is_ascii_digit() || c == '-' || c == '?';
    let is_letter = |c: char| u8::try_from(c).is_ok_and(|c| LETTERS.contains(&c));
    // A code begins with the number of its version, an account number with letters.
    let may_be = text.len().is_multiple_of(GROUP) && text.starts_with(|c: char| c.is_ascii_digit());
    let is_length = (SHORTEST..=LONGEST).contains(&text.len());
    let is_code = || may_be && is_length && text.chars().all(is_letter);
    let in_groups = || text.len() <= MOST_OF_ONE && text.contains('-');
    text.chars().all(is_plain) && (text.len() < SHORTEST / 2 || is_code() || in_groups())
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
    use crate::code::sheet::sample;

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
    fn what_is_taken_out_goes_back_to_its_place() {
        let add = |codes: &[&str]| ClassAction::Add(codes.iter().map(|&c| c.into()).collect());
        let class = Class::new("x", NOW).unwrap();
        let class = after(&class, &[add(&["A", "B", "C"])]);
        let without = after(&class, &[ClassAction::Drop("B".into())]);
        assert_eq!(without.codes, ["A", "C"]);
        assert_eq!(
            after(&without, &[ClassAction::PutBack("B".into())]).codes,
            class.codes
        );
        let again = after(&without, &[add(&["B"])]);
        assert_eq!(
            (again.codes.len(), again.taken_out.len()),
            (3, 0),
            "it came again"
        );
    }

    /// The first builds kept the whole line of what looked like a code.
    #[test]
    fn words_around_codes_are_dropped_as_a_class_is_read() {
        let code = letters(&Code::of(&sample::full()).unwrap());
        let stored = serde_json::json!({ "name": "x", "begun": NOW, "codes": [
            code, "Tern: my IBAN is GB29 NWBK 6016 1331 9268 19", "GB29NWBK60161331926819",
            "Kite 2Y4W-3K7M-9QRS-1A2B-3C4D sorry", "2Y4W-3K7M-??RS",
        ]});
        let class: Class = serde_json::from_value(stored).unwrap();
        assert_eq!(
            class.codes,
            [&code, "2Y4W-3K7M-9QRS-1A2B-3C4D", "2Y4W-3K7M-??RS"]
        );
    }
}
