//! What each tap changes, and what it refuses.

use std::collections::BTreeSet;

use scaleside::service::dish::Dish;
use scaleside::service::run::Run;
use scaleside::service::run::state::StepState;

use crate::script::*;

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
        // Done lets go of a held timer: taken back, it runs on from there.
        (
            &format!("{FISH_IN} 300 hold skin_side; 310 done skin_side; 320 undo skin_side"),
            "skin_side",
            320,
            "running 60/270",
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
        StepState::Waiting {
            on: vec![],
            ready_at: Some(at(155))
        }
    );
    // The vegetables are done meanwhile.
    let both = go(&out, "begin", "veg", 66).unwrap();
    let both = go(&both, "done", "veg", 126).unwrap();
    assert_eq!(state(&both, 154).span.unwrap().0, at(155));
    assert_eq!(state(&out, 155).state, StepState::Ready { since: at(155) });
    assert!(go(&out, "begin", "plate", 155).is_ok());
    assert!(go(&out, "begin", "plate", 154).is_err());

    // Past the greatest gap the cook is warned and may still go on.
    assert_eq!(state(&both, 185).warning, None);
    let late = state(&both, 186).warning.unwrap();
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
fn the_whole_dish_can_be_cooked_to_the_pass() {
    let script = format!(
        "{FISH_IN}{FISH_OUT} 595 done leeks; 600 begin leaves; 620 done leaves; 655 done snaps; 655 done rest;
         656 begin plate; 716 done plate; 716 begin garnish; 736 done garnish"
    );
    let run = play(&script);
    assert!(
        shown(&run, 740)
            .iter()
            .all(|f| matches!(f.state, StepState::Done { .. }) && f.warning.is_none())
    );
    assert_eq!(plate_at(bream(), &BTreeSet::new(), &run, at(740)), at(656));
}
