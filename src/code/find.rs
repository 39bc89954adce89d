//! Codes inside any text: a chat, a mail, a table, one or two thousand at once.
//!
//! A code is found as a word (run together or hyphened, in groups of any size), as a line of its own, or as
//! groups of four parted by hyphens, spaces or line ends, so that a mail may wrap it. Every line ends up in
//! one of three lists; none is dropped. The work grows with the length of the text and no faster: from each
//! word at most nine stretches of up to 48 letters are tried.

use super::alphabet::{self, GROUP, Read};
use super::mend::{LONGEST, SHORTEST, is_length};
use super::opening::{Opened, open, open_read};
use super::unopened::Unopened;

/// Characters read of one text, about twenty thousand codes.
pub const MOST_READ: usize = 1_000_000;

/// A code that opened, and the line it starts on.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Found {
    /// Line of the text, from 1.
    pub line: usize,
    /// The code and its readings.
    pub opened: Opened,
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
    pub found: Vec<Found>,
    /// What looks like a code and does not open, in order.
    pub refused: Vec<Refused>,
    /// Lines, from 1, with words but nothing like a code.
    pub plain: Vec<usize>,
    /// The first line that was not read to its end, for a text past [`MOST_READ`] characters.
    pub unread_from: Option<usize>,
}

/// How a piece follows the one before.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Joint {
    Hyphen,
    Space,
    Line,
    /// Anything that no code runs across: a comma, a bar, a letter of another alphabet, a tab.
    Wall,
}

/// A run of letters and digits without a break.
#[derive(Clone, Debug)]
struct Piece {
    joint: Joint,
    line: usize,
    letters: Vec<Option<u8>>,
    text: String,
    opened: bool,
}

impl Piece {
    fn has_digit(&self) -> bool {
        self.text.contains(|c: char| c.is_ascii_digit())
    }

    fn has_letter(&self) -> bool {
        self.text.contains(|c: char| c.is_ascii_alphabetic())
    }
}

/// Reads every code out of a text.
#[must_use]
pub fn find(text: &str) -> Findings {
    let (mut pieces, unread_from) = pieces(text);
    let mut findings = Findings {
        unread_from,
        ..Findings::default()
    };
    let mut at = 0;
    while let Some((first, rest)) = pieces.get(at..).and_then(<[Piece]>::split_first) {
        let line = first.line;
        match open_from(first, rest) {
            Some((count, outcome)) => {
                match outcome {
                    Ok(opened) => findings.found.push(Found { line, opened }),
                    Err(why) => findings.refused.push(Refused {
                        line,
                        text: joined(pieces.get(at..at + count).unwrap_or_default()),
                        why,
                    }),
                }
                for piece in pieces.iter_mut().skip(at).take(count) {
                    piece.opened = true;
                }
                at += count;
            }
            None => at += 1,
        }
    }
    sort_lines(&pieces, &mut findings);
    findings
}

/// Cuts a text into pieces; a line number if it was too long to be read whole.
fn pieces(text: &str) -> (Vec<Piece>, Option<usize>) {
    let mut pieces: Vec<Piece> = Vec::new();
    let mut joint = Some(Joint::Wall);
    let mut line = 1;
    for (nth, character) in text.chars().enumerate() {
        if nth == MOST_READ {
            return (pieces, Some(line));
        }
        let letter = match alphabet::read(character) {
            Read::Letter(value) => Some(value),
            Read::Unread => None,
            Read::Gap if alphabet::is_invisible(character) => continue,
            gap => {
                let next = match (gap, character) {
                    (_, '\n') => Joint::Line,
                    (Read::Gap, '\t') | (Read::Foreign, _) => Joint::Wall,
                    (_, space) if space.is_whitespace() => Joint::Space,
                    _ => Joint::Hyphen,
                };
                line += usize::from(next == Joint::Line);
                joint = Some(stronger(joint, next));
                continue;
            }
        };
        match (joint.take(), pieces.last_mut()) {
            (None, Some(piece)) => {
                piece.letters.push(letter);
                piece.text.push(character);
            }
            (joint, _) => pieces.push(Piece {
                joint: joint.unwrap_or(Joint::Wall),
                line,
                letters: vec![letter],
                text: character.into(),
                opened: false,
            }),
        }
    }
    pieces.iter_mut().for_each(drop_question_mark);
    (pieces, None)
}

