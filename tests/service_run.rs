//! A service being cooked, tap by tap: what each tap changes, what it refuses, what survives a reload.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::indexing_slicing,
    clippy::panic,
    missing_docs
)]

use std::collections::BTreeSet;

use scaleside::instant::Instant;
use scaleside::service::dish::{self, Dish};
use scaleside::service::face::{Face, FaceState, faces, next_bell, plate_at, rung};
use scaleside::service::kit::Kit;
use scaleside::service::run::{Run, Tap};

/// Six in the evening, some day.
const START: Instant = Instant(1_790_000_000_000);

fn bream() -> &'static Dish {
    dish::by_id("bream").unwrap()
}

fn at(secs: i64) -> Instant {
    START.plus_secs(secs)
}

/// One tap written as `word step`, at a second after the start.
fn tap(word: &str, id: &str) -> Tap {
    let id = id.to_owned();
    match word {
        "begin" => Tap::Begin(id),
        "hold" => Tap::Hold(id),
        "resume" => Tap::Resume(id),
        "more" => Tap::More(id),
        "done" => Tap::Done(id),
        "undo" => Tap::NotDone(id),
        other => panic!("no tap called {other}"),
    }
}

/// Plays `"second word step; ..."` from the start of the service.
fn play(script: &str) -> Run {
    script
        .split(';')
        .map(str::trim)
        .filter(|line| !line.is_empty())
        .fold(Run::start(bream(), START), |run, line| {
            let [secs, word, id] = line.split_whitespace().collect::<Vec<_>>()[..] else {
                panic!("not a tap: {line}");
            };
            run.tap(
                bream(),
                &BTreeSet::new(),
                &tap(word, id),
                at(secs.parse().unwrap()),
            )
            .unwrap_or_else(|refusal| panic!("{line}: {refusal}"))
        })
}

fn refusal(run: &Run, word: &str, id: &str, secs: i64) -> String {
    run.tap(bream(), &BTreeSet::new(), &tap(word, id), at(secs))
        .unwrap_err()
        .to_string()
}

fn shown(run: &Run, secs: i64) -> Vec<Face> {
    faces(bream(), &BTreeSet::new(), run, at(secs))
}

fn face(run: &Run, id: &str, secs: i64) -> Face {
    shown(run, secs)
        .into_iter()
        .find(|face| face.id == id)
        .unwrap()
}

/// A face in a word and its seconds.
fn brief(run: &Run, id: &str, secs: i64) -> String {
    let s = |ms: i64| ms as f64 / 1000.0;
    match face(run, id, secs).state {
        FaceState::Waiting { on, ready_at } => match ready_at {
            Some(ready) => format!("ready in {}", s(ready.ms_since(at(secs)))),
            None => format!("waits on {}", on.join(", ")),
        },
        FaceState::Ready { since } => format!("ready {}", s(since.ms_since(START))),
        FaceState::Running { ends: None, .. } => "running".to_owned(),
        FaceState::Running { left_ms, of_ms, .. } => format!("running {}/{}", s(left_ms), s(of_ms)),
        FaceState::Held { left_ms, of_ms } => format!("held {}/{}", s(left_ms), s(of_ms)),
        FaceState::Over { over_ms, of_ms, .. } => format!("over {}/{}", s(over_ms), s(of_ms)),
        FaceState::Done { at } => format!("done {}", s(at.ms_since(START))),
    }
}

/// Plates warming, pan hot, the fish in at second 100.
const FISH_IN: &str = "0 begin warm_plates; 5 done warm_plates; 10 begin heat_pan; 100 done heat_pan; 100 begin skin_side;";
/// The fish out at second 415, the leeks in.
const FISH_OUT: &str =
    "370 done skin_side; 400 done flesh_side; 415 done check_core; 415 begin leeks;";

