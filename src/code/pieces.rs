//! A text cut into pieces that may belong to a code, each with how it follows the one before and whose it is.

use std::collections::HashMap;

use super::alphabet::{self, GROUP, Read};
use super::heads;
use super::spelling;

/// Characters read of one text, about twenty thousand codes.
pub const MOST_READ: usize = 1_000_000;

/// How a piece follows the one before.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Joint {
    Hyphen,
    /// A hyphen at the end of a line.
    Wrapped,
    Space,
    Line,
    /// Any other mark: a comma, a bar, a letter of another alphabet, a tab.
    Mark,
}

impl Joint {
    pub(super) fn is_hyphen(self) -> bool {
        matches!(self, Self::Hyphen | Self::Wrapped)
    }
}

/// A run of letters and digits without a break.
#[derive(Clone, Debug)]
pub(super) struct CodePiece {
    /// Its first character in the text, and the one after its last.
    pub(super) from: usize,
    pub(super) to: usize,
    pub(super) joint: Joint,
    pub(super) line: usize,
    pub(super) letters: Vec<Option<u8>>,
    /// The letter it stands for, if it is a word of the spelling alphabet.
    pub(super) said: Option<u8>,
    /// A word that only stands between groups.
    pub(super) between: bool,
    /// It is the end of the word before, as the ray of an X-ray.
    pub(super) ends_word: bool,
    /// It belongs to the head of a message.
    pub(super) head: bool,
    /// Who wrote it, counted in the order they first wrote.
    pub(super) sender: usize,
    pub(super) has_digit: bool,
    pub(super) opened: bool,
}

/// Cuts a text into pieces, as far at a time as is asked for.
#[derive(Clone, Debug)]
pub(super) struct Cutter {
    pub(super) text: Vec<char>,
    at: usize,
    line: usize,
    /// Where the line starts, and its first piece.
    line_from: usize,
    line_pieces: usize,
    joint: Option<Joint>,
    senders: HashMap<String, usize>,
    sender: usize,
    pub(super) pieces: Vec<CodePiece>,
}

impl Cutter {
    pub(super) fn of(text: &str) -> Self {
        Self {
            text: text.chars().take(MOST_READ + 1).collect(),
            at: 0,
            line: 1,
            line_from: 0,
            line_pieces: 0,
            joint: Some(Joint::Mark),
            senders: HashMap::new(),
            sender: 0,
            pieces: Vec::new(),
        }
    }

    /// The line that reading stopped in, for a text that was too long to be read whole.
    pub(super) fn unread_from(&self) -> Option<usize> {
        (self.at < self.text.len()).then_some(self.line)
    }

    /// Whether more than one has written.
    pub(super) fn has_senders(&self) -> bool {
        !self.senders.is_empty()
    }

    /// What stands in the text from one place to another, or to its end.
    pub(super) fn slice(&self, from: usize, to: usize) -> &[char] {
        let to = to.min(self.text.len());
        self.text.get(from..to).unwrap_or_default()
    }

    /// The letters and digits of a piece, as typed.
    pub(super) fn written(&self, piece: &CodePiece) -> String {
        let typed = self.slice(piece.from, piece.to).iter();
        typed
            .filter(|c| !alphabet::is_invisible(**c))
            .take(piece.letters.len())
            .collect()
    }

    /// The line that a piece stands in, as far as `most` characters.
    pub(super) fn line_of(&self, piece: &CodePiece, most: usize) -> String {
        let before = self
            .slice(piece.from.saturating_sub(most), piece.from)
            .iter();
        let before = before.rev().take_while(|c| **c != '\n').count();
        let from = piece.from - before;
        let line = self.slice(from, from + most).iter();
        let line: String = line.take_while(|c| **c != '\n').collect();
        line.trim().to_owned()
    }

    /// Reads the next `characters`. False once the text, or what is read of it, has come to its end.
    pub(super) fn go_on(&mut self, characters: usize) -> bool {
        for _ in 0..characters {
            if self.at == MOST_READ {
                break;
            }
            let Some(character) = self.text.get(self.at).copied() else {
                break;
            };
            self.take(character);
            self.at += 1;
        }
        let more = self.at < self.text.len() && self.at < MOST_READ;
        if !more {
            self.end_line();
        }
        more
    }

