//! Codes inside any text: a chat, a mail, a table, one or two thousand at once.
//!
//! A code is found as a word (run together or hyphened, in groups of any size), as a line of its own, or as
//! groups of four parted by hyphens, spaces or line ends, so that a mail may wrap it. Every line ends up in
//! one of three lists; none is dropped. The work grows with the length of the text and no faster: from each
//! word at most nine stretches of up to 48 letters are tried.

use std::collections::VecDeque;

use super::alphabet::GROUP;
use super::mend::{LONGEST, SHORTEST, is_length};
use super::opening::{OpenedCode, open, open_read};
use super::pieces::{CodePiece, Cutter, Joint};
use super::unopened::Unopened;

/// A code that opened, and the line it starts on.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct FoundCode {
    /// Line of the text, from 1.
    pub line: usize,
    /// The code and its readings.
    pub opened: OpenedCode,
}

/// A line with something like a code in it that does not open.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Refused {
    /// Line of the text, from 1.
    pub line: usize,
    /// What looks like a code.
    pub text: String,
    /// Why it does not open.
    pub why: Unopened,
}

/// All that a text holds.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Findings {
    /// Codes that opened, in order; the same one twice if it is there twice.
    pub found: Vec<FoundCode>,
    /// What looks like a code and does not open, in order.
    pub refused: Vec<Refused>,
    /// Lines, from 1, with words but nothing like a code.
    pub plain: Vec<usize>,
    /// The first line that was not read to its end, for a text past [`MOST_READ`](super::pieces::MOST_READ) characters.
    pub unread_from: Option<usize>,
}

/// Reads every code out of a text.
#[must_use]
pub fn find(text: &str) -> Findings {
    let mut search = CodeSearch::of(text);
    while search.go_on(usize::MAX) {}
    search.findings()
}

/// A search that can be put down and taken up again, so that a long text keeps no screen waiting.
#[derive(Clone, Debug)]
pub struct CodeSearch {
    cutter: Cutter,
    stage: Stage,
    /// How far this stage has come, in pieces.
    at: usize,
    /// What looks like a code and has not been opened yet, with its line.
    unsure: VecDeque<(usize, String)>,
    findings: Findings,
}

/// What a search does, one after the other.
#[derive(Clone, Copy, Debug)]
enum Stage {
    /// Cuts the text into pieces.
    Cut,
    /// Looks for codes that open.
    Look,
    /// Puts every line without a code into its list.
    Sort,
    /// Finds out why the rest does not open.
    Refuse,
}

impl CodeSearch {
    /// A search that has not begun.
    #[must_use]
    pub fn of(text: &str) -> Self {
        Self {
            cutter: Cutter::of(text),
            stage: Stage::Cut,
            at: 0,
            unsure: VecDeque::new(),
            findings: Findings::default(),
        }
    }

    /// Goes on by about so many words, each as long as a code. False once the text has come to its end.
    pub fn go_on(&mut self, words: usize) -> bool {
        let (more, next) = match self.stage {
            Stage::Cut => (
                self.cutter.go_on(words.saturating_mul(LONGEST)),
                Stage::Look,
            ),
            Stage::Look => (self.look(words), Stage::Sort),
            Stage::Sort => (self.sort(words), Stage::Refuse),
            Stage::Refuse => return self.refuse(words),
        };
        if !more {
            (self.stage, self.at) = (next, 0);
        }
        true
    }

    fn look(&mut self, words: usize) -> bool {
        let pieces = &mut self.cutter.pieces;
        for _ in 0..words {
            let ahead = pieces.get(self.at..).and_then(<[CodePiece]>::split_first);
            let Some((first, rest)) = ahead else {
                return false;
            };
            let line = first.line;
            let Some((count, outcome)) = open_from(first, rest) else {
                self.at += 1;
                continue;
            };
            let end = self.at + count;
            match outcome {
                Ok(opened) => self.findings.found.push(FoundCode { line, opened }),
                Err(why) => self.findings.refused.push(Refused {
                    line,
                    text: joined(pieces.get(self.at..end).unwrap_or_default()),
                    why,
                }),
            }
            for piece in pieces.iter_mut().skip(self.at).take(count) {
                piece.opened = true;
            }
            self.at = end;
        }
        true
    }

    fn sort(&mut self, words: usize) -> bool {
        let mut done = 0;
        while done < words {
            let ahead = self.cutter.pieces.get(self.at..).unwrap_or_default();
            let mut lines = ahead.chunk_by(|a, b| a.line == b.line);
            let Some((line, number)) = lines
                .next()
                .and_then(|line| Some((line, line.first()?.line)))
            else {
                return false;
            };
            let before = self.unsure.len();
            let unsure = like_codes(line).map(|text| (number, text));
            self.unsure.extend(unsure);
            if self.unsure.len() == before && line.iter().all(|piece| !piece.opened) {
                self.findings.plain.push(number);
            }
            done += line.len();
            self.at += line.len();
        }
        true
    }

