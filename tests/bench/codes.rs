//! Codes opened, found in a text, and worked out as a class.

use divan::counter::ItemsCount;
use divan::{Bencher, black_box};
use scaleside::class::board::Board;
use scaleside::code::day::Day;
use scaleside::code::find::find;
use scaleside::code::letters::Code;
use scaleside::code::opening::open;
use scaleside::code::sheet::{Nickname, Sheet, Student};

use crate::growth;

const SIZES: [usize; 3] = [20, 200, 2_000];

/// All invented: one student after the other, each with a code of their own.
fn codes(count: usize) -> Vec<String> {
    let thirty = include_str!("../vectors/class_thirty.txt");
    let first = thirty.lines().next().unwrap().split_once(": ").unwrap().1;
    let sheet = open(first).unwrap().sheet;
    (0..count)
        .map(|nth| {
            let nickname = Nickname::numbered(u32::try_from(nth).unwrap()).unwrap();
            let sheet = Sheet {
                day: Day::new(2_000 + u16::try_from(nth % 300).unwrap()).unwrap(),
                student: Some(Student { nickname, test: 1 }),
                ..sheet.clone()
            };
            Code::of(&sheet).unwrap().to_string()
        })
        .collect()
}

/// Two letters of each are wrong, as far apart as they can be.
fn with_two_wrong(codes: &[String]) -> Vec<String> {
    let wrong = |letter: char| if letter == '7' { '8' } else { '7' };
    codes
        .iter()
        .map(|code| {
            let (first, last) = (code.chars().next().unwrap(), code.chars().last().unwrap());
            format!(
                "{}{}{}",
                wrong(first),
                &code[1..code.len() - 1],
                wrong(last)
            )
        })
        .collect()
}

fn open_all(codes: &[String]) -> usize {
    codes.iter().filter(|code| open(code).is_ok()).count()
}

fn board(codes: &[String]) -> Board {
    let mut board = Board::default();
    for (line, code) in codes.iter().enumerate() {
        board.take(line, code);
    }
    board.judge();
    board
}

#[divan::bench(args = SIZES)]
fn opened(bencher: Bencher<'_, '_>, count: usize) {
    let codes = codes(count);
    bencher
        .counter(ItemsCount::new(count))
        .bench(|| open_all(black_box(&codes)));
}

#[divan::bench(args = SIZES)]
fn opened_with_two_wrong(bencher: Bencher<'_, '_>, count: usize) {
    let codes = with_two_wrong(&codes(count));
    bencher
        .counter(ItemsCount::new(count))
        .bench(|| open_all(black_box(&codes)));
}

#[divan::bench(args = SIZES)]
fn found_in_a_chat(bencher: Bencher<'_, '_>, count: usize) {
    let text = codes(count).join("\nhere is mine, chef: ");
    bencher
        .counter(ItemsCount::new(count))
        .bench(|| find(black_box(&text)));
}

#[divan::bench(args = SIZES)]
fn worked_out_as_a_class(bencher: Bencher<'_, '_>, count: usize) {
    let codes = codes(count);
    bencher
        .counter(ItemsCount::new(count))
        .bench(|| board(black_box(&codes)));
}

pub fn ratios() {
    let all = codes(2_000);
    assert_eq!(open_all(&all), 2_000, "every code opens");
    assert_eq!(
        open_all(&with_two_wrong(&all)),
        2_000,
        "every code is mended"
    );
    growth::print("codes opened", &SIZES, |count| {
        black_box(open_all(&all[..count]));
    });
    growth::print("a class worked out", &SIZES, |count| {
        black_box(board(&all[..count]));
    });
    let whole = growth::median(|| {
        black_box(open_all(&all));
    });
    let wrong = with_two_wrong(&all);
    let mended = growth::median(|| {
        black_box(open_all(&wrong));
    });
    growth::beside("two letters wrong in each", whole, mended);
}
