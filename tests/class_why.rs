//! Why a result stands where it does: stage by stage beside its class, by the class of thirty codes whose slips are known.
#![allow(
    clippy::unwrap_used,
    clippy::indexing_slicing,
    clippy::panic,
    missing_docs
)]

use scaleside::class::board::Board;
use scaleside::class::why::causes;

fn board() -> Board {
    let mut board = Board::default();
    let lines = include_str!("vectors/class_thirty.txt").lines();
    for (line, text) in (1..).zip(lines) {
        board.take(line, text.split_once(": ").unwrap().1);
    }
    board.judge();
    board
}

fn at(board: &Board, student: &str) -> usize {
    let mut rows = board.rows().iter();
    rows.position(|row| row.student() == student).unwrap()
}

/// Points beside the medians of the bream without COOT, by numpy 2.4.6: 8.568 and -0.296; -0.118 and 8.348.
#[test]
fn what_came_off_is_told_stage_by_stage() {
    let board = board();
    for (student, told) in [
        (
            "WREN 1",
            "8.6 points more came off up to the bone than in the class, 0.3 points less in trimming.",
        ),
        (
            "RUFF 1",
            "0.1 points less came off up to the bone than in the class, 8.3 points more in trimming; no fish pliers or tweezers.",
        ),
    ] {
        let nth = at(&board, student);
        let losses = board.stages(nth).unwrap();
        assert_eq!(losses.told(&board.rows()[nth].result), told);
        let feedback = board.feedback(nth).unwrap();
        assert!(feedback.contains(told), "{feedback}");
    }
    // Alone of its kind, it stands beside nobody.
    let trout = board.lots().last().unwrap().rows[0];
    assert_eq!(board.stages(trout), None);
}

#[test]
fn two_causes_stand_side_by_side() {
    let board = board();
    let what = |student: &str| {
        let nth = at(&board, student);
        let causes = causes(board.flags_of(nth), board.stages(nth));
        causes.map(|causes| causes.map(|cause| cause.what))
    };
    for (student, one, other) in [
        ("WREN 1", "on the frame", "in another form"),
        ("RUFF 1", "after the pan", "trimmed far"),
        ("COOT 1", "other way round", "misread"),
        ("SMEW 1", "decimal mark", "whole fish"),
        ("HAWK 1", "after gutting", "weighed wet"),
    ] {
        let [first, second] = what(student).unwrap();
        assert!(first.contains(one), "{student}: {first}");
        assert!(second.contains(other), "{student}: {second}");
    }
    assert_eq!(what("CROW 1"), None);
    assert_eq!(what("SORA 1"), None);
}
