//! The thirty-two letters of a code: written in groups of four, heard, typed and read back.
//!
//! The alphabet and what it forgives are Douglas Crockford's "Base 32" (2019): digits and capital letters
//! without I, L, O and U; either case; O stands for 0, I and L stand for 1; hyphens are ignored. Its
//! optional check symbol is not used: the last eight letters of a code do that work (see `mend`).
//!
//! Two things are added for a code that arrives by voice: `?` stands for a letter that could not be read,
//! and so does U, since no code is ever written with one.

/// The letter of each value, 0 to 31.
pub const LETTERS: &[u8; 32] = b"0123456789ABCDEFGHJKMNPQRSTVWXYZ";

/// Letters read aloud in one breath.
pub const GROUP: usize = 4;

/// What one character of a typed code stands for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Read {
    /// A letter of the alphabet, by its value (0 to 31).
    Letter(u8),
    /// A letter that could not be read or heard.
    Unread,
    /// Space, hyphen or dash: it only parts groups.
    Gap,
    /// Nothing that belongs in a code.
    Foreign,
}

/// Reads one character of a typed or pasted code.
#[must_use]
pub fn read(typed: char) -> Read {
    match typed.to_ascii_uppercase() {
        'O' => Read::Letter(0),
        'I' | 'L' => Read::Letter(1),
        '?' | 'U' => Read::Unread,
        '-' | '_' => Read::Gap,
        letter if letter.is_ascii_alphanumeric() => value(letter),
        other if other.is_whitespace() || is_dash(other) || is_invisible(other) => Read::Gap,
        _ => Read::Foreign,
    }
}

fn value(letter: char) -> Read {
    (0u8..)
        .zip(LETTERS)
        .find(|(_, known)| char::from(**known) == letter)
        .map_or(Read::Foreign, |(value, _)| Read::Letter(value))
}

/// Dashes a phone's keyboard puts in place of a typed hyphen.
pub(super) fn is_dash(typed: char) -> bool {
    matches!(
        typed,
        '\u{2010}'..='\u{2015}' | '\u{2212}' | '\u{fe63}' | '\u{ff0d}'
    )
}

/// Characters of no width that a chat or a mail slips in.
pub(super) fn is_invisible(typed: char) -> bool {
    matches!(
        typed,
        '\u{ad}' | '\u{200b}'..='\u{200f}' | '\u{2060}' | '\u{feff}'
    )
}

/// The letter written for a value; only the low five bits count.
#[must_use]
pub fn letter(value: u8) -> char {
    LETTERS
        .get(usize::from(value & 31))
        .map_or('0', |byte| char::from(*byte))
}

/// The values as letters in groups of four, parted by hyphens.
#[must_use]
pub fn grouped(values: &[u8]) -> String {
    let groups: Vec<String> = values
        .chunks(GROUP)
        .map(|group| group.iter().copied().map(letter).collect())
        .collect();
    groups.join("-")
}

/// The values as words to say, one string a group, letters by the radiotelephony spelling alphabet
/// (Regulation (EU) No 923/2012, SERA.14020, table S14-2), digits by their English names.
#[must_use]
pub fn spoken(values: &[u8]) -> Vec<String> {
    values
        .chunks(GROUP)
        .map(|group| {
            let words: Vec<&str> = group.iter().map(|value| word(letter(*value))).collect();
            words.join(" ")
        })
        .collect()
}

pub(super) fn word(letter: char) -> &'static str {
    match letter {
        '0' => "zero",
        '1' => "one",
        '2' => "two",
        '3' => "three",
        '4' => "four",
        '5' => "five",
        '6' => "six",
        '7' => "seven",
        '8' => "eight",
        '9' => "nine",
        'A' => "Alfa",
        'B' => "Bravo",
        'C' => "Charlie",
        'D' => "Delta",
        'E' => "Echo",
        'F' => "Foxtrot",
        'G' => "Golf",
        'H' => "Hotel",
        'J' => "Juliett",
        'K' => "Kilo",
        'M' => "Mike",
        'N' => "November",
        'P' => "Papa",
        'Q' => "Quebec",
        'R' => "Romeo",
        'S' => "Sierra",
        'T' => "Tango",
        'V' => "Victor",
        'W' => "Whiskey",
        'X' => "X-ray",
        'Y' => "Yankee",
        _ => "Zulu",
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_a_character_stands_for() {
        for (typed, expected) in [
            ('0', Read::Letter(0)),
            ('o', Read::Letter(0)),
            ('O', Read::Letter(0)),
            ('1', Read::Letter(1)),
            ('i', Read::Letter(1)),
            ('L', Read::Letter(1)),
            ('a', Read::Letter(10)),
            ('Z', Read::Letter(31)),
            ('?', Read::Unread),
            ('u', Read::Unread),
            ('-', Read::Gap),
            ('\u{2014}', Read::Gap),
            ('\u{a0}', Read::Gap),
            ('\u{200b}', Read::Gap),
            ('é', Read::Foreign),
            ('*', Read::Foreign),
        ] {
            assert_eq!(read(typed), expected, "{typed:?}");
        }
    }

    #[test]
    fn every_value_is_read_back_from_its_letter_and_said_with_its_initial() {
        for value in 0..32 {
            assert_eq!(read(letter(value)), Read::Letter(value));
            assert_eq!(
                read(letter(value).to_ascii_lowercase()),
                Read::Letter(value)
            );
            if letter(value).is_ascii_alphabetic() {
                assert!(word(letter(value)).starts_with(letter(value)));
            }
        }
        assert_eq!(grouped(&[3, 20, 7, 21, 9, 23]), "3M7N-9Q");
        assert_eq!(
            spoken(&[3, 20, 7, 21, 9, 23]),
            ["three Mike seven November", "nine Quebec"]
        );
    }
}
