//! Who has sent what: repeats are counted once, and a correction takes the place of the first try.

use std::collections::{HashMap, HashSet};

use super::result::ClassResult;
use crate::code::find::FoundCode;
use crate::code::fish::SpeciesCode;
use crate::code::letters::Code;
use crate::code::sheet::Student;

/// A result, with what the same student sent before it for the same test.
#[derive(Clone, Debug)]
pub struct RollRow {
    /// The result that counts: the one of the latest day, and of these the one that came last.
    pub result: ClassResult,
    /// Those it replaces, in the order they came.
    pub earlier: Vec<ClassResult>,
}

/// A code that had come before.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Repeat {
    /// Line of the text it was repeated on, from 1.
    pub line: usize,
    /// The code.
    pub code: Code,
}

/// All the results of a class, in the order their first tries came.
#[derive(Clone, Debug, Default)]
pub struct Roll {
    rows: Vec<RollRow>,
    repeats: Vec<Repeat>,
    known: HashSet<Code>,
    places: HashMap<(Student, SpeciesCode), usize>,
}

impl Roll {
    /// The roll of what was found, in its order.
    #[must_use]
    pub fn of(found: impl IntoIterator<Item = FoundCode>) -> Self {
        let mut roll = Self::default();
        for found in found {
            roll.add(found);
        }
        roll
    }

    /// Adds one more code. A code that says no student is a row of its own.
    pub fn add(&mut self, found: FoundCode) {
        let FoundCode { line, opened } = found;
        if !self.known.insert(opened.code.clone()) {
            let code = opened.code;
            self.repeats.push(Repeat { line, code });
            return;
        }
        let result = ClassResult::of(opened);
        let whose = result
            .sheet
            .student
            .map(|student| (student, result.sheet.fish));
        let place = whose.and_then(|whose| self.places.get(&whose));
        if let Some(row) = place.and_then(|place| self.rows.get_mut(*place)) {
            row.correct(result);
            return;
        }
        if let Some(whose) = whose {
            self.places.insert(whose, self.rows.len());
        }
        self.rows.push(RollRow {
            result,
            earlier: Vec::new(),
        });
    }

    /// The results.
    #[must_use]
    pub fn rows(&self) -> &[RollRow] {
        &self.rows
    }

    /// Codes that came more than once, each time after the first.
    #[must_use]
    pub fn repeats(&self) -> &[Repeat] {
        &self.repeats
    }
}

impl RollRow {
    fn correct(&mut self, result: ClassResult) {
        if result.sheet.day < self.result.sheet.day {
            self.earlier.push(result);
        } else {
            let replaced = std::mem::replace(&mut self.result, result);
            self.earlier.push(replaced);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::code::day::Day;
    use crate::code::opening::open;
    use crate::code::sheet::{Nickname, Sheet, sample};
    use crate::trade::mass::Mass;

    fn found(line: usize, nickname: &str, test: u8, day: u16, ready_g: i64) -> FoundCode {
        let mut sheet = Sheet {
            student: Nickname::parse(nickname)
                .ok()
                .map(|nickname| Student { nickname, test }),
            day: Day::new(day).unwrap(),
            ..sample::full()
        };
        sheet.weights.ready = Mass::from_mg(ready_g * 1000);
        let code = Code::of(&sheet).unwrap().to_string();
        FoundCode {
            line,
            opened: open(&code).unwrap(),
        }
    }

    #[test]
    fn the_latest_counts_and_the_earlier_are_kept() {
        let roll = Roll::of([
            found(1, "TERN", 1, 100, 300),
            found(2, "GULL", 1, 100, 301),
            found(3, "TERN", 1, 100, 302), // corrected the same day
            found(4, "TERN", 1, 99, 303),  // an older one, found late
            found(5, "TERN", 2, 100, 304), // a second fish
            found(6, "", 1, 100, 305),
            found(7, "", 1, 100, 306),
            found(8, "TERN", 1, 100, 302), // sent twice
        ]);
        let ready = |result: &ClassResult| result.sheet.weights.ready.mg() / 1000;
        let rows: Vec<(i64, Vec<i64>)> = roll
            .rows()
            .iter()
            .map(|row| (ready(&row.result), row.earlier.iter().map(ready).collect()))
            .collect();
        assert_eq!(
            rows,
            [
                (302, vec![300, 303]),
                (301, vec![]),
                (304, vec![]),
                (305, vec![]),
                (306, vec![])
            ]
        );
        let lines: Vec<usize> = roll.repeats().iter().map(|repeat| repeat.line).collect();
        assert_eq!(lines, [8]);
    }
}