#[test]
fn faces_follow_the_taps() {
    let cases = [
        ("", "warm_plates", 3, "ready 0"),
        ("", "heat_pan", 3, "waits on Warm the plates"),
        (
            "0 begin warm_plates; 5 done warm_plates;",
            "heat_pan",
            9,
            "ready 5",
        ),
        (
            "0 begin warm_plates; 5 done warm_plates; 10 begin heat_pan;",
            "heat_pan",
            500,
            "running",
        ),
        (FISH_IN, "heat_pan", 100, "done 100"),
        (FISH_IN, "skin_side", 100, "running 270/270"),
        (FISH_IN, "skin_side", 130, "running 240/270"),
        (FISH_IN, "flesh_side", 130, "waits on Skin side down"),
        (
            FISH_IN,
            "leeks",
            130,
            "waits on Check the thickest part, Skin side down",
        ),
        (FISH_IN, "skin_side", 369, "running 1/270"),
        (FISH_IN, "skin_side", 370, "over 0/270"),
        (FISH_IN, "skin_side", 380, "over 10/270"),
        // Held: the timer stands still however long it takes.
        (
            &format!("{FISH_IN} 160 hold skin_side"),
            "skin_side",
            4000,
            "held 210/270",
        ),
        (
            &format!("{FISH_IN} 160 hold skin_side; 200 resume skin_side"),
            "skin_side",
            210,
            "running 200/270",
        ),
        (
            &format!(
                "{FISH_IN} 160 hold skin_side; 200 resume skin_side; 210 hold skin_side; 211 resume skin_side"
            ),
            "skin_side",
            211,
            "running 200/270",
        ),
        // Thirty seconds more: from the end, or from now once it has rung.
        (
            &format!("{FISH_IN} 160 more skin_side"),
            "skin_side",
            160,
            "running 240/300",
        ),
        (
            &format!("{FISH_IN} 160 hold skin_side; 170 more skin_side"),
            "skin_side",
            180,
            "held 240/300",
        ),
        (
            &format!("{FISH_IN} 390 more skin_side"),
            "skin_side",
            390,
            "running 30/320",
        ),
        (
            &format!("{FISH_IN} 370 more skin_side"),
            "skin_side",
            370,
            "running 30/300",
        ),
        // Early done; what begins at once has begun.
        (
            &format!("{FISH_IN} 300 done skin_side"),
            "skin_side",
            310,
            "done 300",
        ),
        (
            &format!("{FISH_IN} 300 done skin_side"),
            "flesh_side",
            310,
            "running 20/30",
        ),
        (
            &format!("{FISH_IN} 300 hold skin_side; 310 done skin_side"),
            "skin_side",
            320,
            "done 310",
        ),
        // The rest begins by itself when the fish comes out, beside the leeks.
        (
            &format!("{FISH_IN}{FISH_OUT}"),
            "rest",
            425,
            "running 230/240",
        ),
        (
            &format!("{FISH_IN}{FISH_OUT}"),
            "leeks",
            425,
            "running 170/180",
        ),
        (
            &format!("{FISH_IN}{FISH_OUT}"),
            "leaves",
            425,
            "waits on Sugar snaps, the last minute",
        ),
        // A mistaken done: the timer is where it would have been, and what began because of it has not.
        (
            &format!("{FISH_IN} 300 done skin_side; 305 undo skin_side"),
            "skin_side",
            305,
            "running 65/270",
        ),
        (
            &format!("{FISH_IN} 300 done skin_side; 305 undo skin_side"),
            "flesh_side",
            305,
            "waits on Skin side down",
        ),
        (
            &format!("{FISH_IN} 105 undo skin_side"),
            "skin_side",
            106,
            "ready 100",
        ),
    ];
    for (script, id, secs, want) in cases {
        assert_eq!(
            brief(&play(script), id, secs),
            want,
            "{id} at {secs} after: {script}"
        );
    }
}

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
                now.projected_start,
                before.projected_start.plus_secs(moved),
                "{id} after {tail}"
            );
            assert_eq!(
                now.projected_end,
                before.projected_end.plus_secs(moved),
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
fn taps_that_make_no_sense_are_refused_in_a_sentence() {
    let fish_out = format!("{FISH_IN}{FISH_OUT}");
    let cases = [
        (
            "",
            "begin",
            "heat_pan",
            1,
            "“Heat the pan” waits for “Warm the plates”.",
        ),
        ("", "begin", "stew", 1, "“stew” is not a step of this dish."),
        ("", "done", "heat_pan", 1, "“Heat the pan” hasn't begun."),
        ("", "undo", "heat_pan", 1, "“Heat the pan” hasn't begun."),
        (
            FISH_IN,
            "begin",
            "skin_side",
            101,
            "“Skin side down” has begun already.",
        ),
        (
            FISH_IN,
            "begin",
            "heat_pan",
            101,
            "“Heat the pan” is done already.",
        ),
        (
            FISH_IN,
            "done",
            "heat_pan",
            101,
            "“Heat the pan” is done already.",
        ),
        (
            FISH_IN,
            "resume",
            "skin_side",
            101,
            "“Skin side down” isn't held.",
        ),
        (
            FISH_IN,
            "undo",
            "heat_pan",
            101,
            "“Skin side down” has begun since: undo that first.",
        ),
        (
            FISH_IN,
            "hold",
            "skin_side",
            370,
            "“Skin side down” has rung: give it thirty seconds more, or call it done.",
        ),
        (
            &format!("{FISH_IN} 110 hold skin_side"),
            "hold",
            "skin_side",
            120,
            "“Skin side down” is held already.",
        ),
        (
            "0 begin warm_plates",
            "hold",
            "warm_plates",
            1,
            "“Warm the plates” ends by eye: it has no timer.",
        ),
        (
            "0 begin warm_plates",
            "more",
            "warm_plates",
            1,
            "“Warm the plates” ends by eye: it has no timer.",
        ),
        (
            FISH_IN,
            "more",
            "skin_side",
            100 + 270 + 3600,
            "“Skin side down” would run an hour longer than planned: call it done, or undo it.",
        ),
        (
            &fish_out,
            "undo",
            "check_core",
            420,
            "“Leeks into the same pan” has begun since: undo that first.",
        ),
        (
            &fish_out,
            "begin",
            "plate",
            420,
            "“Plate” waits for “Rest on paper, skin up” and “Sugar snaps, the last minute” and “Dress the leaves”.",
        ),
    ];
    for (script, word, id, secs, want) in cases {
        assert_eq!(
            refusal(&play(script), word, id, secs),
            want,
            "{word} {id} after: {script}"
        );
    }
}

#[test]
fn the_pan_takes_one_step_and_a_least_gap_is_waited_for() {
    let json = r#"{"id":"two","name":"Two in one pan","covers":1,"portion_g":150,"mise":[],"plate_check":[],
      "allergens":[],"cautions":[],"steps":[
      {"id":"fish","title":"The fish","say":"Cook.","station":"pan","lasts":60,"hands":false,"begins":"tap","done_word":"Out"},
      {"id":"veg","title":"Vegetables","say":"Cook.","station":"pan","lasts":60,"hands":false,"begins":"tap","done_word":"Out"},
      {"id":"late","title":"Butter","say":"Add.","station":"pan","takes":5,"hands":true,"begins":"at_once","done_word":"In"},
      {"id":"plate","title":"Plate","say":"Plate.","station":"plate","hands":true,"begins":"tap","done_word":"Served",
       "links":[{"to":"fish","edge":"end","least":90,"most":120}]}]}"#;
    let dish = Dish::parse(json).unwrap();
    let none = BTreeSet::new();
    let go = |run: &Run, word: &str, id: &str, secs: i64| {
        run.tap(&dish, &none, &tap(word, id), at(secs))
    };

    // What waits for nothing and begins at once has begun with the service.
    let run = Run::start(&dish, START);
    assert!(run.steps.contains_key("late"));
    assert_eq!(
        go(&run, "begin", "fish", 1).unwrap_err().to_string(),
        "The pan is still taken by “Butter”."
    );
    let run = go(&run, "done", "late", 5).unwrap();
    let run = go(&run, "begin", "fish", 5).unwrap();
    assert_eq!(
        go(&run, "begin", "veg", 6).unwrap_err().to_string(),
        "The pan is still taken by “The fish”."
    );
    let out = go(&run, "done", "fish", 65).unwrap();
    assert_eq!(
        go(&out, "begin", "plate", 70).unwrap_err().to_string(),
        "“Plate” can begin in 1 min 25 s."
    );
    let state = |run: &Run, secs: i64| faces(&dish, &none, run, at(secs)).pop().unwrap();
    assert_eq!(
        state(&out, 70).state,
        FaceState::Waiting {
            on: vec![],
            ready_at: Some(at(155))
        }
    );
    assert_eq!(state(&out, 154).projected_start, at(155));
    assert_eq!(state(&out, 155).state, FaceState::Ready { since: at(155) });
    assert!(go(&out, "begin", "plate", 155).is_ok());
    assert!(go(&out, "begin", "plate", 154).is_err());

    // Past the greatest gap the cook is warned and may still go on.
    assert_eq!(state(&out, 185).warning, None);
    let late = state(&out, 186).warning.unwrap();
    assert_eq!(
        late,
        "This comes more than 2 min after “The fish” was done."
    );
    assert!(go(&out, "begin", "plate", 400).is_ok());

    // The pan has gone to something else: the fish can't be taken back into it.
    let veg = go(&out, "begin", "veg", 70).unwrap();
    let refusal = go(&veg, "undo", "fish", 71).unwrap_err().to_string();
    assert_eq!(refusal, "The pan is still taken by “Vegetables”.");
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
    assert!(plate.projected_start.ms_since(leaves.projected_end) <= 120_000);
    // The fish is given two minutes more on its rest: the leaves, not begun, move with the plate.
    let more =
        format!("{FISH_IN}{FISH_OUT} 416 more rest; 417 more rest; 418 more rest; 419 more rest;");
    let run = play(&more);
    assert_eq!(face(&run, "plate", 420).projected_start, at(775));
    assert_eq!(face(&run, "leaves", 420).projected_end, at(655));
}

