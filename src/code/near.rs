//! What looks like a code and does not open: somebody's result, which is asked for again.
//!
//! It is told from the other things of letters and figures that stand in messages, whose owners would not want them kept:
//! account numbers by their own check digits (ISO 13616), addresses and the names that mails go by, tokens of links.

use super::alphabet::{self, GROUP};
use super::find::Refused;
use super::mend::{LONGEST, SHORTEST};
use super::opening::why_not;
use super::pieces::{CodePiece, Cutter, Joint};
use super::unopened::Unopened;
use super::views::{self, View, ViewPiece};
use super::{layout, others};

/// Half of the shortest code: less is not called one.
const FEWEST: usize = SHORTEST / 2;
/// As many characters of a line as are shown of it, and as stand around a word.
const SHOWN: usize = 160;
/// The groups that an account number may be written in.
const GROUPS_OF_ACCOUNT: usize = 10;
/// Groups without a digit that may follow one another: in one code of a hundred there are three, in hardly any seven.
const WEAK_TOGETHER: usize = 6;

/// The pieces of each run that looks like a code, once all that opens has been found.
pub(super) fn near_codes(cutter: &Cutter) -> Vec<Vec<ViewPiece>> {
    let items = views::kept(View::BySenderUnnumbered, cutter);
    let mut near = Vec::new();
    let mut run: Vec<ViewPiece> = Vec::new();
    let mut weak = 0;
    let mut ahead = items.as_slice();
    while !ahead.is_empty() {
        let (word, rest) = ahead.split_at(word_length(cutter, ahead));
        let kind = kind(cutter, word);
        let joins = joins(cutter, &run, word, ahead);
        if !joins || kind == WordKind::Other || (kind == WordKind::Weak && weak == WEAK_TOGETHER) {
            near.extend(judged(cutter, std::mem::take(&mut run)));
            weak = 0;
        }
        match kind {
            WordKind::Other => {}
            WordKind::Weak if run.is_empty() => {}
            WordKind::Weak => {
                weak += 1;
                run.extend(word);
            }
            WordKind::Group | WordKind::Long => {
                weak = 0;
                run.extend(word);
            }
        }
        ahead = rest;
    }
    near.extend(judged(cutter, run));
    near.extend(said(cutter));
    near
}

/// What a word, its parts joined by hyphens, is to a code.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum WordKind {
    /// Half a code or more.
    Long,
    /// A group, or some.
    Group,
    /// Four letters that may be a group or any word.
    Weak,
    Other,
}

fn pieces<'a>(
    cutter: &'a Cutter,
    items: &'a [ViewPiece],
) -> impl DoubleEndedIterator<Item = &'a CodePiece> {
    items
        .iter()
        .filter_map(|item| cutter.pieces.get(item.piece))
}

fn letters(cutter: &Cutter, items: &[ViewPiece]) -> usize {
    pieces(cutter, items).map(|piece| piece.letters.len()).sum()
}

/// How many pieces the word has that starts here.
fn word_length(cutter: &Cutter, ahead: &[ViewPiece]) -> usize {
    let joined = ahead.windows(2).take_while(|pair| match pair {
        [a, b] => {
            let hyphen = cutter
                .pieces
                .get(b.piece)
                .is_some_and(|piece| piece.joint.is_hyphen());
            a.piece + 1 == b.piece && hyphen
        }
        _ => false,
    });
    1 + joined.count()
}

fn kind(cutter: &Cutter, word: &[ViewPiece]) -> WordKind {
    let count = letters(cutter, word);
    let digits = pieces(cutter, word).any(|piece| piece.has_digit);
    let written: Vec<String> = pieces(cutter, word)
        .map(|piece| cutter.written(piece))
        .collect();
    let capitals = written
        .iter()
        .all(|text| text.chars().all(|c| !c.is_ascii_lowercase()));
    match () {
        () if !written.iter().all(|text| one_case(text)) => WordKind::Other,
        () if count >= FEWEST && digits => WordKind::Long,
        () if digits && count > 2 => WordKind::Group,
        () if count == GROUP && capitals => WordKind::Group,
        () if count == GROUP || (digits && count == 2) => WordKind::Weak,
        () => WordKind::Other,
    }
}

