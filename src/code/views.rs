//! The ways to read one text: with the numbers of the groups or without, message by message or sender by sender, by its
//! letters or by the words that were said for them.

use super::pieces::{CodePiece, Cutter};

/// One way to read a text.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum View {
    /// Everything, in its order.
    AsWritten,
    /// Without what numbers the groups.
    Unnumbered,
    /// Sender by sender, without the heads of their messages.
    BySender,
    /// The same, without what numbers the groups.
    BySenderUnnumbered,
    /// The same, without the words said for the letters, which stand beside them.
    Beside,
    /// The words said for the letters.
    Spelled,
}

impl View {
    /// All of them, the plainest first.
    pub(super) const ALL: [Self; 6] = [
        Self::AsWritten,
        Self::Unnumbered,
        Self::BySender,
        Self::BySenderUnnumbered,
        Self::Beside,
        Self::Spelled,
    ];
}

/// A piece as it is read in a view.
#[derive(Clone, Copy, Debug)]
pub(super) struct ViewPiece {
    /// Its place among the pieces.
    pub(super) piece: usize,
    /// The letter it is read as, if not by its own letters.
    pub(super) said: Option<u8>,
}

/// The pieces that a view shows, in its order, without those that belong to an opened code. Nothing for a view that
/// shows what a plainer one has shown.
pub(super) fn shown(view: View, cutter: &Cutter) -> Vec<ViewPiece> {
    let by_sender = is_by_sender(view);
    let spelled = matches!(view, View::Beside | View::Spelled);
    let has_words = || cutter.pieces.iter().any(|piece| piece.said.is_some());
    if (by_sender && !spelled && !cutter.has_senders()) || (spelled && !has_words()) {
        return Vec::new();
    }
    kept(view, cutter)
}

/// The pieces that a view shows, whether or not a plainer one has shown them.
pub(super) fn kept(view: View, cutter: &Cutter) -> Vec<ViewPiece> {
    let by_sender = is_by_sender(view);
    let kept = |nth: usize, piece: &CodePiece| match view {
        View::AsWritten => true,
        View::Unnumbered => !is_number(cutter, nth),
        View::BySender => !piece.head,
        View::BySenderUnnumbered => !piece.head && !is_number(cutter, nth),
        View::Beside => {
            let is_said = piece.said.is_some() || piece.between || piece.ends_word;
            !piece.head && !is_said && !is_number(cutter, nth)
        }
        View::Spelled => {
            let is_around = piece.between || piece.ends_word;
            !piece.head && !is_around && !is_number_of_words(cutter, nth)
        }
    };
    let mut items: Vec<ViewPiece> = (0..)
        .zip(&cutter.pieces)
        .filter(|(nth, piece)| !piece.opened && kept(*nth, piece))
        .map(|(nth, piece)| ViewPiece {
            piece: nth,
            said: piece.said.filter(|_| view == View::Spelled),
        })
        .collect();
    if by_sender && cutter.has_senders() {
        items.sort_by_key(|item| cutter.pieces.get(item.piece).map(|piece| piece.sender));
    }
    items
}

fn is_by_sender(view: View) -> bool {
    !matches!(view, View::AsWritten | View::Unnumbered)
}

/// Whether a piece stands beside the letters of a code: its number, a word said for it, the head of a message.
pub(super) fn is_beside(cutter: &Cutter, nth: usize) -> bool {
    let piece = cutter.pieces.get(nth);
    let is_word = piece.is_some_and(|piece| {
        piece.said.is_some() || piece.between || piece.ends_word || piece.head
    });
    is_word || is_number(cutter, nth)
}

/// Whether a piece only numbers a group, or marks it as one of a list: `1.`, `(2)`, `#3`, `4` before four letters,
/// `b)`, or `Group` before any of these.
fn is_number(cutter: &Cutter, nth: usize) -> bool {
    let Some(piece) = cutter.pieces.get(nth) else {
        return false;
    };
    let next = cutter.pieces.get(nth + 1);
    let before_letters = next.is_some_and(|next| next.letters.len() > 2);
    if piece.between {
        return next.is_some_and(|next| next.letters.len() <= 2 && next.has_digit);
    }
    (is_low(piece) && before_letters)
        || is_number_of_words(cutter, nth)
        || (before_letters && is_lettered(cutter, piece))
}

/// The same where single letters or words follow, so that a figure may be the first of them.
fn is_number_of_words(cutter: &Cutter, nth: usize) -> bool {
    let Some(piece) = cutter.pieces.get(nth) else {
        return false;
    };
    let before = nth.checked_sub(1).and_then(|nth| cutter.pieces.get(nth));
    let after_word = before.is_some_and(|word| word.between);
    if after_word && piece.said.is_some_and(|value| value < 10) {
        return true;
    }
    let last = piece.from.checked_sub(1);
    let last = last.and_then(|at| cutter.text.get(at));
    let next = cutter.text.get(piece.to);
    let marked = matches!(last, Some('#' | '(' | '['))
        || matches!(
            next,
            Some('.' | ')' | ':' | ']' | '/' | '\u{fe0f}' | '\u{20e3}')
        );
    is_low(piece) && (marked || after_word)
}

fn is_low(piece: &CodePiece) -> bool {
    let figures = piece
        .letters
        .iter()
        .all(|letter| letter.is_some_and(|value| value < 10));
    piece.letters.len() <= 2 && figures && piece.has_digit
}

/// `a)`, or an `o` that stands for a bullet, at the start of a line.
fn is_lettered(cutter: &Cutter, piece: &CodePiece) -> bool {
    let typed = cutter.slice(piece.from, piece.to + 1);
    let before = cutter.slice(piece.from.saturating_sub(4), piece.from);
    let first = before
        .iter()
        .rev()
        .find(|c| !c.is_whitespace() || **c == '\n');
    let starts = piece.from == 0 || matches!(first, None | Some('\n' | '>'));
    starts
        && match typed {
            [letter, mark] => {
                (letter.is_ascii_alphabetic() && *mark == ')')
                    || (*letter == 'o' && mark.is_whitespace())
            }
            _ => false,
        }
}