    fn take(&mut self, character: char) {
        let letter = match alphabet::read(character) {
            Read::Letter(value) => Some(value),
            Read::Unread => None,
            Read::Gap if alphabet::is_invisible(character) => return,
            gap => {
                self.part(gap, character);
                return;
            }
        };
        if self.joint.is_none()
            && let Some(piece) = self.pieces.last_mut()
        {
            piece.letters.push(letter);
            piece.to = self.at + 1;
            piece.has_digit |= character.is_ascii_digit();
            return;
        }
        let joint = self.joint.take().unwrap_or(Joint::Mark);
        self.pieces.push(CodePiece {
            from: self.at,
            to: self.at + 1,
            joint,
            line: self.line,
            letters: vec![letter],
            said: None,
            between: false,
            ends_word: false,
            head: false,
            sender: self.sender,
            has_digit: character.is_ascii_digit(),
            opened: false,
        });
    }

    fn part(&mut self, gap: Read, character: char) {
        let next = match (gap, character) {
            (_, '\n') => Joint::Line,
            // A mail puts this before the lines it quotes.
            (_, '>') => Joint::Space,
            (Read::Gap, '\t') | (Read::Foreign, _) => Joint::Mark,
            (_, space) if space.is_whitespace() => Joint::Space,
            _ => Joint::Hyphen,
        };
        self.joint = Some(stronger(self.joint, next));
        if next == Joint::Line {
            self.end_line();
            self.line += 1;
            self.line_from = self.at + 1;
            self.line_pieces = self.pieces.len();
        }
    }

    /// Looks at a line as a whole: its head, and the words that stand for letters.
    fn end_line(&mut self) {
        let line = self.text.get(self.line_from..self.at).unwrap_or_default();
        let pieces = self.pieces.get_mut(self.line_pieces..).unwrap_or_default();
        if pieces.is_empty() {
            return;
        }
        let head = heads::head(line);
        if let Some(name) = head.as_ref().and_then(|head| head.sender.clone()) {
            let next = self.senders.len() + 1;
            self.sender = *self.senders.entry(name).or_insert(next);
        }
        let message = self.line_from + head.map_or(0, |head| head.end);
        let mut lone_x: Option<&mut CodePiece> = None;
        for piece in pieces {
            let asked = piece.to > 0 && self.text.get(piece.to - 1) == Some(&'?');
            if asked && piece.letters.len() % GROUP == 1 {
                // A question mark after a whole group ends a sentence and stands for no letter.
                piece.letters.pop();
                piece.to -= 1;
            }
            piece.head = piece.from < message;
            piece.sender = self.sender;
            let typed = self.text.get(piece.from..piece.to).unwrap_or_default();
            let is_word =
                (2..=8).contains(&typed.len()) && typed.iter().all(char::is_ascii_alphabetic);
            let word: String = if is_word {
                typed.iter().collect()
            } else {
                String::new()
            };
            if word.eq_ignore_ascii_case("ray")
                && let Some(x) = lone_x.take()
            {
                x.said = spelling::heard("xray");
                piece.ends_word = true;
            } else if is_word {
                piece.said = spelling::heard(&word);
                piece.between = piece.said.is_none() && spelling::is_between(&word);
            }
            let is_x = typed.len() == 1 && typed.iter().all(|c| c.eq_ignore_ascii_case(&'x'));
            lone_x = is_x.then_some(piece);
        }
    }
}

/// The break that counts when several stand together.
fn stronger(before: Option<Joint>, next: Joint) -> Joint {
    match (before, next) {
        (Some(Joint::Mark), _) | (_, Joint::Mark) => Joint::Mark,
        (Some(Joint::Hyphen), Joint::Line) => Joint::Wrapped,
        (Some(Joint::Wrapped), Joint::Space | Joint::Hyphen) => Joint::Wrapped,
        (Some(Joint::Line | Joint::Wrapped), _) | (_, Joint::Line) => Joint::Line,
        (Some(Joint::Space), _) | (_, Joint::Space) => Joint::Space,
        _ => Joint::Hyphen,
    }
}
