//! Codes inside any text: a chat, a mail, a table, one or two thousand at once; also with a letter missing or too many.
//!
//! The text is read in several ways (see `views`), the plainest first. In each, from every piece on, each stretch of as many
//! letters as a code has is tried, whatever stands between its pieces. Then the same is done for letters of which one or two
//! are wrong, and at last for stretches of one letter less or more: so what is whole is never taken for something that has
//! to be put right. What looks like a code and does not open
//! is told with the reason (see `near`); every line ends up in one of three lists. The work grows with the length of
//! the text and no faster.

use super::alphabet::GROUP;
use super::mend::{LONGEST, SHORTEST, is_length};
use super::near;
use super::opening::{OpenedCode, open_one_off, open_read};
use super::pieces::Cutter;
use super::running::Running;
use super::unopened::Unopened;
use super::views::{self, View, ViewPiece};

/// As many stretches as are tried with one letter more or less: those of some ten thousand codes that need it. A text that
/// has more was made to keep a phone busy, and what is left of it is listed.
const MOST_TRIES: usize = 300_000;

/// Pieces among which a code's numbers and words are looked for.
const MOST_AROUND: usize = 200;

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
    /// The letters of what looks like a code, in their groups; nothing else of the text.
    pub text: String,
    /// The line it stands in, for whoever has to ask its sender.
    pub words: String,
    /// Why it does not open.
    pub why: Unopened,
}

/// All that a text holds.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Findings {
    /// Codes that opened, in order; the same one twice if it is there twice with something between.
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
    /// What the stage looks through, and how far it has come in it.
    items: Vec<ViewPiece>,
    at: usize,
    /// What opened, with the place of its first piece.
    found: Vec<(usize, FoundCode)>,
    /// Pieces of what was found to look like a code.
    near: Vec<Vec<ViewPiece>>,
    /// How many stretches are still tried with a letter more or less.
    tries: usize,
    findings: Findings,
}

/// What a search does, one after the other.
#[derive(Clone, Copy, Debug)]
enum Stage {
    /// Cuts the text into pieces.
    Cut,
    /// Looks for codes in the view of this number: whole ones, and after all views those that have to be put right.
    Look(usize, Off),
    /// Finds out why what looks like a code does not open.
    Refuse,
    /// Puts every line without a code into its list.
    Sort,
    Done,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Off {
    /// Whole as it stands.
    None,
    /// A letter or two are wrong, or can't be read.
    Wrong,
    /// One letter is missing, or one too many.
    ByOne,
}

impl CodeSearch {
    /// A search that has not begun.
    #[must_use]
    pub fn of(text: &str) -> Self {
        Self {
            cutter: Cutter::of(text),
            stage: Stage::Cut,
            items: Vec::new(),
            at: 0,
            found: Vec::new(),
            near: Vec::new(),
            tries: MOST_TRIES,
            findings: Findings::default(),
        }
    }

    /// Goes on by about so many words, each as long as a code. False once the text has come to its end.
    pub fn go_on(&mut self, words: usize) -> bool {
        let more = match self.stage {
            Stage::Cut => self.cutter.go_on(words.saturating_mul(LONGEST)),
            Stage::Look(nth, off) => self.look(words, nth, off),
            Stage::Refuse => self.refuse(words),
            Stage::Sort => self.sort(words),
            Stage::Done => return false,
        };
        if !more {
            self.stage = match self.stage {
                Stage::Cut => Stage::Look(0, Off::None),
                Stage::Look(nth, off) if nth + 1 < View::ALL.len() => Stage::Look(nth + 1, off),
                Stage::Look(_, Off::None) => Stage::Look(0, Off::Wrong),
                Stage::Look(_, Off::Wrong) => Stage::Look(0, Off::ByOne),
                Stage::Look(_, Off::ByOne) => Stage::Refuse,
                Stage::Refuse => Stage::Sort,
                Stage::Sort | Stage::Done => Stage::Done,
            };
            self.at = 0;
            self.items = match self.stage {
                Stage::Look(nth, _) => {
                    let view = View::ALL.get(nth).copied().unwrap_or(View::AsWritten);
                    views::shown(view, &self.cutter)
                }
                _ => Vec::new(),
            };
            if matches!(self.stage, Stage::Refuse) {
                self.near = near::near_codes(&self.cutter);
            }
        }
        true
    }