/// All capitals, all small letters, or a capital that a phone's keyboard put first. Tokens of mails mix both.
fn one_case(text: &str) -> bool {
    let mut rest = text.chars();
    let first = rest.next();
    let (mut upper, mut lower) = (false, false);
    for letter in rest {
        upper |= letter.is_ascii_uppercase();
        lower |= letter.is_ascii_lowercase();
    }
    !(upper && (lower || first.is_some_and(|c| c.is_ascii_lowercase())))
}

/// Whether a word goes on with the run before it.
fn joins(cutter: &Cutter, run: &[ViewPiece], word: &[ViewPiece], ahead: &[ViewPiece]) -> bool {
    let (Some(last), Some(next)) = (pieces(cutter, run).next_back(), pieces(cutter, word).next())
    else {
        return true;
    };
    let before = letters(cutter, run);
    if before > LONGEST + GROUP {
        return false;
    }
    let new_line = next.line != last.line;
    if last.sender != next.sender {
        return false;
    }
    if before.max(letters(cutter, word)) >= FEWEST && run.len().min(word.len()) > 0 {
        // A long word stands alone; but a link, or a code that is run together, may be broken by a line.
        let broken = new_line && next.joint == Joint::Line && word.len() == 1 && run.len() == 1;
        if letters(cutter, word) >= FEWEST || run_is_one_word(cutter, run) {
            return broken && before + letters(cutter, word) <= LONGEST + 1;
        }
    }
    if new_line {
        let on_line = pieces(cutter, ahead).take_while(|piece| piece.line == next.line);
        let on_line: usize = on_line.take(LONGEST).map(|piece| piece.letters.len()).sum();
        return before < SHORTEST || before + on_line <= LONGEST + 1;
    }
    true
}

fn run_is_one_word(cutter: &Cutter, run: &[ViewPiece]) -> bool {
    word_length(cutter, run) == run.len()
}

/// A run that looks like a code, without the words around it.
fn judged(cutter: &Cutter, mut run: Vec<ViewPiece>) -> Option<Vec<ViewPiece>> {
    let is_weak = |item: &ViewPiece| kind(cutter, &[*item]) == WordKind::Weak;
    if !run_is_one_word(cutter, &run) {
        // What begins as a code does is not cut down to less than one.
        let begins = layout::may_begin(&first_letters(cutter, &run));
        let least = if begins { SHORTEST + GROUP } else { 0 };
        while run.last().is_some_and(is_weak) && letters(cutter, &run) >= least {
            run.pop();
        }
    }
    let (first, last) = (run.first()?, run.last()?);
    let (first, last) = (
        cutter.pieces.get(first.piece)?,
        cutter.pieces.get(last.piece)?,
    );
    let written: Vec<String> = pieces(cutter, &run)
        .map(|piece| cutter.written(piece))
        .collect();
    // Its last figures may be taken for the number of a group.
    let from_here = run.first().map_or(0, |item| item.piece);
    let from_here = cutter.pieces.iter().skip(from_here).take(GROUPS_OF_ACCOUNT);
    let from_here: Vec<String> = from_here.map(|piece| cutter.written(piece)).collect();
    let all = written.concat();
    let count = all.chars().count();
    let digits = all.chars().filter(char::is_ascii_digit).count();
    let one_word = run_is_one_word(cutter, &run);
    // A code has a digit in three letters or so; grouped by hyphens it is known by its groups.
    let few = if one_word {
        digits > 0
    } else {
        digits > 1 && digits * 12 >= count
    };
    let enough = count >= FEWEST && few && (count - digits) * 5 >= count;
    let before: String = cutter
        .slice(first.from.saturating_sub(SHOWN), first.from)
        .iter()
        .collect();
    let before = before
        .rsplit(char::is_whitespace)
        .next()
        .unwrap_or_default()
        .to_lowercase();
    let after: String = cutter.slice(last.to, last.to + SHOWN).iter().collect();
    let after = after.split(char::is_whitespace).next().unwrap_or_default();
    let in_code_link = before.ends_with("/c/");
    let of_others = before.contains('@')
        || after.contains('@')
        || (before.contains("://") && !in_code_link)
        || others::is_account(&from_here)
        || others::is_hexadecimal(&all);
    if !enough || of_others {
        return None;
    }
    let fours = written.iter().filter(|group| group.len() == GROUP).count();
    let in_fours = fours >= 2 && fours * 5 >= written.len() * 3;
    let begins: Vec<u8> = first_letters(cutter, &run);
    let looks = in_code_link
        || layout::may_begin(&begins)
        || (in_fours && (one_word || count >= FEWEST + GROUP))
        || (written.len() == 1 && count >= SHORTEST - GROUP);
    looks.then_some(run)
}

