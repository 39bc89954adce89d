//! What a tutor answered where one student seems to have sent two results for one test.

use serde::{Deserialize, Serialize};

/// The answer to 'A correction, or another fish?', kept with the class under the letters of the code that came later.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Settled {
    /// The letters of the code that was asked about.
    pub code: String,
    /// What it is.
    pub is: Ruling,
}

/// What a later result is.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Ruling {
    /// It takes the place of the result with these letters.
    Corrects(String),
    /// It is another fish of the same student.
    AnotherFish,
    /// It is another student's, with the same letters.
    AnotherStudent,
}

/// Which of several with the same letters and number a result is, as the tutor parted them.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Apart {
    /// The first of them.
    #[default]
    First,
    /// Another fish: the second is 2.
    Fish(u8),
    /// Another student: the second is 2.
    Student(u8),
    /// Nobody has said yet.
    Asked,
}

impl Apart {
    /// The letters that tell it apart: one for the student, one for the fish; `B` for the second.
    #[must_use]
    pub fn marks(self) -> [Option<char>; 2] {
        let letter = |nth: u8| {
            ('A'..='Z')
                .nth(usize::from(nth.saturating_sub(1)))
                .or(Some('Z'))
        };
        match self {
            Self::First => [None, None],
            Self::Asked => [None, Some('?')],
            Self::Fish(nth) => [None, letter(nth)],
            Self::Student(nth) => [letter(nth), None],
        }
    }
}
