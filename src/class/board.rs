//! The tutor's board: a class worked out from its codes, ready to be sorted, read and answered.

use std::cmp::Ordering;
use std::collections::BTreeMap;

use super::differs;
use super::feedback::feedback;
use super::flags::{self, Flag};
use super::group::{ClassSplit, Measure};
use super::result::ClassResult;
use super::roll::{Asked, Roll, RollRow};
use super::settled::Settled;
use super::why::StageLosses;
use crate::code::find::FoundCode;
use crate::code::opening::open;
use crate::code::unopened::Unopened;
use crate::trade::money::Currency;

/// A class worked out.
#[derive(Clone, Debug, Default)]
pub struct Board {
    roll: Roll,
    flags: Vec<Vec<Flag>>,
    lots: Vec<Lot>,
    unopened: Vec<(String, Unopened)>,
}

/// The results of one species and form: only these are set side by side.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Lot {
    /// What it is of.
    pub key: LotKey,
    /// The fish and its form, in words.
    pub label: String,
    /// The places of its rows.
    pub rows: Vec<usize>,
}

/// Which species and form a lot is of: their numbers, in the order of the lists.
pub type LotKey = (u8, usize);

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
    /// A board with nothing on it, and what the tutor answered.
    #[must_use]
    pub fn begin(settled: Vec<Settled>) -> Self {
        Self {
            roll: Roll::begin(settled),
            ..Self::default()
        }
    }

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
        let by = ClassSplit::SpeciesAndForm;
        let mut lots: BTreeMap<LotKey, Lot> = BTreeMap::new();
        for (nth, row) in self.roll.rows().iter().enumerate() {
            let key = by.key(&row.result);
            let lot = lots.entry(key).or_insert_with(|| Lot {
                key,
                label: by.label(&row.result),
                rows: Vec::new(),
            });
            lot.rows.push(nth);
        }
        self.lots = lots.into_values().collect();
        self.lots
            .sort_by_key(|lot| std::cmp::Reverse(lot.rows.len()));
    }

    /// The class by species and form, those with most results first.
    #[must_use]
    pub fn lots(&self) -> &[Lot] {
        &self.lots
    }

    /// The lot that was chosen, if it still has a result; else the one with most.
    #[must_use]
    pub fn lot(&self, chosen: Option<LotKey>) -> Option<&Lot> {
        let chosen = self.lots.iter().find(|lot| Some(lot.key) == chosen);
        chosen.or_else(|| self.lots.first())
    }

    /// The results of some rows.
    pub fn results<'a>(&'a self, rows: &'a [usize]) -> impl Iterator<Item = &'a ClassResult> {
        let row = |nth: &usize| self.rows().get(*nth);
        rows.iter().filter_map(row).map(|row| &row.result)
    }

    /// What the tutor has to say: whether a row corrects another.
    #[must_use]
    pub fn asked(&self) -> &[Asked] {
        self.roll.asked()
    }

    /// The row that a code belongs to.
    #[must_use]
    pub fn row_of(&self, letters: &str) -> Option<&RollRow> {
        self.rows().get(self.roll.row_of(letters)?)
    }

    /// What is different between two rows, and what is the same.
    #[must_use]
    pub fn differs(&self, from: usize, to: usize) -> Option<String> {
        let [from, to] = [self.rows().get(from)?, self.rows().get(to)?];
        Some(differs::told(&from.result, &to.result))
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

    /// Those of some rows that are flagged, with their place.
    pub fn flagged<'a>(&'a self, rows: &'a [usize]) -> impl Iterator<Item = (usize, &'a RollRow)> {
        let flagged = rows.iter().filter(|nth| !self.flags_of(**nth).is_empty());
        flagged.filter_map(|nth| Some((*nth, self.rows().get(*nth)?)))
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

    /// The places of some rows in order. Rows that sort alike stay as they came.
    #[must_use]
    pub fn order(&self, rows: &[usize], sort: Sort, down: bool, measure: Measure) -> Vec<usize> {
        let mut keyed: Vec<(usize, Option<f64>, String)> = rows
            .iter()
            .filter_map(|nth| Some((*nth, self.rows().get(*nth)?)))
            .map(|(nth, row)| {
                #[expect(clippy::cast_precision_loss, reason = "a result has a few flags")]
                let value = match sort {
                    Sort::Came | Sort::Student => None,
                    Sort::Value => measure.of(&row.result),
                    Sort::Flags => Some(-(self.flags_of(nth).len() as f64)),
                };
                let name = match (sort, row.result.sheet.student) {
                    (Sort::Student, Some(_)) => row.student(),
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

    /// What to send back to the student of one row, measured against the same species and form.
    #[must_use]
    pub fn feedback(&self, nth: usize) -> Option<String> {
        let result = &self.rows().get(nth)?.result;
        Some(feedback(
            result,
            self.flags_of(nth),
            self.results(self.beside(nth)?),
        ))
    }

    /// What came off at each stage of one row beside its class, where that is large enough to say.
    #[must_use]
    pub fn stages(&self, nth: usize) -> Option<StageLosses> {
        let result = &self.rows().get(nth)?.result;
        StageLosses::of(result, self.results(self.beside(nth)?))
    }

    /// The rows of the same species and form as one, itself among them.
    fn beside(&self, nth: usize) -> Option<&[usize]> {
        let lot = self.lots.iter().find(|lot| lot.rows.contains(&nth))?;
        Some(&lot.rows)
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
        rows.map(RollRow::student).collect()
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
            (Sort::Value, true, "HAWK 1", "COOT 1"),
            (Sort::Flags, false, "COOT 1", "SWAN 2"),
        ] {
            let order = board.order(&board.lots()[0].rows, sort, down, Measure::Yield);
            assert_eq!(order.len(), 25);
            let students = students(&board, &order);
            let ends = (students.first().unwrap(), students.last().unwrap());
            assert_eq!(
                ends,
                (&first.to_owned(), &last.to_owned()),
                "{sort:?} {down}"
            );
        }
        let flagged = board.order(&board.lots()[0].rows, Sort::Flags, false, Measure::Yield);
        let four = students(&board, &flagged[..4]);
        assert_eq!(four, ["COOT 1", "RUFF 1", "SMEW 1", "SORA 1"]);
    }

    #[test]
    fn the_board_says_what_it_holds() {
        let board = thirty();
        let lots: Vec<(&str, usize)> = (board.lots().iter())
            .map(|lot| (lot.label.as_str(), lot.rows.len()))
            .collect();
        assert_eq!(
            lots,
            [
                ("Gilthead bream, gutted and scaled", 25),
                ("Rainbow trout, gutted", 1),
                ("Mackerel, whole", 1),
            ]
        );
        let bream = board.lot(None).unwrap();
        assert_eq!(board.lot(Some((99, 0))), Some(bream));
        assert_eq!(board.lot(Some(board.lots()[2].key)), board.lots().get(2));
        assert_eq!(board.flagged(&bream.rows).count(), 4);
        assert_eq!(board.currencies(), [Currency::Eur]);
        assert_eq!(board.unopened().len(), 1);
        assert_eq!(board.unopened()[0].0, "no code");
        let (coot, _) = board.flagged(&bream.rows).next().unwrap();
        assert!(board.feedback(coot).unwrap().starts_with("COOT 1"));
        assert_eq!(board.feedback(99), None);
    }
}
