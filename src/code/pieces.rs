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
pub(super) struct CodePiece {
    pub(super) joint: Joint,
    pub(super) line: usize,
    pub(super) letters: Vec<Option<u8>>,
    pub(super) text: String,
    pub(super) opened: bool,
}

impl CodePiece {
    pub(super) fn has_digit(&self) -> bool {
        self.text.contains(|c: char| c.is_ascii_digit())
    }

    pub(super) fn has_letter(&self) -> bool {
        self.text.contains(|c: char| c.is_ascii_alphabetic())
    }
}

/// Cuts a text into pieces, as far at a time as is asked for.
#[derive(Clone, Debug)]
pub(super) struct Cutter {
    /// What is left, the next character last.
    left: Vec<char>,
    read: usize,
    line: usize,
    joint: Option<Joint>,
    pub(super) pieces: Vec<CodePiece>,
}

impl Cutter {
    pub(super) fn of(text: &str) -> Self {
        let mut left: Vec<char> = text.chars().take(MOST_READ + 1).collect();
        left.reverse();
        Self {
            left,
            read: 0,
            line: 1,
            joint: Some(Joint::Wall),
            pieces: Vec::new(),
        }
    }

    /// The line that reading stopped in, for a text that was too long to be read whole.
    pub(super) fn unread_from(&self) -> Option<usize> {
        (!self.left.is_empty()).then_some(self.line)
    }

    /// Reads the next `characters`. False once the text, or what is read of it, has come to its end.
    pub(super) fn go_on(&mut self, characters: usize) -> bool {
        for _ in 0..characters {
            if self.read == MOST_READ {
                break;
            }
            let Some(character) = self.left.pop() else {
                break;
            };
            self.read += 1;
            self.take(character);
        }
        let more = !self.left.is_empty() && self.read < MOST_READ;
        if !more && let Some(last) = self.pieces.last_mut() {
            drop_question_mark(last);
        }
        more
    }

    fn take(&mut self, character: char) {
        let letter = match alphabet::read(character) {
            Read::Letter(value) => Some(value),
            Read::Unread => None,
            Read::Gap if alphabet::is_invisible(character) => return,
            gap => {
                let next = match (gap, character) {
                    (_, '\n') => Joint::Line,
                    (Read::Gap, '\t') | (Read::Foreign, _) => Joint::Wall,
                    (_, space) if space.is_whitespace() => Joint::Space,
                    _ => Joint::Hyphen,
                };
                self.line += usize::from(next == Joint::Line);
                self.joint = Some(stronger(self.joint, next));
                return;
            }
        };
        match (self.joint.take(), self.pieces.last_mut()) {
            (None, Some(piece)) => {
                piece.letters.push(letter);
                piece.text.push(character);
            }
            (joint, last) => {
                if let Some(whole) = last {
                    drop_question_mark(whole);
                }
                self.pieces.push(CodePiece {
                    joint: joint.unwrap_or(Joint::Wall),
                    line: self.line,
                    letters: vec![letter],
                    text: character.into(),
                    opened: false,
                });
            }
        }
    }
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
fn drop_question_mark(piece: &mut CodePiece) {
    if piece.text.ends_with('?') && piece.letters.len() % GROUP == 1 {
        piece.letters.pop();
        piece.text.pop();
    }
}
