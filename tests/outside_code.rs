//! The result code against an independent library for finite fields and a published alphabet.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::indexing_slicing,
    clippy::panic,
    missing_docs
)]

use scaleside::code::alphabet::{LETTERS, Read, read};
use scaleside::code::mend::{mend, seal};

fn values(letters: &str) -> Vec<u8> {
    letters
        .chars()
        .map(|c| match read(c) {
            Read::Letter(value) => value,
            other => panic!("{c:?}: {other:?}"),
        })
        .collect()
}

/// Words sealed by `galois` 0.4.11 with letters from `base32-crockford` 0.3.0: see vectors/code_vectors.py.
#[test]
fn words_agree_with_an_independent_library() {
    let mut rows = csv::Reader::from_path("tests/vectors/code_words.csv").unwrap();
    let mut seen = 0;
    for row in rows.records().map(Result::unwrap) {
        let (carried, code, heard) = (values(&row[0]), values(&row[1]), values(&row[2]));
        assert_eq!(seal(&carried).unwrap(), code, "{row:?}");
        let mended = mend(&heard.into_iter().map(Some).collect::<Vec<_>>()).unwrap();
        assert_eq!((&mended.carried, &mended.word), (&carried, &code), "{row:?}");
        let places: Vec<String> = mended.places.iter().map(usize::to_string).collect();
        assert_eq!(places.join(" "), &row[3], "{row:?}");
        seen += 1;
    }
    assert_eq!(seen, 84);
}

/// Douglas Crockford, "Base 32" (2019), the table of symbols: encode symbol and decode symbols of each value.
#[test]
fn the_alphabet_is_the_published_one() {
    assert_eq!(LETTERS, b"0123456789ABCDEFGHJKMNPQRSTVWXYZ");
    let decode_symbols = [
        "0Oo", "1IiLl", "2", "3", "4", "5", "6", "7", "8", "9", "Aa", "Bb", "Cc", "Dd", "Ee", "Ff",
        "Gg", "Hh", "Jj", "Kk", "Mm", "Nn", "Pp", "Qq", "Rr", "Ss", "Tt", "Vv", "Ww", "Xx", "Yy",
        "Zz",
    ];
    for (value, symbols) in (0u8..).zip(decode_symbols) {
        for symbol in symbols.chars() {
            assert_eq!(read(symbol), Read::Letter(value), "{symbol}");
        }
    }
}
