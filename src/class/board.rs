//! The tutor's board: a class worked out from its codes, ready to be sorted, read and answered.

use std::cmp::Ordering;

use super::feedback::feedback;
use super::flags::{self, Flag};
use super::group::{ClassGroup, ClassSplit, Measure, groups};
use super::roll::{Roll, RollRow};
use crate::code::find::FoundCode;
use crate::code::opening::open;
use crate::code::unopened::Unopened;
use crate::trade::money::Currency;

/// A class worked out.
#[derive(Clone, Debug, Default)]
pub struct Board {
    roll: Roll,
    flags: Vec<Vec<Flag>>,
    unopened: Vec<(String, Unopened)>,
}

/// What the rows are sorted by; those without a value stand last.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Sort {
    /// As the codes came.
    #[default]
    Came,
    /// By nickname and test.
    Student,
    /// By the measure that is shown.
    Value,
    /// Those to look at twice first.
    Flags,
}

impl Board {
    /// Opens one more code and works its result out. What does not open is listed with the reason.
    pub fn take(&mut self, line: usize, code: &str) {
        match open(code) {
            Ok(opened) => self.roll.add(FoundCode { line, opened }),
            Err(why) => self.unopened.push((code.to_owned(), why)),
        }
    }

    /// Compares the results with one another: called when all codes are there.
    pub fn judge(&mut self) {
        self.flags = flags::flags(self.roll.rows());
    }

    /// The results that count.
    #[must_use]
    pub fn rows(&self) -> &[RollRow] {
        self.roll.rows()
    }

    /// The flags of each row, in the rows' order.
    #[must_use]
    pub fn flags(&self) -> &[Vec<Flag>] {
        &self.flags
    }

    /// The flags of one row.
    #[must_use]
    pub fn flags_of(&self, nth: usize) -> &[Flag] {
        self.flags.get(nth).map_or(&[], Vec::as_slice)
    }

    /// What does not open, with the reason.
    #[must_use]
    pub fn unopened(&self) -> &[(String, Unopened)] {
        &self.unopened
    }

    /// The rows that are flagged, by their place.
    pub fn flagged(&self) -> impl Iterator<Item = (usize, &RollRow, &[Flag])> {
        self.rows()
            .iter()
            .enumerate()
            .map(|(nth, row)| (nth, row, self.flags_of(nth)))
            .filter(|(.., flags)| !flags.is_empty())
    }

    /// The currencies paid in, the one of most results first.
    #[must_use]
    pub fn currencies(&self) -> Vec<Currency> {
        let paid = |currency| {
            let prices = self.rows().iter().filter_map(|row| row.result.sheet.price);
            prices.filter(|price| price.currency() == currency).count()
        };
        let mut counted: Vec<(usize, Currency)> = Currency::ALL
            .into_iter()
            .map(|currency| (paid(currency), currency))
            .filter(|(count, _)| *count > 0)
            .collect();
        counted.sort_by_key(|(count, _)| std::cmp::Reverse(*count));
        counted.into_iter().map(|(_, currency)| currency).collect()
    }

    /// The places of the rows in order. Rows that sort alike stay as they came.
    #[must_use]
    pub fn order(&self, sort: Sort, down: bool, measure: Measure) -> Vec<usize> {
        let rows = self.rows();
        let mut keyed: Vec<(usize, Option<f64>, String)> = rows
            .iter()
            .enumerate()
            .map(|(nth, row)| {
                #[expect(clippy::cast_precision_loss, reason = "a result has a few flags")]
                let value = match sort {
                    Sort::Came | Sort::Student => None,
                    Sort::Value => measure.of(&row.result),
                    Sort::Flags => Some(-(self.flags_of(nth).len() as f64)),
                };
                let name = match (sort, row.result.sheet.student) {
                    (Sort::Student, Some(_)) => row.result.student(),
                    _ => String::new(),
                };
                (nth, value, name)
            })
            .collect();
        keyed.sort_by(|(_, a, first), (_, b, second)| {
            let turned = |order: Ordering| if down { order.reverse() } else { order };
            let values = match (a, b) {
                (Some(a), Some(b)) => turned(a.total_cmp(b)),
                (a, b) => a.is_none().cmp(&b.is_none()),
            };
            let names = match (first.is_empty(), second.is_empty()) {
                (false, false) => turned(first.cmp(second)),
                (first, second) => first.cmp(&second),
            };
            values.then(names)
        });
        let order = keyed.into_iter().map(|(nth, ..)| nth);
        match (sort, down) {
            (Sort::Came, true) => order.rev().collect(),
            _ => order.collect(),
        }
    }

    /// The class in groups.
    #[must_use]
    pub fn groups(&self, by: ClassSplit) -> Vec<ClassGroup<'_>> {
        groups(self.rows(), by)
    }

    /// What to send back to the student of one row, measured against the same species and form.
    #[must_use]
    pub fn feedback(&self, nth: usize) -> Option<String> {
        let result = &self.rows().get(nth)?.result;
        let label = ClassSplit::SpeciesAndForm.label(result);
        let class = self
            .rows()
            .iter()
            .map(|row| &row.result)
            .filter(|other| ClassSplit::SpeciesAndForm.label(other) == label);
        Some(feedback(result, self.flags_of(nth), class))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn thirty() -> Board {
        let mut board = Board::default();
        let text = include_str!("../../tests/vectors/class_thirty.txt");
        for (line, code) in (1..).zip(text.lines()) {
            board.take(line, code.split_once(": ").unwrap().1);
        }
        board.take(31, "no code");
        board.judge();
        board
    }

    fn students(board: &Board, order: &[usize]) -> Vec<String> {
        let rows = order.iter().map(|nth| &board.rows()[*nth]);
        rows.map(|row| row.result.student()).collect()
    }

    #[test]
    fn rows_sort_by_what_is_asked_and_the_unmeasured_stand_last() {
        let board = thirty();
        for (sort, down, first, last) in [
            (Sort::Came, false, "TERN 1", "SWAN 2"),
            (Sort::Came, true, "SWAN 2", "TERN 1"),
            (Sort::Student, false, "COOT 1", "WREN 1"),
            (Sort::Student, true, "WREN 1", "COOT 1"),
            (Sort::Value, false, "WREN 1", "COOT 1"),
            (Sort::Value, true, "TERN 1", "COOT 1"),
            (Sort::Flags, false, "COOT 1", "SWAN 2"),
        ] {
            let order = board.order(sort, down, Measure::Yield);
            assert_eq!(order.len(), 27);
            let students = students(&board, &order);
            let ends = (students.first().unwrap(), students.last().unwrap());
            assert_eq!(
                ends,
                (&first.to_owned(), &last.to_owned()),
                "{sort:?} {down}"
            );
        }
        let flagged = board.order(Sort::Flags, false, Measure::Yield);
        let four = students(&board, &flagged[..4]);
        assert_eq!(four, ["COOT 1", "RUFF 1", "SMEW 1", "SORA 1"]);
    }

    #[test]
    fn the_board_says_what_it_holds() {
        let board = thirty();
        assert_eq!(board.flagged().count(), 4);
        assert_eq!(board.currencies(), [Currency::Eur]);
        assert_eq!(board.unopened().len(), 1);
        assert_eq!(board.unopened()[0].0, "no code");
        let (coot, ..) = board.flagged().next().unwrap();
        assert!(board.feedback(coot).unwrap().starts_with("COOT 1"));
        assert_eq!(board.feedback(99), None);
    }
}
