//! What a tutor keeps of a class beside its codes: who is expected, who was answered, what is marked, marks and words.
//!
//! Nothing is taken away without a way back: a nickname or a criterion that is taken off is set aside with its marks.

use std::collections::BTreeMap;

use serde::{Deserialize, Serialize};

use super::class_list::letters;
use super::refusals::NoLesson;
use super::roll::RollRow;
use crate::base::refusal::Refusal;
use crate::base::text::short;
use crate::code::sheet::Nickname;
use crate::trade::figure;

/// The most nicknames of a class.
pub const MOST_EXPECTED: usize = 500;
/// The most criteria of a class.
pub const MOST_CRITERIA: usize = 12;
/// The longest name of a criterion, in letters.
const LONGEST_NAME: usize = 60;
/// The longest mark, in letters.
const LONGEST_MARK: usize = 20;

/// What a tutor keeps of a class beside its codes.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Lesson {
    /// The nicknames that are expected to send.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub expected: Vec<Expected>,
    /// The letters of the codes whose students were answered.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub answered: Vec<String>,
    /// What is marked.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub criteria: Vec<Criterion>,
    /// Marks and words.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub judged: Vec<Judged>,
}

/// A nickname that is expected to send.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Expected {
    /// One to four letters.
    pub nickname: String,
    /// Whether it was taken off the roster.
    #[serde(default)]
    pub gone: bool,
}

/// What the tutor marks, in the tutor's words.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Criterion {
    /// Its identity.
    pub id: String,
    /// What it is called.
    pub name: String,
    /// The most points for it.
    pub most: u16,
    /// Whether it was taken off.
    #[serde(default)]
    pub gone: bool,
}

/// What the tutor says of one result.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Judged {
    /// The letters of one of its codes.
    pub code: String,
    /// The mark as a whole, in whatever way the school marks.
    #[serde(default)]
    pub mark: String,
    /// Words to the student.
    #[serde(default)]
    pub words: String,
    /// Points by the identity of the criterion, as plain figures.
    #[serde(default, skip_serializing_if = "BTreeMap::is_empty")]
    pub points: BTreeMap<String, String>,
}

/// What a tutor does beside the codes.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum LessonAction {
    /// These nicknames are expected, or expected again.
    Expect(Vec<String>),
    /// This one is not.
    Unexpect(String),
    /// The students of these codes were answered.
    Answer(Vec<String>),
    /// They were not, after all.
    Unanswer(Vec<String>),
    /// A criterion is marked, or marked again; known by its identity.
    Mark(Criterion),
    /// It is not.
    Unmark(String),
    /// Something was said of the result of a code.
    Judge(String, TutorSays),
}

/// One field of what is said of a result.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum TutorSays {
    /// The mark as a whole.
    Whole(String),
    /// Words to the student.
    Words(String),
    /// Points for the criterion of an identity.
    Points(String, String),
}

impl Lesson {
    /// The lesson after an action.
    ///
    /// # Errors
    /// The sentence for what can't be taken.
    pub fn after(&self, action: &LessonAction) -> Result<Self, Refusal> {
        let mut next = self.clone();
        match action {
            LessonAction::Expect(nicknames) => next.expect(nicknames)?,
            LessonAction::Unexpect(nickname) => {
                let found = next.expected.iter_mut();
                for one in found.filter(|one| one.nickname == *nickname) {
                    one.gone = true;
                }
            }
            LessonAction::Answer(codes) => {
                for code in codes {
                    if !next.answered.contains(code) {
                        next.answered.push(code.clone());
                    }
                }
            }
            LessonAction::Unanswer(codes) => next.answered.retain(|code| !codes.contains(code)),
            LessonAction::Mark(criterion) => next.mark(criterion)?,
            LessonAction::Unmark(id) => {
                for one in next.criteria.iter_mut().filter(|one| one.id == *id) {
                    one.gone = true;
                }
            }
            LessonAction::Judge(code, judgement) => next.judge(code, judgement)?,
        }
        Ok(next)
    }

