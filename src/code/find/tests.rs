//! Checks of the file beside this folder, in a file of their own for their length.

use super::super::letters::Code;
use super::super::sheet::{Sheet, sample};
use super::*;
use crate::code::pieces::MOST_READ;

fn codes() -> [String; 2] {
    [sample::full(), sample::bare()].map(|sheet| Code::of(&sheet).unwrap().to_string())
}

/// Lines of what is found, of what is refused, and plain lines.
fn lines(text: &str) -> (Vec<usize>, Vec<usize>, Vec<usize>) {
    let Findings {
        found,
        refused,
        plain,
        unread_from,
    } = find(text);
    assert_eq!(unread_from, None);
    (
        found.iter().map(|found| found.line).collect(),
        refused.iter().map(|refused| refused.line).collect(),
        plain,
    )
}

#[test]
fn codes_are_found_in_chats_mails_and_tables() {
    let [full, bare] = codes();
    let run = full.replace('-', "");
    let spaced = full.to_lowercase().replace('-', " ");
    let (head, tail) = full.split_at(20);
    let spaced_head = head.to_lowercase().replace('-', " ");
    let wrapped_head = format!("{}\n", spaced_head.trim_end());
    let fives: Vec<&str> = run
        .as_bytes()
        .chunks(5)
        .map(|five| std::str::from_utf8(five).unwrap())
        .collect();
    for (text, found) in [
        (full.clone(), vec![1]),
        (
            format!("[12:03] Tern: here is my code {full}. Good?"),
            vec![1],
        ),
        (
            format!("Have some more code here: {spaced} that will open"),
            vec![1],
        ),
        (format!("is it {full}?"), vec![1]),
        (format!("see #/c/{run}"), vec![1]),
        (
            format!("Tern\t{full}\tbream\r\nGull\t{bare}\tbass\r\n"),
            vec![1, 2],
        ),
        (format!("\"Tern\",\"{full}\";{bare}|{full}"), vec![1, 1, 1]),
        (format!("{full} {bare}"), vec![1, 1]),
        (format!("{full}\n\n{bare}\n{full}"), vec![1, 3, 4]),
        (format!("{head}\n{tail}"), vec![1]),
        (spaced.replacen(&spaced_head, &wrapped_head, 1), vec![1]),
        (fives.join(" "), vec![1]),
        (format!("Tern, {}", fives.join("-")), vec![1]),
        (full.replace('-', "\u{2011}"), vec![1]),
        (full.replace('-', "\u{200b}-"), vec![1]),
    ] {
        let (lines, refused, plain) = lines(&text);
        assert_eq!((lines, refused, plain), (found, vec![], vec![]), "{text}");
    }
}

#[test]
fn a_line_is_refused_or_plain_but_never_dropped() {
    let [full, bare] = codes();
    let short = full.strip_suffix(full.rsplit('-').next().unwrap()).unwrap();
    let wrong = full.replacen(|c: char| c.is_ascii_digit(), "Z", 3);
    let text = format!(
        "Good morning\n{full}\nmine: {short}\n\n{wrong}\n{bare} and {wrong}\n2026-03-09 12:03\nover and out"
    );
    let (found, refused, plain) = lines(&text);
    assert_eq!(found, [2, 6]);
    assert_eq!(refused, [3, 5, 6]);
    assert_eq!(plain, [1, 7, 8]);
    let why = &find(&text).refused;
    assert_eq!(why[0].text, short.trim_end_matches('-'));
    assert_eq!(why[1].why, Unopened::TooManyWrong);
}

#[test]
fn two_wrong_letters_do_not_hide_a_code_nor_its_neighbours() {
    let [full, bare] = codes();
    let wrong = full.replacen(|c: char| c.is_ascii_digit(), "Z", 2);
    let text = format!("{bare}\n{wrong}\n{bare}\n{full}");
    let found = find(&text).found;
    let mended: Vec<usize> = found
        .iter()
        .map(|found| found.opened.mended.len())
        .collect();
    assert_eq!(mended, [0, 2, 0, 0]);
    assert_eq!(found[1].opened.sheet, sample::full());
}

#[test]
fn two_thousand_codes_are_all_found() {
    let text: String = (1..=2_000)
        .map(|nth| {
            let sheet = Sheet {
                day: super::super::day::Day::new(nth).unwrap(),
                ..sample::full()
            };
            format!("student {nth}: {}\n", Code::of(&sheet).unwrap())
        })
        .collect();
    let findings = find(&text);
    let mut search = CodeSearch::of(&text);
    let mut turns = 1;
    while search.go_on(100) {
        turns += 1;
    }
    assert!(turns > 50, "{turns}");
    assert_eq!(search.findings(), findings);
    assert_eq!(findings.found.len(), 2_000);
    assert!(findings.refused.is_empty() && findings.plain.is_empty());
}

/// Put down after any number of words and taken up again, a search finds what it finds in one go: in text with codes,
/// with what only looks like one, on many lines and on one.
#[test]
fn a_search_in_turns_finds_the_same() {
    let [full, bare] = codes();
    let wrong = full.replacen(|c: char| c.is_ascii_digit(), "Z", 3);
    let mixed = format!(
        "Good morning\n{full}, {wrong}\n\n7Q2M-A4Z9-33KK or 7Q2M A4Z9 33KK\n{bare}|{wrong}\n"
    );
    for text in [
        String::new(),
        mixed.clone(),
        mixed.repeat(20),
        mixed.repeat(20).replace('\n', " | "),
        "7Q2MA4Z933KK7Q2MA4Z933KQ,".repeat(200),
    ] {
        let findings = find(&text);
        for words in [1, 2, 7, 100, 10_000] {
            let mut search = CodeSearch::of(&text);
            while search.go_on(words) {}
            assert_eq!(search.findings(), findings, "{words} words a turn");
        }
    }
    assert_eq!(
        find(&"7Q2MA4Z933KK7Q2MA4Z933KQ,".repeat(200)).refused.len(),
        200
    );
}

#[test]
fn a_text_too_long_says_where_reading_stopped() {
    let mut text = "over and out\n".repeat(MOST_READ / 13);
    text.push_str("\n".repeat(100).as_str());
    assert!(
        find(&text)
            .unread_from
            .is_some_and(|line| line > MOST_READ / 13)
    );
}
