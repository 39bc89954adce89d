//! Who has sent what: repeats are counted once, a correction takes the place of the first try, and where it may be another
//! fish or another student the tutor is asked.

use std::collections::HashMap;

use super::class_list::letters;
use super::differs;
use super::result::ClassResult;
use super::settled::{Apart, Ruling, Settled};
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
    /// Which of several with the same letters and number it is.
    pub apart: Apart,
    /// The letters of the codes that came after the first one and were taken for corrections of it.
    pub joined: Vec<String>,
}

/// A code that had come before.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Repeat {
    /// Line of the text it was repeated on, from 1.
    pub line: usize,
    /// The code.
    pub code: Code,
}

/// A row that may be a correction of another, or another fish: nobody but the tutor can tell.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Asked {
    /// The place of the row that came later.
    pub row: usize,
    /// The places of the rows it may correct.
    pub of: Vec<usize>,
}

/// All the results of a class, in the order their first tries came.
#[derive(Clone, Debug, Default)]
pub struct Roll {
    rows: Vec<RollRow>,
    repeats: Vec<Repeat>,
    asked: Vec<Asked>,
    /// The row that each code belongs to, by its letters.
    known: HashMap<String, usize>,
    places: HashMap<Student, Vec<usize>>,
    settled: HashMap<String, Ruling>,
}

impl Roll {
    /// A roll with nothing on it, and what the tutor answered.
    #[must_use]
    pub fn begin(settled: Vec<Settled>) -> Self {
        Self {
            settled: settled.into_iter().map(|one| (one.code, one.is)).collect(),
            ..Self::default()
        }
    }

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
        let letters = letters(&opened.code);
        if self.known.contains_key(&letters) {
            let code = opened.code;
            self.repeats.push(Repeat { line, code });
            return;
        }
        let result = ClassResult::of(opened);
        let Some(student) = result.sheet.student else {
            self.push(letters, result, Apart::First);
            return;
        };
        let all = self.places.get(&student).cloned().unwrap_or_default();
        let same = self.of_species(&all, result.sheet.fish);
        let one_fish = |place: &&usize| {
            let row = self.rows.get(**place);
            row.is_some_and(|row| row.all().any(|other| differs::is_one_fish(other, &result)))
        };
        let (joins, apart) = match self.settled.get(&letters) {
            Some(Ruling::Corrects(target)) if self.known.contains_key(target) => {
                (self.known.get(target).copied(), Apart::First)
            }
            Some(Ruling::AnotherFish) => (None, self.parted(&same, Apart::Fish)),
            Some(Ruling::AnotherStudent) => (None, self.parted(&same, Apart::Student)),
            Some(Ruling::Corrects(_)) | None => {
                match same.iter().find(one_fish) {
                    Some(place) => (Some(*place), Apart::First),
                    None => {
                        // The same weights with another species: which was put right is for the tutor to say.
                        let mut of = same.clone();
                        of.extend(
                            all.iter()
                                .filter(|place| !same.contains(place))
                                .find(one_fish),
                        );
                        if of.is_empty() {
                            (None, Apart::First)
                        } else {
                            let row = self.rows.len();
                            self.asked.push(Asked { row, of });
                            (None, Apart::Asked)
                        }
                    }
                }
            }
        };
        if let Some((place, row)) = joins.and_then(|place| Some((place, self.rows.get_mut(place)?)))
        {
            row.joined.push(letters.clone());
            row.correct(result);
            self.known.insert(letters, place);
            return;
        }
        self.places
            .entry(student)
            .or_default()
            .push(self.rows.len());
        self.push(letters, result, apart);
    }

    fn push(&mut self, letters: String, result: ClassResult, apart: Apart) {
        self.known.insert(letters, self.rows.len());
        self.rows.push(RollRow {
            result,
            earlier: Vec::new(),
            apart,
            joined: Vec::new(),
        });
    }

    fn of_species(&self, places: &[usize], fish: SpeciesCode) -> Vec<usize> {
        let of_species = |place: &usize| {
            let row = self.rows.get(*place);
            row.is_some_and(|row| row.result.sheet.fish == fish)
        };
        places.iter().copied().filter(of_species).collect()
    }

    /// One more beside the rows at `same`: the first of them is nobody's second.
    fn parted(&self, same: &[usize], apart: fn(u8) -> Apart) -> Apart {
        let kind = std::mem::discriminant(&apart(2));
        let rows = same.iter().filter_map(|place| self.rows.get(*place));
        let before = rows
            .filter(|row| std::mem::discriminant(&row.apart) == kind)
            .count();
        match same {
            [] => Apart::First,
            _ => apart(u8::try_from(before).map_or(u8::MAX, |before| before.saturating_add(2))),
        }
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

    /// What the tutor has to say.
    #[must_use]
    pub fn asked(&self) -> &[Asked] {
        &self.asked
    }

    /// The place of the row that a code belongs to.
    #[must_use]
    pub fn row_of(&self, letters: &str) -> Option<usize> {
        self.known.get(letters).copied()
    }
}

impl RollRow {
    /// Whose it is and which test, told apart from another with the same letters: `TERN 1`, `TERN B 1`, `TERN 1B`.
    #[must_use]
    pub fn student(&self) -> String {
        match self.result.sheet.student {
            Some(_) => {
                let [nickname, test] = self.whose();
                format!("{nickname} {test}")
            }
            None => self.result.student(),
        }
    }

