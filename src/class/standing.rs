//! Who has sent and who was answered, nickname by nickname.

use std::collections::BTreeMap;

use super::board::Board;
use super::lesson::Lesson;

/// What one student has sent.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct RosterLine {
    /// The nickname, with the letter that tells two students of one nickname apart; empty for codes that say none.
    pub nickname: String,
    /// The places of the student's rows, in the order of the roll.
    pub rows: Vec<usize>,
    /// How many of them were not answered yet.
    pub unanswered: usize,
    /// Whether the nickname stands on the roster.
    pub is_expected: bool,
}

/// Every nickname that is expected or that has sent, by the alphabet; what says no nickname stands last.
#[must_use]
pub fn standing(board: &Board, lesson: &Lesson) -> Vec<RosterLine> {
    let mut lines: BTreeMap<(bool, String), RosterLine> = BTreeMap::new();
    let line = |nickname: String, is_expected| RosterLine {
        nickname,
        rows: Vec::new(),
        unanswered: 0,
        is_expected,
    };
    for expected in lesson.expected.iter().filter(|one| !one.gone) {
        let nickname = expected.nickname.clone();
        lines.insert((false, nickname.clone()), line(nickname, true));
    }
    for (nth, row) in board.rows().iter().enumerate() {
        let [nickname, _] = row.whose();
        let key = (nickname.is_empty(), nickname.clone());
        let line = lines.entry(key).or_insert_with(|| line(nickname, false));
        line.rows.push(nth);
        line.unanswered += usize::from(!lesson.is_answered(row));
    }
    lines.into_values().collect()
}