    fn refuse(&mut self, words: usize) -> bool {
        for _ in 0..words {
            let Some((line, text)) = self.unsure.pop_front() else {
                return false;
            };
            let why = open(&text).err().unwrap_or(Unopened::TooManyWrong);
            self.findings.refused.push(Refused { line, text, why });
        }
        true
    }

    /// What has been found, every line of the text in its list: asked for at the end.
    #[must_use]
    pub fn findings(mut self) -> Findings {
        self.findings.unread_from = self.cutter.unread_from();
        self.findings.refused.sort_by_key(|refused| refused.line);
        self.findings
    }
}

/// The code that starts with `first`, and how many pieces it takes. Letters that hold without making sense
/// count as well, since nobody writes those by chance.
fn open_from(
    first: &CodePiece,
    rest: &[CodePiece],
) -> Option<(usize, Result<OpenedCode, Unopened>)> {
    let mut best: Option<(usize, Result<OpenedCode, Unopened>)> = None;
    for count in stretches(first, rest) {
        let read: Vec<Option<u8>> = std::iter::once(first)
            .chain(rest)
            .take(count)
            .flat_map(|piece| piece.letters.iter().copied())
            .collect();
        let outcome = open_read(&read);
        if outcome == Err(Unopened::TooManyWrong) {
            continue;
        }
        let better = best
            .as_ref()
            .is_none_or(|(_, known)| mends(&outcome) < mends(known));
        if better {
            best = Some((count, outcome));
        }
    }
    best
}

fn mends(outcome: &Result<OpenedCode, Unopened>) -> usize {
    outcome
        .as_ref()
        .map_or(LONGEST, |opened| opened.mended.len())
}

/// How many pieces from `first` may be one code.
fn stretches(first: &CodePiece, rest: &[CodePiece]) -> Vec<usize> {
    let mut counts = Vec::new();
    let mut letters = 0;
    let starts_word = first.joint != Joint::Hyphen;
    let starts_line = matches!(first.joint, Joint::Line | Joint::Wall);
    let (mut in_word, mut in_line, mut in_fours) = (starts_word, starts_line, true);
    let mut digits = false;
    for (before, piece) in std::iter::once(first).chain(rest).enumerate() {
        if letters > LONGEST {
            break;
        }
        let next = rest.get(before).map_or(Joint::Wall, |next| next.joint);
        letters += piece.letters.len();
        digits |= piece.has_digit();
        in_fours &= piece.letters.len() == GROUP;
        // Four-letter words are everywhere, and a code without a digit is not: one in eight thousand.
        let group_ends = in_fours && (digits || in_word);
        let word_ends = in_word && next != Joint::Hyphen;
        let line_ends = in_line && matches!(next, Joint::Line | Joint::Wall);
        if (group_ends || word_ends || line_ends) && is_length(letters) {
            counts.push(before + 1);
        }
        in_word &= next == Joint::Hyphen;
        in_line &= matches!(next, Joint::Hyphen | Joint::Space);
        in_fours &= next != Joint::Wall;
        if !(in_word || in_line || in_fours) {
            break;
        }
    }
    counts
}

/// What someone may have meant for a code in a line, besides the codes that opened.
fn like_codes(line: &[CodePiece]) -> impl Iterator<Item = String> {
    line.chunk_by(|a, b| a.opened == b.opened && matches!(b.joint, Joint::Hyphen | Joint::Space))
        .filter(|run| run.iter().all(|piece| !piece.opened))
        .filter_map(looks_like_a_code)
}

/// The part of a run of words that someone may have meant for a code: a hyphened word if one will do.
fn looks_like_a_code(run: &[CodePiece]) -> Option<String> {
    run.chunk_by(|_, next| next.joint == Joint::Hyphen)
        .find_map(half_a_code)
        .or_else(|| {
            run.chunk_by(|a, b| no_word(a) == no_word(b))
                .find_map(half_a_code)
        })
}

/// Whether a piece is of a length that groups have, or too long for a word.
fn no_word(piece: &CodePiece) -> bool {
    let letters = piece.letters.len();
    letters.abs_diff(GROUP) <= 1 || letters >= SHORTEST / 2
}

/// Half a code or more, with digits and letters among its pieces.
fn half_a_code(pieces: &[CodePiece]) -> Option<String> {
    let letters: usize = pieces.iter().map(|piece| piece.letters.len()).sum();
    let digits = pieces.iter().filter(|piece| piece.has_digit()).count();
    let digits_enough = digits > 1 || pieces.len() == digits;
    (letters >= SHORTEST / 2 && digits_enough && pieces.iter().any(CodePiece::has_letter))
        .then(|| joined(pieces))
}

fn joined(pieces: &[CodePiece]) -> String {
    let texts: Vec<&str> = pieces.iter().map(|piece| piece.text.as_str()).collect();
    texts.join("-")
}

#[cfg(test)]
mod tests;