    /// The two halves of it.
    #[must_use]
    pub fn whose(&self) -> [String; 2] {
        let Some(student) = self.result.sheet.student else {
            return [String::new(), String::new()];
        };
        let [of_student, of_fish] = self.apart.marks();
        let of_student = of_student.map(|mark| format!(" {mark}"));
        [
            format!("{}{}", student.nickname, of_student.unwrap_or_default()),
            format!(
                "{}{}",
                student.test,
                of_fish.map_or_else(String::new, String::from)
            ),
        ]
    }

    /// Every try.
    pub fn all(&self) -> impl Iterator<Item = &ClassResult> {
        self.earlier.iter().chain([&self.result])
    }

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
    use crate::trade::breakdown::Weights;
    use crate::trade::mass::Mass;

    fn coded(nickname: &str, test: u8, day: u16, grams: [i64; 3]) -> Sheet {
        let [delivered, off_bone, ready] = grams.map(|g| Mass::from_mg(g * 1000));
        Sheet {
            student: Nickname::parse(nickname)
                .ok()
                .map(|nickname| Student { nickname, test }),
            day: Day::new(day).unwrap(),
            weights: Weights {
                delivered,
                off_bone: Some(off_bone),
                ready,
            },
            ..sample::full()
        }
    }

    fn found(line: usize, sheet: &Sheet) -> FoundCode {
        let code = Code::of(sheet).unwrap().to_string();
        FoundCode {
            line,
            opened: open(&code).unwrap(),
        }
    }

    fn ready(result: &ClassResult) -> i64 {
        result.sheet.weights.ready.mg() / 1000
    }

    #[test]
    fn the_latest_counts_and_the_earlier_are_kept() {
        let one = |nickname, test, day, ready| coded(nickname, test, day, [648, 336, ready]);
        let sheets = [
            one("TERN", 1, 100, 300),
            one("GULL", 1, 100, 301),
            one("TERN", 1, 100, 302), // corrected the same day
            one("TERN", 1, 99, 303),  // an older one, found late
            one("TERN", 2, 100, 304), // a second fish
            one("", 1, 100, 305),
            one("", 1, 100, 306),
            one("TERN", 1, 100, 302), // sent twice
        ];
        let roll = Roll::of((1..).zip(&sheets).map(|(line, sheet)| found(line, sheet)));
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
        assert_eq!(roll.asked(), []);
        assert_eq!(roll.rows()[0].joined.len(), 2);
    }

    #[test]
    fn other_weights_are_asked_about_and_the_answer_is_heard() {
        let sheets = [
            coded("TERN", 1, 100, [648, 336, 302]),
            coded("TERN", 1, 100, [702, 366, 326]),
            coded("TERN", 1, 100, [702, 366, 330]), // corrects the one before it
        ];
        let letters_of = |nth: usize| letters(&Code::of(&sheets[nth]).unwrap());
        let settled = |is: Ruling| {
            let code = letters_of(1);
            let mut roll = Roll::begin(vec![Settled { code, is }]);
            for (line, sheet) in (1..).zip(&sheets) {
                roll.add(found(line, sheet));
            }
            let rows = roll.rows().iter();
            let rows: Vec<String> = rows
                .map(|row| format!("{} {}", row.student(), ready(&row.result)))
                .collect();
            (rows, roll.asked().to_vec())
        };
        let asked = Asked {
            row: 1,
            of: vec![0],
        };
        for (answer, rows, asked) in [
            (
                Ruling::Corrects("gone".into()),
                vec!["TERN 1 302", "TERN 1? 330"],
                vec![asked],
            ),
            (Ruling::Corrects(letters_of(0)), vec!["TERN 1 330"], vec![]),
            (
                Ruling::AnotherFish,
                vec!["TERN 1 302", "TERN 1B 330"],
                vec![],
            ),
            (
                Ruling::AnotherStudent,
                vec!["TERN 1 302", "TERN B 1 330"],
                vec![],
            ),
        ] {
            assert_eq!(
                settled(answer.clone()),
                (rows.iter().map(ToString::to_string).collect(), asked),
                "{answer:?}"
            );
        }
    }

    /// One weight alone is the same in many a fish; the fish chosen wrong has all of them.
    #[test]
    fn a_correction_is_known_by_two_weights_and_another_species_is_asked_about() {
        let first = coded("TERN", 1, 100, [648, 336, 302]);
        let mut bass = first.clone();
        bass.fish = SpeciesCode::of_key("sea_bass");
        let mut dearer = first.clone();
        dearer.price = None;
        let cases = [
            (coded("TERN", 1, 100, [648, 340, 310]), 2, 1),
            (coded("TERN", 1, 100, [660, 336, 302]), 1, 0),
            (bass, 2, 1),
            (dearer, 1, 0),
            (coded("GULL", 1, 100, [660, 330, 300]), 2, 0),
        ];
        for (second, rows, asked) in cases {
            let roll = Roll::of([found(1, &first), found(2, &second)]);
            assert_eq!(
                (roll.rows().len(), roll.asked().len()),
                (rows, asked),
                "{second:?}"
            );
            let [one, other] =
                [&first, &second].map(|sheet| ClassResult::of(found(1, sheet).opened));
            assert!(!differs::told(&one, &other).is_empty());
        }
        let [one, other] = [[648, 336, 302], [702, 366, 302]]
            .map(|grams| ClassResult::of(found(1, &coded("TERN", 1, 100, grams)).opened));
        assert_eq!(
            differs::told(&one, &other),
            "delivered 648 g, then 702 g; off the bone 336 g, then 366 g; fish, form and price the same"
        );
    }
}
