//! What is asked beside the page is answered as it would be answered on the spot, text for text.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::indexing_slicing,
    clippy::panic,
    missing_docs
)]

use std::collections::HashSet;

use scaleside::base::instant::Instant;
use scaleside::class::intake::Intake;
use scaleside::code::find::find;
use scaleside::compare::{table, taken};
use scaleside::fish::action::Action;
use scaleside::fish::demo;
use scaleside::fish::heat_card::{HeatField, HeatTap};
use scaleside::fish::record::Fish;
use scaleside::fish::serving::PlanTap;
use scaleside::fish::settings::Settings;
use scaleside::fish::weighing::Which;
use scaleside::heat::cook::SoFar;
use scaleside::heat::probe::{ProbeReading, fit};
use scaleside::service::run::Tap;
use scaleside::service::timetable::of_dish::Service;
use scaleside::service::timetable::{Stuck, Timetable};
use scaleside::work::codes::Pasted;
use scaleside::work::heat::{Readings, Wanted};
use scaleside::work::picture::LinkToDraw;
use scaleside::work::plan::{PlanQuestion, placed};
use scaleside::work::tables::{In, Out};
use scaleside::work::{Ask, answer};
use serde_json::value::to_raw_value;

const NOW: Instant = Instant(1_790_000_000_250);

/// The text of the answer on its way back to the page.
fn told<Q: Ask>(question: &Q) -> String {
    let text = serde_json::to_string(question).unwrap();
    answer(Q::KIND.name, &text).unwrap()
}

/// The answer as the page reads it.
fn asked<Q: Ask>(question: &Q) -> Q::Answer {
    serde_json::from_str(&told(question)).unwrap()
}

fn act(fish: &Fish, secs: i64, action: Action) -> Fish {
    fish.apply(&action, NOW.plus_secs(secs)).unwrap()
}

fn plan(fish: &Fish, tap: PlanTap) -> Fish {
    act(fish, 0, Action::Plan(tap))
}

fn bream() -> Fish {
    let fish = demo::bream("a".into(), NOW, &Settings::default());
    let take = |which| Action::Take { which, sure: true };
    [
        take(Which::Whole),
        Action::Raw(true),
        take(Which::Ready),
        Action::Heat(HeatTap::Typed(HeatField::Thickness, "19".into())),
    ]
    .into_iter()
    .fold(fish, |fish, action| act(&fish, 0, action))
}

/// On the spot, with nothing between.
fn worked_out(fish: &Fish, now: Instant) -> Result<Timetable, Stuck> {
    let dish = fish.laid_out()?;
    let service = Service {
        dish: &dish,
        missing: &fish.slip.missing,
        cooks: fish.serving().cooks,
    };
    let plate_at = fish.serving().plate_at.filter(|at| *at > now);
    Timetable::of(&service, fish.run.as_ref(), plate_at, now)
}

#[test]
fn a_plan_before_the_service_is_asked_for_once_and_moves_with_the_clock() {
    let hours = [None, Some(7_200), Some(1_800), Some(-60)];
    for hour in hours.map(|secs| secs.map(|secs| NOW.plus_secs(secs))) {
        let fish = plan(&bream(), PlanTap::PlateAt(hour));
        let question = PlanQuestion::of(&fish, NOW).unwrap();
        let found = asked(&question);
        for later in [0, 1, 5, 777, 2_000, 90_000] {
            let now = NOW.plus_secs(later).plus_ms(later % 3 * 400);
            let again = PlanQuestion::of(&fish, now).unwrap();
            assert!(question.is_like(&again) && question == again, "{hour:?}");
            let moved = placed(&found, fish.serving().plate_at, now);
            assert_eq!(moved, worked_out(&fish, now), "{hour:?} {later}");
        }
    }
}

#[test]
fn what_a_tap_changes_is_asked_anew() {
    let fish = bream();
    let question = PlanQuestion::of(&fish, NOW).unwrap();
    for tap in [
        PlanTap::Cooks(2),
        PlanTap::Pans(2),
        PlanTap::AtOnce("1".into()),
    ] {
        let other = PlanQuestion::of(&plan(&fish, tap.clone()), NOW).unwrap();
        assert!(!question.is_like(&other), "{tap:?}");
    }
    let begun = act(&fish, 0, Action::Start { insist: true });
    let begun = PlanQuestion::of(&begun, NOW).unwrap();
    assert!(begun.is_running() && !question.is_like(&begun));
}

#[test]
fn a_quarrel_comes_with_its_ways_out_and_hangs_on_no_clock() {
    let fish = plan(&bream(), PlanTap::AtOnce("1".into()));
    let fish = plan(&fish, PlanTap::PlateAt(Some(NOW.plus_secs(7_200))));
    let found = asked(&PlanQuestion::of(&fish, NOW).unwrap());
    let stuck = found.as_ref().unwrap_err();
    assert!(
        !stuck.ways.is_empty() && stuck.at_best.is_some(),
        "{stuck:?}"
    );
    for later in [0, 60, 7_199, 86_400] {
        let now = NOW.plus_secs(later);
        let moved = placed(&found, fish.serving().plate_at, now);
        assert_eq!(moved, worked_out(&fish, now), "{later}");
    }
}

