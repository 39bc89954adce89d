//! What goes back to a student: what the board says of a result, and what the tutor says.

use super::board::Board;
use super::cell::{Separator, table};
use super::lesson::Lesson;
use crate::base::refusal::Refusal;

/// The whole answer to the student of a row: feedback, marks, words.
#[must_use]
pub fn answer(board: &Board, lesson: &Lesson, nth: usize) -> Option<String> {
    let mut said = board.feedback(nth)?;
    let row = board.rows().get(nth)?;
    let Some(judged) = lesson.judged(row) else {
        return Some(said);
    };
    for criterion in lesson.marked() {
        if let Some(points) = judged.points.get(&criterion.id) {
            said.push_str(&format!(
                " {}: {points} of {}.",
                criterion.name, criterion.most
            ));
        }
    }
    if !judged.mark.is_empty() {
        said.push_str(&format!(" Mark: {}.", judged.mark));
    }
    if !judged.words.is_empty() {
        said.push_str(&format!(" {}", judged.words));
    }
    Some(said)
}

/// The answers to some rows, one below the other, each apart from the next by an empty line.
#[must_use]
pub fn as_text(board: &Board, lesson: &Lesson, rows: &[usize]) -> String {
    let answers = rows.iter().filter_map(|nth| answer(board, lesson, *nth));
    answers.collect::<Vec<_>>().join("\n\n")
}

/// The same as a table: whose it is, which test, the answer.
///
/// # Errors
/// A sentence if the table can't be put together.
pub fn as_table(
    board: &Board,
    lesson: &Lesson,
    rows: &[usize],
    by: Separator,
) -> Result<String, Refusal> {
    let heading = ["nickname", "test", "feedback"].map(str::to_owned).to_vec();
    let lines = rows.iter().filter_map(|nth| {
        let [nickname, test] = board.rows().get(*nth)?.whose();
        Some(vec![nickname, test, answer(board, lesson, *nth)?])
    });
    table(std::iter::once(heading).chain(lines), by)
}