    fn look(&mut self, words: usize, nth: usize, off: Off) -> bool {
        let plainest = nth == 0;
        for _ in 0..words {
            let ahead = self.items.get(self.at..).unwrap_or_default();
            let Some(first) = ahead.first() else {
                return false;
            };
            let Some((count, outcome)) =
                open_from(&self.cutter, ahead, plainest, off, &mut self.tries)
            else {
                self.at += 1;
                continue;
            };
            let (taken, piece) = (ahead.get(..count).unwrap_or_default().to_vec(), first.piece);
            self.at += count;
            self.settle(&taken);
            let line = self.cutter.pieces.get(piece).map_or(1, |piece| piece.line);
            match outcome {
                Ok(opened) => self.found.push((piece, FoundCode { line, opened })),
                Err(why) => {
                    self.findings
                        .refused
                        .push(near::refused(&self.cutter, &taken, Some(why)))
                }
            }
        }
        true
    }

    /// These are told of; so is what numbers or spells them.
    fn settle(&mut self, taken: &[ViewPiece]) {
        let (Some(first), Some(last)) = (taken.first(), taken.last()) else {
            return;
        };
        let sender = self
            .cutter
            .pieces
            .get(first.piece)
            .map(|piece| piece.sender);
        // What lies far apart is by two messages, with those of others between.
        let from = first
            .piece
            .saturating_sub(1)
            .max(last.piece.saturating_sub(MOST_AROUND));
        for nth in from..=last.piece {
            if !views::is_beside(&self.cutter, nth) {
                continue;
            }
            let piece = self.cutter.pieces.get_mut(nth);
            if let Some(piece) = piece.filter(|piece| Some(piece.sender) == sender) {
                piece.opened = true;
            }
        }
        for item in taken {
            if let Some(piece) = self.cutter.pieces.get_mut(item.piece) {
                piece.opened = true;
            }
        }
    }

    fn refuse(&mut self, words: usize) -> bool {
        for _ in 0..words {
            let Some(taken) = self.near.get(self.at) else {
                return false;
            };
            self.at += 1;
            let refused = near::refused(&self.cutter, taken, None);
            self.settle(&taken.clone());
            self.findings.refused.push(refused);
        }
        true
    }

    fn sort(&mut self, words: usize) -> bool {
        let mut done = 0;
        while done < words {
            let ahead = self.cutter.pieces.get(self.at..).unwrap_or_default();
            let line = ahead.chunk_by(|a, b| a.line == b.line).next();
            let Some((line, number)) = line.and_then(|line| Some((line, line.first()?.line)))
            else {
                return false;
            };
            if line.iter().all(|piece| !piece.opened) {
                self.findings.plain.push(number);
            }
            done += line.len();
            self.at += line.len();
        }
        true
    }