#[test]
fn a_running_service_is_planned_from_the_moment_it_is_asked() {
    let mut fish = act(&bream(), 0, Action::Start { insist: true });
    for (secs, tap) in [
        (0, Tap::Begin("warm_plates".into())),
        (90, Tap::Done("warm_plates".into())),
        (95, Tap::Begin("heat_pan".into())),
        (260, Tap::Done("heat_pan".into())),
        (270, Tap::Begin("skin_side".into())),
        (300, Tap::More("skin_side".into())),
    ] {
        fish = act(&fish, secs, Action::Serve(tap));
        for later in [0, 5, 400] {
            let now = NOW.plus_secs(secs + later);
            let question = PlanQuestion::of(&fish, now).unwrap();
            assert!(question.is_like(&PlanQuestion::of(&fish, now.plus_secs(5)).unwrap()));
            assert_eq!(asked(&question), worked_out(&fish, now), "{secs} {later}");
        }
    }
}

#[test]
fn a_dish_that_cannot_be_laid_out_says_so_before_anything_is_asked() {
    let fish = plan(&bream(), PlanTap::AtOnce("x".into()));
    assert_eq!(
        PlanQuestion::of(&fish, NOW).unwrap_err().to_string(),
        "Fillets in the pan at once are a whole number, such as 2."
    );
}

#[test]
fn an_estimate_is_the_same_with_and_without_a_reading() {
    let first = bream().asked(NOW).unwrap();
    let mut read = first.clone();
    read.reading = Some(ProbeReading {
        so_far: SoFar {
            now: 120,
            ..SoFar::default()
        },
        core_c: 24.0,
    });
    let mut wrong = first.clone();
    wrong.fillet.thickness_mm = 900.0;
    for question in [first, read, wrong].map(Wanted) {
        let direct = question.clone().answer();
        assert_eq!(told(&question), serde_json::to_string(&direct).unwrap());
        assert_eq!(asked(&question).is_ok(), direct.is_ok());
    }
}

#[test]
fn a_pan_is_fitted_the_same() {
    let estimate = bream().asked(NOW).unwrap();
    let reading = |now, core_c| {
        let so_far = SoFar {
            now,
            ..SoFar::default()
        };
        (
            estimate.fillet.clone(),
            estimate.stove,
            ProbeReading { so_far, core_c },
        )
    };
    for cooked in [vec![reading(120, 20.0), reading(180, 31.0)], Vec::new()] {
        let direct = serde_json::to_string(&fit(&cooked)).unwrap();
        assert_eq!(told(&Readings(cooked)), direct);
    }
}

#[test]
fn a_paste_brings_the_same_codes() {
    let text = include_str!("vectors/class_thirty.txt").to_owned()
        + "\nand no code here\nK2T7-9QXM-4HRW-2Z8N-7PLC-3VBD\n";
    let known = HashSet::from([Intake::of(find(&text), HashSet::new()).codes[3].clone()]);
    let intake = Intake::of(find(&text), known.clone());
    let brought = (
        intake.new,
        intake.repeated.len(),
        intake.refused.len(),
        intake.plain,
    );
    assert_eq!(brought, (28, 2, 1, 1));
    assert_eq!(asked(&Pasted { text, known }), intake);
}

#[test]
fn a_table_goes_out_and_comes_in_the_same() {
    let own = |id: &str| {
        let mut fish = bream();
        (fish.demo, fish.id) = (false, id.into());
        fish
    };
    let all = [own("a1"), own("b2")];
    let texts = || all.iter().map(|fish| to_raw_value(fish).unwrap());
    let text = table::write(&all).unwrap();
    let out = Out {
        fish: texts().collect(),
    };
    assert_eq!(asked(&out), Ok(text.clone()));
    for (here, text) in [(1, text.as_str()), (2, text.as_str()), (0, "no table")] {
        let settings = Settings::default();
        let direct = taken::read(text, &settings, NOW)
            .map(|found| taken::sort(found, |id| all[..here].iter().find(|f| f.id == id).cloned()));
        let table = In {
            fish: texts().take(here).collect(),
            text: text.to_owned(),
            settings,
            today: NOW,
        };
        assert_eq!(asked(&table), direct, "{here}");
    }
}

#[test]
fn a_link_is_drawn_the_same_and_a_text_too_long_for_one_is_not() {
    let link = LinkToDraw("https://kitchen.example/#/received/ABCD".into());
    let drawn = asked(&link).unwrap();
    assert_eq!(Some(&drawn), link.answer().as_ref());
    // ISO/IEC 18004: version v has 17 + 4v modules a side; four quiet ones stand on each.
    assert_eq!((drawn.side - 8 - 17) % 4, 0);
    assert_eq!(asked(&LinkToDraw("x".repeat(3_000))), None);
}

#[test]
fn what_is_no_question_has_no_answer() {
    let question = serde_json::to_string(&LinkToDraw("x".into())).unwrap();
    let name = LinkToDraw::KIND.name;
    assert!(answer(name, &question).is_some());
    for (name, text) in [
        ("", question.as_str()),
        ("Picture", question.as_str()),
        (name, ""),
        (name, "{}"),
        ("plan", "{\"dish\":null}"),
    ] {
        assert_eq!(answer(name, text), None, "{name:?} {text:?}");
    }
}
