//! What moves with the time: the projection, the bells, the warnings, and a clock that was changed.

use std::collections::BTreeSet;

use scaleside::base::instant::Instant;
use scaleside::base::kit::Kit;
use scaleside::service::run::Run;
use scaleside::service::run::state::{StepState, rung};

use crate::script::*;

#[test]
fn everything_after_a_hold_an_extension_or_an_early_step_moves() {
    let plain = play(FISH_IN);
    let cases = [
        ("160 hold skin_side; 200 resume skin_side", 40),
        ("160 more skin_side", 30),
        ("160 more skin_side; 161 more skin_side", 60),
        ("200 done skin_side", -170),
    ];
    let after = [
        "flesh_side",
        "check_core",
        "rest",
        "leeks",
        "snaps",
        "leaves",
        "plate",
        "garnish",
    ];
    for (tail, moved) in cases {
        let run = play(&format!("{FISH_IN} {tail}"));
        for id in after {
            let (before, now) = (face(&plain, id, 200), face(&run, id, 200));
            assert_eq!(
                now.span.unwrap().0,
                before.span.unwrap().0.plus_secs(moved),
                "{id} after {tail}"
            );
            assert_eq!(
                now.span.unwrap().1,
                before.span.unwrap().1.plus_secs(moved),
                "{id} after {tail}"
            );
        }
        let plating = |run: &Run| plate_at(bream(), &BTreeSet::new(), run, at(200));
        assert_eq!(plating(&run), plating(&plain).plus_secs(moved), "{tail}");
    }
}

#[test]
fn while_a_step_is_held_or_late_the_rest_slips_second_by_second() {
    let cases = [
        ("160 hold skin_side", 200, 40),
        ("", 400, 30),
        ("", 370, 0),
        ("", 369, 0),
    ];
    for (tail, secs, slip) in cases {
        let run = play(&format!("{FISH_IN} {tail}"));
        let on_time = at(100 + 270 + 30 + 15 + 240);
        assert_eq!(
            plate_at(bream(), &BTreeSet::new(), &run, at(secs)),
            on_time.plus_secs(slip),
            "{tail} at {secs}"
        );
    }
}

#[test]
fn missing_kit_adds_its_seconds() {
    let with = |kit: &[Kit]| {
        let missing = kit.iter().copied().collect();
        plate_at(bream(), &missing, &Run::start(bream(), START), START).ms_since(START)
    };
    // 90 to heat the pan, 270 and 30 in it, 15 to look, 240 to rest.
    assert_eq!(with(&[]), 645_000);
    assert_eq!(with(&[Kit::NonStickPan, Kit::Probe]), 675_000);
}

#[test]
fn a_fish_that_waits_too_long_for_its_plate_is_warned_of() {
    let script = format!(
        "{FISH_IN}{FISH_OUT} 595 done leeks; 596 begin leaves; 616 done leaves; 655 done snaps; 655 done rest;"
    );
    let run = play(&script);
    let cases = [
        (700, None),
        (616 + 120, None),
        (
            616 + 121,
            Some("This comes more than 2 min after “Dress the leaves” was done."),
        ),
        (
            655 + 121,
            Some("This comes more than 2 min after “Rest on paper, skin up” was done."),
        ),
    ];
    for (secs, want) in cases {
        assert_eq!(
            face(&run, "plate", secs).warning.as_deref(),
            want,
            "at {secs}"
        );
    }
    // Once plated, the warning has done its work.
    let plated = play(&format!("{script} 800 begin plate; 860 done plate"));
    assert_eq!(face(&plated, "plate", 900).warning, None);
}

#[test]
fn the_leaves_are_put_off_until_the_plate_is_near() {
    let run = play(FISH_IN);
    let leaves = face(&run, "leaves", 100);
    let plate = face(&run, "plate", 100);
    assert!(plate.span.unwrap().0.ms_since(leaves.span.unwrap().1) <= 120_000);
    // The fish is given two minutes more on its rest: the leaves, not begun, move with the plate.
    let more =
        format!("{FISH_IN}{FISH_OUT} 416 more rest; 417 more rest; 418 more rest; 419 more rest;");
    let run = play(&more);
    assert_eq!(face(&run, "plate", 420).span.unwrap().0, at(775));
    let dressed = face(&run, "leaves", 420).span.unwrap().1;
    assert!((at(655)..=at(775)).contains(&dressed));
}

