//! The marks on a stored text: whole, torn, damaged, foreign, newer.

use proptest::prelude::*;
use scaleside::store::envelope::{MOST_BYTES, Unreadable, open, seal};

use crate::bench::{Fish, fish};

/// The checksum was worked out with Python 3.11's `zlib.crc32` over `1\n2\n7\n` and the body in UTF-8.
const WHOLE: &str = "{\"format\":1,\"counter\":2,\"build\":7,\"sum\":\"acb4c084\",\
                     \"body\":{\"taps\":[\"weighed 1,240 g — ½ ice\"]}}";

/// A text sealed by a build to come: the same shape, another format.
pub fn sealed_in_format(format: u32, body: &str) -> String {
    let sum = crc32fast::hash(format!("{format}\n9\n99\n{body}").as_bytes());
    format!(
        "{{\"format\":{format},\"counter\":9,\"build\":99,\"sum\":\"{sum:08x}\",\"body\":{body}}}"
    )
}

#[test]
fn a_stored_text_agrees_with_another_implementation_of_the_checksum() {
    let written = fish(&["weighed 1,240 g — ½ ice"]);
    assert_eq!(seal(&written, 2, 7).unwrap(), WHOLE);
    let opened = open(WHOLE).unwrap();
    assert_eq!((opened.format, opened.counter, opened.build), (1, 2, 7));
    assert_eq!(opened.record::<Fish>().unwrap(), written);
    assert_eq!(opened.record::<u32>(), Err(Unreadable::Unfamiliar));
}

#[test]
fn every_beginning_of_a_text_is_torn() {
    for (end, _) in WHOLE.char_indices() {
        assert_eq!(
            open(&WHOLE[..end]),
            Err(Unreadable::Torn),
            "cut at byte {end}"
        );
    }
}

#[test]
fn no_flipped_bit_and_no_missing_byte_goes_unseen() {
    let damaged = (0..WHOLE.len()).flat_map(|at| {
        let flips = (0..8).map(move |bit| {
            let mut bytes = WHOLE.as_bytes().to_vec();
            bytes[at] ^= 1 << bit;
            bytes
        });
        let mut shorter = WHOLE.as_bytes().to_vec();
        shorter.remove(at);
        flips.chain([shorter])
    });
    let mut tried = 0;
    for bytes in damaged {
        let text = String::from_utf8_lossy(&bytes);
        assert!(open(&text).is_err(), "{text}");
        tried += 1;
    }
    assert_eq!(tried, 9 * WHOLE.len());
}

#[test]
fn a_text_says_why_it_cannot_be_read() {
    let whole = |body: &str| sealed_in_format(1, body);
    let long = format!("\"{}\"", "x".repeat(MOST_BYTES));
    let cases = [
        (String::new(), Unreadable::Torn),
        ("null".into(), Unreadable::NotOurs),
        ("{\"fish\":[".into(), Unreadable::NotOurs),
        ("🐟".into(), Unreadable::NotOurs),
        (sealed_in_format(0, "1"), Unreadable::NotOurs),
        (whole(&long), Unreadable::NotOurs),
        (sealed_in_format(2, "[]"), Unreadable::FutureFormat(2)),
        (
            sealed_in_format(u32::MAX, "[]"),
            Unreadable::FutureFormat(u32::MAX),
        ),
        (
            sealed_in_format(2, "[]").replace("[]", "[1]"),
            Unreadable::Damaged,
        ),
        (whole("[]") + "x", Unreadable::Damaged),
        (
            whole("[]").replace("\"counter\":9", "\"counter\":-9"),
            Unreadable::Damaged,
        ),
        (
            whole("[]").replace("{\"f", "{\"f\":0,\"f"),
            Unreadable::NotOurs,
        ),
        (
            whole("[]").replace("\"build\"", "\"note\":0,\"build\""),
            Unreadable::Damaged,
        ),
        (whole(&"[".repeat(100_000)), Unreadable::Damaged),
    ];
    for (text, reason) in cases {
        let start: String = text.chars().take(60).collect();
        assert_eq!(open(&text).unwrap_err(), reason, "{start}");
    }
    let deep = whole(&format!("{}{}", "[".repeat(100_000), "]".repeat(100_000)));
    assert_eq!(
        open(&deep).unwrap().record::<Fish>(),
        Err(Unreadable::Unfamiliar)
    );
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(10_000))]

    #[test]
    fn garbage_is_refused_and_never_panics(
        text in prop_oneof![
            any::<String>(),
            "[{}\\[\\]\",:0-9a-z ]{0,80}",
            "\\{\"format\":[0-9]{1,12},\"counter\":[0-9]{1,22},\"build\":7,\"sum\":\"[0-9a-f]{8}\",\"body\":.{0,40}\\}",
        ]
    ) {
        prop_assert!(open(&text).is_err());
    }
}