/// The break that counts when several stand together; a hyphen before a line end is a wrapped code.
fn stronger(before: Option<Joint>, next: Joint) -> Joint {
    match (before, next) {
        (Some(Joint::Wall), _) | (_, Joint::Wall) => Joint::Wall,
        (Some(Joint::Line), _) | (_, Joint::Line) => Joint::Line,
        (Some(Joint::Space), _) | (_, Joint::Space) => Joint::Space,
        _ => Joint::Hyphen,
    }
}

/// A question mark after a whole group ends a sentence and stands for no letter.
fn drop_question_mark(piece: &mut Piece) {
    if piece.text.ends_with('?') && piece.letters.len() % GROUP == 1 {
        piece.letters.pop();
        piece.text.pop();
    }
}

/// The code that starts with `first`, and how many pieces it takes. Letters that hold without making sense
/// count as well, since nobody writes those by chance.
fn open_from(first: &Piece, rest: &[Piece]) -> Option<(usize, Result<Opened, Unopened>)> {
    let mut best: Option<(usize, Result<Opened, Unopened>)> = None;
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

fn mends(outcome: &Result<Opened, Unopened>) -> usize {
    outcome
        .as_ref()
        .map_or(LONGEST, |opened| opened.mended.len())
}

/// How many pieces from `first` may be one code.
fn stretches(first: &Piece, rest: &[Piece]) -> Vec<usize> {
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

/// Puts every line without a code into its list.
fn sort_lines(pieces: &[Piece], findings: &mut Findings) {
    for line in pieces.chunk_by(|a, b| a.line == b.line) {
        let mut like_a_code = line
            .chunk_by(|a, b| {
                a.opened == b.opened && matches!(b.joint, Joint::Hyphen | Joint::Space)
            })
            .filter(|run| run.iter().all(|piece| !piece.opened))
            .filter_map(looks_like_a_code)
            .peekable();
        let Some(number) = line.first().map(|piece| piece.line) else {
            continue;
        };
        if like_a_code.peek().is_none() && line.iter().all(|piece| !piece.opened) {
            findings.plain.push(number);
        }
        for text in like_a_code {
            let why = open(&text).err().unwrap_or(Unopened::TooManyWrong);
            findings.refused.push(Refused {
                line: number,
                text,
                why,
            });
        }
    }
    findings.refused.sort_by_key(|refused| refused.line);
}

/// The part of a run of words that someone may have meant for a code: a hyphened word if one will do.
fn looks_like_a_code(run: &[Piece]) -> Option<String> {
    run.chunk_by(|_, next| next.joint == Joint::Hyphen)
        .find_map(half_a_code)
        .or_else(|| {
            run.chunk_by(|a, b| no_word(a) == no_word(b))
                .find_map(half_a_code)
        })
}

/// Whether a piece is of a length that groups have, or too long for a word.
fn no_word(piece: &Piece) -> bool {
    let letters = piece.letters.len();
    letters.abs_diff(GROUP) <= 1 || letters >= SHORTEST / 2
}

/// Half a code or more, with digits and letters among its pieces.
fn half_a_code(pieces: &[Piece]) -> Option<String> {
    let letters: usize = pieces.iter().map(|piece| piece.letters.len()).sum();
    let digits = pieces.iter().filter(|piece| piece.has_digit()).count();
    let digits_enough = digits > 1 || pieces.len() == digits;
    (letters >= SHORTEST / 2 && digits_enough && pieces.iter().any(Piece::has_letter))
        .then(|| joined(pieces))
}

fn joined(pieces: &[Piece]) -> String {
    let texts: Vec<&str> = pieces.iter().map(|piece| piece.text.as_str()).collect();
    texts.join("-")
}

#[cfg(test)]
mod tests;
