//! What a text brings to a class: what is new, what was there, what was put right, what does not open.

use std::collections::HashSet;

use serde::{Deserialize, Serialize};

use super::class_list::letters;
use crate::code::find::Findings;
use crate::code::opening::open;

/// How many codes that did not open are held against each new one, to see whether it came again.
const HELD_AGAINST: usize = 50;

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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::code::find::find;
    use crate::code::letters::Code;
    use crate::code::sheet::{Sheet, sample};

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
        let mut mended = bare.to_string();
        mended.replace_range(..1, "?");
        let text = format!("hello all\n{full}\n{mended}\n{wrong}, from Tern\n{full}\n{bare}\n");
        let known = HashSet::from([letters(&full)]);
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
