//! A text cut into pieces that may belong to a code, each with how it follows the one before.

use super::alphabet::{self, GROUP, Read};

/// Characters read of one text, about twenty thousand codes.
pub const MOST_READ: usize = 1_000_000;

/// How a piece follows the one before.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Joint {
    Hyphen,
    Space,
    Line,
    /// Anything that no code runs across: a comma, a bar, a letter of another alphabet, a tab.
    Wall,
}

/// A run of letters and digits without a break.
#[derive(Clone, Debug)]
pub(super) struct Piece {
    pub(super) joint: Joint,
    pub(super) line: usize,
    pub(super) letters: Vec<Option<u8>>,
    pub(super) text: String,
    pub(super) opened: bool,
}

impl Piece {
    pub(super) fn has_digit(&self) -> bool {
        self.text.contains(|c: char| c.is_ascii_digit())
    }

    pub(super) fn has_letter(&self) -> bool {
        self.text.contains(|c: char| c.is_ascii_alphabetic())
    }
}

/// Cuts a text into pieces; a line number if it was too long to be read whole.
pub(super) fn pieces(text: &str) -> (Vec<Piece>, Option<usize>) {
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
