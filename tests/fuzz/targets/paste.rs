//! Any text pasted into a class: every line is accounted for, and what is found can be judged and written out.
#![no_main]

use libfuzzer_sys::fuzz_target;
use scaleside::class::board::Board;
use scaleside::class::cell::Separator;
use scaleside::class::lesson::Lesson;
use scaleside::class::sheet_csv::sheet_csv;
use scaleside::code::find::find;

fuzz_target!(|text: &str| {
    let findings = find(text);
    let mut board = Board::default();
    for found in &findings.found {
        board.take(found.line, &found.opened.code.to_string());
    }
    board.judge();
    assert!(board.unopened().is_empty(), "what is found opens");
    let _ = sheet_csv(&board, &Lesson::default(), Separator::Comma);
});