    /// Whether nothing was said.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        *self == Self::default()
    }

    /// The criteria that are marked.
    pub fn marked(&self) -> impl Iterator<Item = &Criterion> {
        self.criteria.iter().filter(|one| !one.gone)
    }

    /// What was said of a row, under whichever of its codes it was said.
    #[must_use]
    pub fn judged(&self, row: &RollRow) -> Option<&Judged> {
        if self.judged.is_empty() {
            return None;
        }
        let own: Vec<String> = row.all().map(|result| letters(&result.code)).collect();
        self.judged
            .iter()
            .rev()
            .find(|judged| own.contains(&judged.code))
    }

    /// Whether the student of a row was answered since the result that counts came.
    #[must_use]
    pub fn is_answered(&self, row: &RollRow) -> bool {
        self.answered.contains(&letters(&row.result.code))
    }

    fn expect(&mut self, nicknames: &[String]) -> Result<(), Refusal> {
        for nickname in nicknames {
            let nickname = Nickname::parse(nickname)?.to_string();
            match (self.expected.iter_mut()).find(|one| one.nickname == nickname) {
                Some(known) => known.gone = false,
                None => self.expected.push(Expected {
                    nickname,
                    gone: false,
                }),
            }
        }
        if self.expected.len() > MOST_EXPECTED {
            return Err(NoLesson::FullRoster.into());
        }
        Ok(())
    }

    fn mark(&mut self, criterion: &Criterion) -> Result<(), Refusal> {
        let name = criterion.name.trim();
        match name.chars().count() {
            0 => return Err(NoLesson::UnnamedCriterion.into()),
            1..=LONGEST_NAME => {}
            _ => return Err(NoLesson::LongCriterion.into()),
        }
        if criterion.most == 0 || criterion.most > 100 {
            return Err(NoLesson::MostPoints.into());
        }
        let named = Criterion {
            name: name.to_owned(),
            gone: false,
            ..criterion.clone()
        };
        match self.criteria.iter_mut().find(|one| one.id == criterion.id) {
            Some(known) => *known = named,
            None => self.criteria.push(named),
        }
        if self.marked().count() > MOST_CRITERIA {
            return Err(NoLesson::FullCriteria.into());
        }
        Ok(())
    }

    fn judge(&mut self, code: &str, judgement: &TutorSays) -> Result<(), Refusal> {
        let nth = self.judged.iter().position(|one| one.code == code);
        let mut judged = nth.and_then(|nth| self.judged.get(nth)).cloned();
        let judged = judged.get_or_insert_with(|| Judged {
            code: code.to_owned(),
            ..Judged::default()
        });
        match judgement {
            TutorSays::Whole(mark) if mark.trim().chars().count() > LONGEST_MARK => {
                return Err(NoLesson::LongMark.into());
            }
            TutorSays::Whole(mark) => mark.trim().clone_into(&mut judged.mark),
            TutorSays::Words(words) => judged.words = short(words.trim())?,
            TutorSays::Points(id, typed) => {
                let most = self.criteria.iter().find(|one| one.id == *id);
                let most = most.map_or(0, |criterion| criterion.most);
                match pointed(typed, most)? {
                    Some(points) => judged.points.insert(id.clone(), points),
                    None => judged.points.remove(id),
                };
            }
        }
        let judged = judged.clone();
        match nth.and_then(|nth| self.judged.get_mut(nth)) {
            Some(known) => *known = judged,
            None => self.judged.push(judged),
        }
        Ok(())
    }
}

/// Points as they were typed, with a point or a comma; nothing where nothing is typed.
fn pointed(typed: &str, most: u16) -> Result<Option<String>, Refusal> {
    if typed.trim().is_empty() {
        return Ok(None);
    }
    let points = figure::read(typed, 2).map_err(|_| NoLesson::Points(most))?;
    let within = rust_decimal::Decimal::ZERO..=most.into();
    if !within.contains(&points) {
        return Err(NoLesson::Points(most).into());
    }
    Ok(Some(points.normalize().to_string()))
}

impl Judged {
    /// The points given for some criteria, and how many there are for these.
    #[must_use]
    pub fn sum<'a>(
        &self,
        criteria: impl IntoIterator<Item = &'a Criterion>,
    ) -> Option<(rust_decimal::Decimal, u32)> {
        let given = criteria.into_iter().filter_map(|criterion| {
            let points = self.points.get(&criterion.id)?.parse().ok()?;
            Some((points, u32::from(criterion.most)))
        });
        given.reduce(|(points, most), (more, of): (rust_decimal::Decimal, u32)| {
            (points + more, most + of)
        })
    }
}

/// The nicknames in a text, whatever stands between them, and what is none.
#[must_use]
pub fn nicknames(text: &str) -> (Vec<String>, Vec<String>) {
    let words = text.split(|c: char| c.is_whitespace() || [',', ';', '/'].contains(&c));
    let words = words.map(|word| word.trim_matches(|c: char| c.is_ascii_punctuation()));
    let words = words.filter(|word| !word.is_empty() && !word.chars().all(|c| c.is_ascii_digit()));
    let (good, bad): (Vec<&str>, Vec<&str>) = words.partition(|word| Nickname::parse(word).is_ok());
    let owned = |words: Vec<&str>| words.into_iter().map(str::to_owned).collect();
    (owned(good), owned(bad))
}
