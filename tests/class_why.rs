//! Why a result stands where it does: stage by stage beside its class, by the class of thirty codes whose slips are known.
#![allow(
    clippy::unwrap_used,
    clippy::indexing_slicing,
    clippy::panic,
    missing_docs
)]

use scaleside::base::filleted::FilletAnswer;
use scaleside::class::board::Board;
use scaleside::class::group::{FEWEST_SPREAD, groups, splits};
use scaleside::class::why::causes;
use scaleside::code::letters::Code;
use scaleside::code::opening::open;
use scaleside::code::sheet::{Nickname, Student, Technique};
use scaleside::trade::mass::Mass;

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

/// So many of TERN's results with these answers, and other weights each, beside one that is told otherwise.
fn told(odd: &[FilletAnswer], others: &[FilletAnswer], count: u16) -> Board {
    let first = include_str!("vectors/class_thirty.txt").lines().next();
    let sheet = open(first.unwrap().split_once(": ").unwrap().1)
        .unwrap()
        .sheet;
    let mut board = Board::default();
    for nth in 0..count {
        let mut sheet = sheet.clone();
        let answers = if nth == 0 { odd } else { others };
        if !answers.is_empty() {
            sheet.technique = Technique::Told(answers.iter().copied().collect());
        }
        sheet.weights.delivered = Mass::from_mg(648_000 + i64::from(nth) * 7_000);
        sheet.student = Some(Student {
            nickname: Nickname::numbered(u32::from(nth)).unwrap(),
            test: 1,
        });
        board.take(usize::from(nth), &Code::of(&sheet).unwrap().to_string());
    }
    board.judge();
    board
}

#[test]
fn what_was_filleted_unlike_the_class_is_named() {
    use FilletAnswer::{FlexibleKnife, PinBonesCut, PinBonesPulled, SkinOn};
    let usual = [SkinOn, PinBonesPulled, FlexibleKnife];
    let odd = [SkinOn, PinBonesCut, FlexibleKnife];
    let why = |board: &Board| board.stages(0).unwrap().told(&board.rows()[0].result);
    let words = "; pin bones cut out, unlike most of the class.";
    assert!(why(&told(&odd, &usual, 9)).ends_with(words));
    for board in [
        told(&usual, &usual, 9),
        // Nothing was told by one or by the others: nothing is guessed.
        told(&[], &usual, 9),
        told(&odd, &[], 9),
    ] {
        assert!(!why(&board).contains("unlike"), "{}", why(&board));
    }
}

/// A class is parted by what was told; by kit as long as nobody told what it was used for.
#[test]
fn a_class_is_parted_by_what_was_really_done() {
    use FilletAnswer::{PinBonesCut, PinBonesLeft, PinBonesPulled, SkinOn};
    let parted = |board: &Board| {
        let rows = &board.lots()[0].rows;
        let ways = splits(board.results(rows)).into_iter().map(|by| {
            let groups = groups(board.results(rows), by);
            let named = groups.iter().map(|group| {
                let is_spread = group.results.len() >= FEWEST_SPREAD;
                (group.label.clone(), group.results.len(), is_spread)
            });
            (by.name(), named.collect::<Vec<_>>())
        });
        ways.collect::<Vec<_>>()
    };
    let one = |label: &str, count, is_spread| (label.to_owned(), count, is_spread);
    let pins = "pin bones, as told".to_owned();
    assert_eq!(
        parted(&told(&[SkinOn, PinBonesCut], &[SkinOn, PinBonesPulled], 5)),
        [(
            pins.clone(),
            vec![
                one("pin bones pulled", 4, true),
                one("pin bones cut out", 1, false)
            ]
        )]
    );
    let mut board = told(&[PinBonesLeft], &[PinBonesPulled], 2);
    let lines = include_str!("vectors/class_thirty.txt").lines();
    for (line, text) in (10..).zip(lines) {
        board.take(line, text.split_once(": ").unwrap().1);
    }
    board.judge();
    assert_eq!(
        parted(&board),
        [(
            pins,
            vec![
                one("pin bones pulled", 1, false),
                one("pin bones left in", 1, false),
                one("pin bones not told", 25, true)
            ]
        )]
    );
    let names: Vec<String> = parted(&self::board())
        .into_iter()
        .map(|(name, _)| name)
        .collect();
    assert_eq!(names, ["with and without fish pliers or tweezers"]);
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
