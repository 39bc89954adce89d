//! Why a code did not open.

/// Why a code did not open. Groups count from 1.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Unopened {
    /// Letters are missing.
    TooShort {
        /// Letters there are.
        letters: usize,
        /// The first group with fewer than four, if the groups were kept apart.
        group: Option<usize>,
    },
    /// There are letters too many.
    TooLong {
        /// Letters there are.
        letters: usize,
        /// The first group with more than four, if the groups were kept apart.
        group: Option<usize>,
    },
    /// A character that is in no code.
    BadLetter {
        /// The character.
        letter: char,
        /// The group it stands in.
        group: usize,
    },
    /// More letters are wrong or unread than can be mended.
    TooManyWrong,
    /// The letters of one group do not fit the others, which fit each other.
    WrongGroup(usize),
    /// One group is missing, which would stand here.
    MissingGroup(usize),
    /// The code was made by a later version of the format.
    FutureVersion(u8),
    /// The code names something that this version of the app does not know.
    Newer(&'static str),
    /// The letters hold but a field does not make sense.
    OutOfRange(&'static str),
}

impl std::error::Error for Unopened {}