fn first_letters(cutter: &Cutter, run: &[ViewPiece]) -> Vec<u8> {
    let letters = pieces(cutter, run).flat_map(|piece| piece.letters.iter());
    letters.take(5).filter_map(|letter| *letter).collect()
}

/// Words said for the letters of a code, half of one or more.
fn said(cutter: &Cutter) -> Vec<Vec<ViewPiece>> {
    let items = views::kept(View::Spelled, cutter);
    let short = |item: &ViewPiece| pieces(cutter, &[*item]).all(|piece| piece.letters.len() == 1);
    let by_letter = |item: &ViewPiece| item.said.is_some() || short(item);
    let runs = items.chunk_by(|a, b| by_letter(a) == by_letter(b));
    let by_letter_run = |run: &[ViewPiece]| run.iter().all(by_letter);
    let looks = |run: &&[ViewPiece]| {
        let digits = pieces(cutter, run).filter(|piece| piece.has_digit).count();
        let said = run
            .iter()
            .filter(|item| item.said.is_some_and(|value| value < 10))
            .count();
        (FEWEST..=LONGEST + GROUP).contains(&run.len()) && by_letter_run(run) && digits + said > 1
    };
    runs.filter(looks).map(<[ViewPiece]>::to_vec).collect()
}

/// What is told of a run that does not open: its letters in their groups, its line, and the reason, which is looked for where
/// it is not known.
pub(super) fn refused(cutter: &Cutter, run: &[ViewPiece], why: Option<Unopened>) -> Refused {
    let mut groups: Vec<String> = Vec::new();
    let mut read: Vec<Option<u8>> = Vec::new();
    let said: String = run
        .iter()
        .filter_map(|item| item.said)
        .map(alphabet::letter)
        .collect();
    for item in run {
        let Some(piece) = cutter.pieces.get(item.piece) else {
            continue;
        };
        if read.len() > 2 * LONGEST {
            break;
        }
        if item.said.is_some() {
            read.push(item.said);
        } else {
            groups.push(cutter.written(piece).to_ascii_uppercase());
            read.extend(&piece.letters);
        }
    }
    if !said.is_empty() {
        let all: Vec<char> = read
            .iter()
            .map(|value| value.map_or('?', alphabet::letter))
            .collect();
        groups = all
            .chunks(GROUP)
            .map(|group| group.iter().collect())
            .collect();
    }
    let lengths: Vec<usize> = groups.iter().map(|group| group.chars().count()).collect();
    let first = run.first().and_then(|item| cutter.pieces.get(item.piece));
    Refused {
        line: first.map_or(1, |piece| piece.line),
        words: first.map_or_else(String::new, |piece| cutter.line_of(piece, SHOWN)),
        why: why.unwrap_or_else(|| why_not(&read, &lengths)),
        text: groups.join("-").chars().take(3 * LONGEST).collect(),
    }
}
