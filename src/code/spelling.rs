//! The words a code is said with, taken down and read again as letters.

use super::alphabet::{self, LETTERS};

/// Other spellings of the words that the app shows, and the words of letters that no code has: whoever reads
/// a nought as O says Oscar. Common practice, no source.
const ALSO: [(&str, char); 11] = [
    ("alpha", 'A'),
    ("juliet", 'J'),
    ("whisky", 'W'),
    ("xray", 'X'),
    ("nought", '0'),
    ("naught", '0'),
    ("niner", '9'),
    ("oscar", '0'),
    ("india", '1'),
    ("lima", '1'),
    ("quebeck", 'Q'),
];

/// Words between the letters of a code that is dictated, and before the number of a group.
const BETWEEN: [&str; 16] = [
    "group", "groups", "grp", "block", "part", "number", "no", "nr", "dash", "hyphen", "minus",
    "space", "and", "then", "next", "capital",
];

/// The value of the letter that a word stands for.
pub(super) fn heard(word: &str) -> Option<u8> {
    let known = |value: &u8| {
        let letter = alphabet::letter(*value);
        alphabet::word(letter).eq_ignore_ascii_case(word)
    };
    if let Some(value) = (0..).take(LETTERS.len()).find(known) {
        return Some(value);
    }
    let (_, letter) = ALSO
        .iter()
        .find(|(also, _)| also.eq_ignore_ascii_case(word))?;
    match alphabet::read(*letter) {
        alphabet::Read::Letter(value) => Some(value),
        _ => None,
    }
}

/// Whether a word only stands between groups, or before the number of one.
pub(super) fn is_between(word: &str) -> bool {
    BETWEEN.iter().any(|known| known.eq_ignore_ascii_case(word))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_word_that_is_shown_is_read_again() {
        for value in (0..32).filter(|value| alphabet::letter(*value) != 'X') {
            let word = alphabet::word(alphabet::letter(value));
            for written in [word.to_owned(), word.to_lowercase(), word.to_uppercase()] {
                assert_eq!(heard(&written), Some(value), "{written}");
            }
        }
        for (word, value) in [
            ("alpha", Some(10)),
            ("Oscar", Some(0)),
            ("xray", Some(29)),
            ("bream", None),
        ] {
            assert_eq!(heard(word), value, "{word}");
        }
        assert!(is_between("Group") && !is_between("bream"));
    }
}
