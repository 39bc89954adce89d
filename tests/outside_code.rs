//! The result code against an independent library for finite fields and a published alphabet.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::indexing_slicing,
    clippy::panic,
    missing_docs
)]

use std::collections::HashMap;

use scaleside::base::filleted::FilletAnswer;
use scaleside::base::kit::Kit;
use scaleside::code::alphabet::{LETTERS, Read, read};
use scaleside::code::day::Day;
use scaleside::code::fish::SpeciesCode;
use scaleside::code::letters::Code;
use scaleside::code::mend::{mend, seal};
use scaleside::code::opening::open;
use scaleside::code::sheet::{Cooked, Nickname, Sheet, Student, Technique};
use scaleside::trade::breakdown::Weights;
use scaleside::trade::mass::{self, Mass, Scale, Unit};
use scaleside::trade::money::{Currency, MassPrice, PriceUnit};

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
        assert_eq!(
            (&mended.carried, &mended.word),
            (&carried, &code),
            "{row:?}"
        );
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

fn sheet_of(row: &HashMap<String, String>, days: &HashMap<String, Day>) -> Sheet {
    let field = |name: &str| row[name].as_str();
    let number = |name: &str| field(name).parse::<i64>().ok();
    let small = |name: &str| field(name).parse::<u8>().ok();
    let mass = |name: &str| number(name).map(Mass::from_mg);
    let scale = match field("division") {
        "0.1 oz" => Scale::TENTH_OUNCE,
        "0.25 oz" => Scale::QUARTER_OUNCE,
        grams => Scale {
            division: mass::parse(grams, Unit::Gram).unwrap(),
        },
    };
    let price = (!field("price").is_empty()).then(|| {
        let currency = Currency::ALL
            .into_iter()
            .find(|c| c.code() == field("currency"));
        let per = PriceUnit::ALL
            .into_iter()
            .find(|p| p.name() == field("per"));
        MassPrice::new(
            field("price").parse().unwrap(),
            currency.unwrap(),
            per.unwrap(),
        )
        .unwrap()
    });
    Sheet {
        fish: SpeciesCode::numbered(small("fish").unwrap()).unwrap(),
        form: serde_json::from_str(&format!("\"{}\"", field("form"))).unwrap(),
        scale,
        weights: Weights {
            delivered: mass("delivered_mg").unwrap(),
            off_bone: mass("off_bone_mg"),
            ready: mass("ready_mg").unwrap(),
        },
        price,
        portions: small("portions"),
        count: small("count").unwrap(),
        missing: Kit::ALL
            .into_iter()
            .zip(field("missing").chars())
            .filter(|(_, bit)| *bit == '1')
            .map(|(kit, _)| kit)
            .collect(),
        technique: match row.get("told") {
            Some(told) => Technique::Told(
                told.split(';')
                    .map(|name| {
                        let mut all = FilletAnswer::ALL.into_iter();
                        all.find(|answer| answer.name() == name).unwrap()
                    })
                    .collect(),
            ),
            None => Technique::Presumed {
                skin_on: field("skin_on") == "1",
                pin_bones_cut: field("pin_bones_cut") == "1",
            },
        },
        day: days[field("date")],
        student: small("test").map(|test| Student {
            nickname: Nickname::parse(field("nickname")).unwrap(),
            test,
        }),
        cooked: small("dish").map(|dish| {
            let secs = |name| u32::try_from(number(name).unwrap()).unwrap();
            Cooked::of(dish, secs("skin_side_s"), secs("finish_s"), secs("rest_s")).unwrap()
        }),
    }
}

/// Codes packed by a second program from the published bit table, currency numbers by `pycountry` 26.2.16
/// (ISO 4217), dates by Python: see vectors/sheet_vectors.py. These are also the codes of version 1 that every
/// later version must open.
#[test]
fn codes_of_version_1_open_and_are_written_the_same() {
    assert_eq!(opened_and_written("code_version_1.csv"), 150);
}

/// Codes of versions 3 and 4, packed by a second program in the same way: see vectors/told_vectors.py.
#[test]
fn codes_that_tell_of_the_filleting_open_and_are_written_the_same() {
    assert_eq!(opened_and_written("code_told.csv"), 159);
}

/// How many codes of a table opened as what its row says, and are written the same.
fn opened_and_written(table: &str) -> usize {
    let mut rows = csv::Reader::from_path(format!("tests/vectors/{table}")).unwrap();
    let days = (0..=Day::LAST.number()).filter_map(Day::new);
    let days = days.map(|day| (day.to_string(), day)).collect();
    let mut seen = 0;
    for row in rows
        .deserialize()
        .map(Result::<HashMap<String, String>, _>::unwrap)
    {
        let sheet = sheet_of(&row, &days);
        let opened = open(&row["code"]).unwrap();
        assert_eq!(opened.sheet, sheet, "{row:?}");
        assert!(opened.mended.is_empty(), "{row:?}");
        let code = Code::of(&sheet).unwrap();
        assert_eq!(code.to_string().replace('-', ""), row["code"], "{row:?}");
        seen += 1;
    }
    seen
}