#[test]
fn bells_ring_once_reached_until_done() {
    let run = play(&format!("{FISH_IN}{FISH_OUT}"));
    let bell = |run: &Run, secs: i64| {
        next_bell(bream(), &BTreeSet::new(), run, at(secs)).map(|b| b.ms_since(START) / 1000)
    };
    let ringing = |run: &Run, secs: i64| rung(bream(), &BTreeSet::new(), run, at(secs));
    let cases = [
        (420, Some(595), vec![]),
        (594, Some(595), vec![]),
        (595, Some(655), vec!["leeks"]),
        (655, None, vec!["rest", "leeks"]),
        (9_999, None, vec!["rest", "leeks"]),
    ];
    for (secs, next, ring) in cases {
        assert_eq!(
            (bell(&run, secs), ringing(&run, secs)),
            (next, ring.iter().map(ToString::to_string).collect()),
            "at {secs}"
        );
    }
    // A held timer rings neither now nor later; a done one is quiet.
    let held = play(&format!(
        "{FISH_IN}{FISH_OUT} 420 hold rest; 420 hold leeks;"
    ));
    assert_eq!((bell(&held, 900), ringing(&held, 900)), (None, vec![]));
    let done = play(&format!("{FISH_IN}{FISH_OUT} 600 done leeks;"));
    assert_eq!(
        (bell(&done, 656), ringing(&done, 656)),
        (Some(660), vec!["rest".to_owned()])
    );
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
            assert!(face.projected_start <= face.projected_end, "{}", face.id);
            if let FaceState::Running { left_ms, of_ms, .. } | FaceState::Held { left_ms, of_ms } =
                face.state
            {
                assert!((0..=of_ms).contains(&left_ms));
            }
        }
    }
}

#[test]
fn the_whole_dish_can_be_cooked_to_the_pass() {
    let script = format!(
        "{FISH_IN}{FISH_OUT} 595 done leeks; 600 begin leaves; 620 done leaves; 655 done snaps; 655 done rest;
         656 begin plate; 716 done plate; 716 begin garnish; 736 done garnish"
    );
    let run = play(&script);
    assert!(
        shown(&run, 740)
            .iter()
            .all(|f| matches!(f.state, FaceState::Done { .. }) && f.warning.is_none())
    );
    assert_eq!(plate_at(bream(), &BTreeSet::new(), &run, at(740)), at(656));
}