#[test]
fn bells_ring_once_reached_until_done() {
    let run = play(&format!("{FISH_IN}{FISH_OUT}"));
    let ringing = |run: &Run, secs: i64| -> Vec<(String, i64)> {
        let rung = rung(bream(), &BTreeSet::new(), run, at(secs)).into_iter();
        rung.map(|(id, ends)| (id, ends.ms_since(START) / 1000))
            .collect()
    };
    let cases: [(i64, &[(&str, i64)]); 5] = [
        (420, &[]),
        (594, &[]),
        (595, &[("leeks", 595)]),
        (655, &[("rest", 655), ("leeks", 595)]),
        (9_999, &[("rest", 655), ("leeks", 595)]),
    ];
    let told = |rung: &[(&str, i64)]| -> Vec<(String, i64)> {
        rung.iter()
            .map(|(id, at)| ((*id).to_owned(), *at))
            .collect()
    };
    for (secs, rung) in cases {
        assert_eq!(ringing(&run, secs), told(rung), "at {secs}");
    }
    // A held timer doesn't ring; a done one is quiet.
    let held = play(&format!(
        "{FISH_IN}{FISH_OUT} 420 hold rest; 420 hold leeks;"
    ));
    assert_eq!(ringing(&held, 900), []);
    let done = play(&format!("{FISH_IN}{FISH_OUT} 600 done leeks;"));
    assert_eq!(ringing(&done, 656), told(&[("rest", 655)]));
}

#[test]
fn a_reload_in_the_middle_shows_the_same_faces() {
    let run = play(&format!(
        "{FISH_IN}{FISH_OUT} 420 hold rest; 430 more leeks;"
    ));
    let kept: Run = serde_json::from_str(&serde_json::to_string(&run).unwrap()).unwrap();
    assert_eq!(kept, run);
    for secs in [430, 500, 5_000] {
        assert_eq!(shown(&kept, secs), shown(&run, secs));
    }
}

#[test]
fn a_clock_set_back_costs_no_timer_a_second() {
    let run = play(&format!(
        "{FISH_IN} 130 hold skin_side; 140 resume skin_side;"
    ));
    assert_eq!(brief(&run, "skin_side", 140), "running 240/270");
    // An hour back: the faces stand where the last tap left them, and the next tap goes on from there.
    let back = 140 - 3600;
    assert_eq!(brief(&run, "skin_side", back), "running 240/270");
    let mended = run.as_of(at(back));
    assert_eq!(brief(&mended, "skin_side", back + 40), "running 200/270");
    let done = run
        .tap(
            bream(),
            &BTreeSet::new(),
            &tap("done", "skin_side"),
            at(back + 5),
        )
        .unwrap();
    assert_eq!(
        brief(&done, "skin_side", back + 5),
        format!("done {}", back + 5)
    );
    assert_eq!(brief(&done, "flesh_side", back + 15), "running 20/30");
    assert!(done.steps["skin_side"].began <= done.steps["skin_side"].done.unwrap());
    assert!(done.started <= done.steps["warm_plates"].began);
}

#[test]
fn times_at_the_ends_of_the_range_do_no_harm() {
    for (from, to) in [
        (i64::MIN, i64::MAX),
        (i64::MAX, i64::MIN),
        (i64::MAX, i64::MAX),
        (0, i64::MIN),
    ] {
        let mut run = Run::start(bream(), Instant(from));
        for (word, id) in [
            ("begin", "warm_plates"),
            ("done", "warm_plates"),
            ("begin", "heat_pan"),
            ("done", "heat_pan"),
            ("begin", "skin_side"),
            ("hold", "skin_side"),
        ] {
            run = run
                .tap(bream(), &BTreeSet::new(), &tap(word, id), Instant(from))
                .unwrap_or(run);
        }
        let json = serde_json::to_string(&run)
            .unwrap()
            .replace("\"held_ms\":0", "\"held_ms\":-9223372036854775808");
        let run: Run = serde_json::from_str(&json).unwrap();
        for face in faces(bream(), &BTreeSet::new(), &run, Instant(to)) {
            assert!(
                face.span.is_none_or(|(start, end)| start <= end),
                "{}",
                face.id
            );
            if let StepState::Running { left_ms, of_ms, .. }
            | StepState::Held { left_ms, of_ms, .. } = face.state
            {
                assert!((0..=of_ms).contains(&left_ms));
            }
        }
    }
}