    /// What has been found, every line of the text in its list: asked for at the end.
    #[must_use]
    pub fn findings(mut self) -> Findings {
        self.found.sort_by_key(|(piece, _)| *piece);
        // A message often has a code three times over: as letters, as words, and as a link.
        self.found
            .dedup_by(|(_, this), (_, before)| this.opened.code == before.opened.code);
        self.findings.found = self.found.into_iter().map(|(_, found)| found).collect();
        self.findings.unread_from = self.cutter.unread_from();
        self.findings.refused.sort_by_key(|refused| refused.line);
        self.findings
    }
}

/// The code that starts with the first of these, and how many it takes. Letters that hold without making sense count as
/// well, since nobody writes those by chance. In a view that is not the `plainest`, only what that one does not show.
fn open_from(
    cutter: &Cutter,
    items: &[ViewPiece],
    plainest: bool,
    off: Off,
    tries: &mut usize,
) -> Option<(usize, Result<OpenedCode, Unopened>)> {
    if !is_worth_reading(cutter, items, plainest) {
        return None;
    }
    let mut best: Option<(usize, Result<OpenedCode, Unopened>)> = None;
    let mut read = Running::new();
    let (mut differs, mut digits, mut in_word) = (plainest, 0, true);
    let mut last = None;
    for (nth, item) in items.iter().enumerate() {
        let piece = cutter.pieces.get(item.piece)?;
        if piece.opened {
            break;
        }
        differs |= item.said.is_some() || last.is_some_and(|last| last + 1 != item.piece);
        in_word &= last.is_none() || piece.joint.is_hyphen();
        last = Some(item.piece);
        let taken = item.said.is_some() || read.letters.len() + piece.letters.len() <= LONGEST + 1;
        if !taken || read.letters.len() > LONGEST {
            break;
        }
        if item.said.is_some() {
            read.push(item.said);
            digits += usize::from(item.said.is_some_and(|value| value < 10));
        } else {
            piece.letters.iter().for_each(|letter| read.push(*letter));
            digits += usize::from(piece.has_digit);
        }
        // A code without a digit is one in eight thousand; words without one are everywhere.
        if !(differs && (digits > 0 || in_word)) {
            continue;
        }
        match off {
            Off::None | Off::Wrong => {
                let holds = if off == Off::None {
                    read.holds()
                } else {
                    read.may_hold()
                };
                if !holds {
                    continue;
                }
                let outcome = open_read(&read.letters);
                let better = best
                    .as_ref()
                    .is_none_or(|(_, known)| mends(&outcome) < mends(known));
                if outcome != Err(Unopened::TooManyWrong) && better {
                    best = Some((nth + 1, outcome));
                }
            }
            Off::ByOne => {
                let is_word =
                    item.said.is_none() && !piece.has_digit && piece.letters.len() > GROUP + 1;
                if *tries == 0 || (is_word && !in_word) {
                    break;
                }
                // Of the groups of a code two in three have a digit, and of its letters one in three.
                if digits * 5 < nth + 1 || !is_one_off_length(read.letters.len()) {
                    continue;
                }
                *tries -= 1;
                if let Some(opened) = open_one_off(&read.letters) {
                    return Some((nth + 1, Ok(opened)));
                }
            }
        }
    }
    best
}

/// Whether so many letters from here on as a code has are more than words, and read otherwise than in the plainest view.
fn is_worth_reading(cutter: &Cutter, items: &[ViewPiece], plainest: bool) -> bool {
    let (mut letters, mut digits, mut differs, mut last) = (0, false, plainest, None);
    for item in items {
        let Some(piece) = cutter.pieces.get(item.piece).filter(|piece| !piece.opened) else {
            break;
        };
        letters += item.said.map_or(piece.letters.len(), |_| 1);
        digits |= piece.has_digit || item.said.is_some_and(|value| value < 10);
        // A word that no hyphen goes on with has to be as long as a code to be one without a digit.
        digits |= letters >= SHORTEST - 1 && (last.is_none() || piece.joint.is_hyphen());
        differs |= item.said.is_some() || last.is_some_and(|last| last + 1 != item.piece);
        last = Some(item.piece);
        if (digits && differs) || letters > LONGEST {
            break;
        }
    }
    digits && differs && letters > 0
}

fn is_one_off_length(letters: usize) -> bool {
    is_length(letters + 1) || (letters > 0 && is_length(letters - 1))
}

fn mends(outcome: &Result<OpenedCode, Unopened>) -> usize {
    outcome
        .as_ref()
        .map_or(LONGEST, |opened| opened.mended.len())
}

#[cfg(test)]
mod tests;
