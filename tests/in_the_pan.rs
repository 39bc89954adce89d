//! A panful that goes otherwise than planned: the sentence says what happened and what follows, and follows from the
//! figures beside it.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::indexing_slicing,
    clippy::panic,
    missing_docs
)]

use scaleside::base::instant::Instant;
use scaleside::fish::action::Action;
use scaleside::fish::demo;
use scaleside::fish::heat_card::{HeatField, HeatTap};
use scaleside::fish::in_the_pan::WhatFollows;
use scaleside::fish::record::Fish;
use scaleside::fish::serving::PlanTap;
use scaleside::fish::settings::Settings;
use scaleside::fish::weighing::Which;
use scaleside::heat::advice::{Known, advise_from};
use scaleside::heat::cook::SoFar;
use scaleside::heat::pan::Surface;
use scaleside::service::dish::laid_out::FishTimes;
use scaleside::service::run::Tap;

const NOW: Instant = Instant(1_790_000_000_000);
/// When the fish goes into the pan, in seconds since the start.
const IN: i64 = 100;

fn at(secs: i64) -> Instant {
    NOW.plus_secs(secs)
}

fn act(fish: &Fish, secs: i64, action: Action) -> Fish {
    fish.apply(&action, at(secs)).unwrap()
}

fn serve(fish: &Fish, secs: i64, tap: Tap) -> Fish {
    act(fish, secs, Action::Serve(tap))
}

fn skin(tap: fn(String) -> Tap) -> Tap {
    tap("skin_side".into())
}

fn flesh(tap: fn(String) -> Tap) -> Tap {
    tap("flesh_side".into())
}

/// A bream of so many millimetres, cooked by its own estimate, in the pan; and the times of that estimate.
fn in_pan(mm: &str) -> (Fish, FishTimes) {
    let take = |which| Action::Take { which, sure: true };
    let typed = |field, text: &str| Action::Heat(HeatTap::Typed(field, text.into()));
    let fish = [
        take(Which::Whole),
        Action::Raw(true),
        take(Which::Ready),
        typed(HeatField::Thickness, mm),
        typed(HeatField::Core, "58"),
        Action::Heat(HeatTap::Surface(Surface::BareOiled)),
    ]
    .into_iter()
    .fold(
        demo::bream("a".into(), NOW, &Settings::default()),
        |fish, action| act(&fish, 0, action),
    );
    let times = FishTimes::from(&fish.asked(NOW).unwrap().answer().unwrap().advice);
    let mut fish = act(&fish, 0, Action::Plan(PlanTap::Times(Some(times))));
    fish = act(&fish, 0, Action::Start { insist: true });
    for (secs, step) in [(0, "warm_plates"), (10, "heat_pan")] {
        fish = serve(&fish, secs, Tap::Begin(step.into()));
        fish = serve(&fish, secs + 80, Tap::Done(step.into()));
    }
    (serve(&fish, IN, skin(Tap::Begin)), times)
}

/// What is said so many seconds after it went in.
fn said(fish: &Fish, secs: i64) -> Option<WhatFollows> {
    let now = at(IN + secs);
    let estimate = fish.asked(now).unwrap().answer().unwrap();
    let said = fish.in_the_pan(now)?.follows(Some(&estimate));
    if let Some(said) = &said {
        // The sentence and the figures beside it say the same.
        let advice = &estimate.advice;
        let (core, wanted) = said.core.unwrap();
        assert_eq!((core, wanted), (advice.core_peak_c, 58.0));
        let sentence = &said.sentence;
        if sentence.contains("lift now") {
            assert!(i64::from(advice.lift_at.best) - secs <= 10, "{sentence}");
        }
        if sentence.contains("turn it now") {
            assert!(i64::from(advice.skin_secs.best) - secs <= 10, "{sentence}");
        }
        assert_eq!(
            sentence.contains("only"),
            advice.safety.met.is_none() && !advice.reached && sentence.contains("gets to"),
            "{sentence}"
        );
        println!(
            "{secs} s: {sentence} {:.1} °C ({:.1} to {:.1})",
            core.best, core.low, core.high
        );
    }
    said
}

fn sentence(fish: &Fish, secs: i64) -> String {
    said(fish, secs)
        .map(|said| said.sentence)
        .unwrap_or_default()
}

#[test]
fn as_planned_nothing_is_said() {
    let (fish, times) = in_pan("19");
    let (turn, finish) = (i64::from(times.skin), i64::from(times.finish));
    assert_eq!(said(&fish, 0), None);
    assert_eq!(said(&fish, turn + 10), None);
    let turned = serve(&fish, IN + turn + 5, skin(Tap::Done));
    assert_eq!(said(&turned, turn + 20), None);
    let looked = serve(&turned, IN + turn + finish + 5, flesh(Tap::Done));
    assert_eq!(said(&looked, turn + finish + 10), None);
    let lifted = serve(
        &looked,
        IN + turn + finish + 20,
        Tap::Done("check_core".into()),
    );
    assert_eq!(said(&lifted, turn + finish + 30), None);
}

#[test]
fn a_late_turn_of_a_thin_fillet_is_lifted_at_once() {
    let (fish, times) = in_pan("12");
    let turn = i64::from(times.skin);
    assert!(
        sentence(&fish, turn + 40).starts_with("Not turned yet, 40 s late: turn it now, heat off.")
    );
    let turned = serve(&fish, IN + turn + 60, skin(Tap::Done));
    assert_eq!(
        sentence(&turned, turn + 72),
        "Turned 1 min late: lift now, look inside."
    );
    // An estimate from before the turn says nothing of it.
    let before = fish.asked(at(IN)).unwrap().answer().unwrap();
    let now = at(IN + turn + 61);
    let known = turned
        .in_the_pan(now)
        .unwrap()
        .follows(Some(&before))
        .unwrap();
    assert_eq!(
        known.sentence,
        "Turned 1 min late: look inside before you lift it."
    );
    assert_eq!((known.core, known.anew), (None, None));
}

#[test]
fn an_early_turn_lies_longer_and_the_cook_takes_it_or_not() {
    let (fish, times) = in_pan("15");
    let turn = i64::from(times.skin);
    let turned = serve(&fish, IN + turn - 20, skin(Tap::Done));
    let said = said(&turned, turn - 15).unwrap();
    assert!(
        said.sentence.starts_with("Turned 20 s early: lift it "),
        "{}",
        said.sentence
    );
    assert!(
        said.sentence.ends_with(" after it rings."),
        "{}",
        said.sentence
    );
    // Nothing moved by itself.
    let rings = |fish: &Fish| {
        fish.in_the_pan(at(IN + turn - 15))
            .unwrap()
            .rings_at
            .unwrap()
    };
    assert_eq!(rings(&turned), turn - 20 + i64::from(times.finish));
    let (anew, later) = said.anew.unwrap();
    assert_eq!(later, None);
    let set = act(
        &turned,
        IN + turn - 14,
        Action::Plan(PlanTap::Anew(1, anew, later)),
    );
    assert_eq!(rings(&set), turn - 20 + i64::from(anew.finish));
    // What happened is still said, and now it goes by the bell.
    assert_eq!(
        sentence(&set, turn - 13),
        "Turned 20 s early: lift it when it rings."
    );
    // A thick one turned so early does not get there in a pan that is off the heat.
    let (thick, times) = in_pan("19");
    let turn = i64::from(times.skin);
    let turned = serve(&thick, IN + turn - 120, skin(Tap::Done));
    let said = sentence(&turned, turn - 110);
    assert_eq!(
        said,
        "Turned 2 min early: the pan alone is too cool: low heat on, look inside."
    );
}

#[test]
fn a_fish_in_a_hot_pan_goes_on_cooking_while_its_timer_is_held() {
    let (fish, times) = in_pan("19");
    let turn = i64::from(times.skin);
    let held = serve(&fish, IN + 50, skin(Tap::Hold));
    assert_eq!(
        sentence(&held, 90),
        "Timer held 40 s, the fish cooks on: turn it 40 s before it rings."
    );
    // Without figures of the fillet.
    let pan = held.in_the_pan(at(IN + 90)).unwrap();
    assert_eq!(
        pan.follows(None).unwrap().sentence,
        "Timer held 40 s, the fish cooks on: look before you turn it."
    );
    let resumed = serve(&held, IN + 90, skin(Tap::Resume));
    let said = said(&resumed, 100).unwrap();
    assert_eq!(
        said.sentence,
        "Timer held 40 s: turn it 40 s before it rings."
    );
    let (anew, later) = said.anew.unwrap();
    assert_eq!(i64::from(anew.skin), turn);
    let set = act(
        &resumed,
        IN + 101,
        Action::Plan(PlanTap::Anew(1, anew, later)),
    );
    assert_eq!(set.in_the_pan(at(IN + 102)).unwrap().rings_at, Some(turn));
    assert_eq!(sentence(&set, 102), "");
    // Thirty seconds more are the same thing.
    let more = serve(&fish, IN + 50, skin(Tap::More));
    assert_eq!(
        sentence(&more, 60),
        "30 s more: turn it 30 s before it rings."
    );
}

#[test]
fn an_early_lift_goes_back_and_a_late_one_dries() {
    let (fish, times) = in_pan("19");
    let (turn, finish) = (i64::from(times.skin), i64::from(times.finish));
    let turned = serve(&fish, IN + turn, skin(Tap::Done));
    let lift = |fish: &Fish, secs: i64| {
        let looked = serve(fish, IN + secs, flesh(Tap::Done));
        serve(&looked, IN + secs, Tap::Done("check_core".into()))
    };
    let early = sentence(&lift(&turned, turn + 5), turn + 10);
    assert!(
        early.starts_with(&format!(
            "Lifted {} early: the middle gets to about ",
            plain(finish - 5)
        )),
        "{early}"
    );
    assert!(
        early.ends_with(" °C only. Back into the pan, look inside."),
        "{early}"
    );
    let (thin, times) = in_pan("12");
    let (turn, finish) = (i64::from(times.skin), i64::from(times.finish));
    let turned = serve(&thin, IN + turn, skin(Tap::Done));
    let late = sentence(&lift(&turned, turn + finish + 120), turn + finish + 130);
    assert!(
        late.starts_with("Lifted 2 min late: the middle gets to about "),
        "{late}"
    );
    assert!(late.ends_with(" °C and dries. Plate it soon."), "{late}");
}

/// As it is said: to five seconds, from a minute on to ten.
fn plain(secs: i64) -> String {
    match secs {
        ..60 => format!("{} s", (secs + 2) / 5 * 5),
        _ => scaleside::base::stretch::stretch((secs + 5) / 10 * 10),
    }
}

/// What is asked stands still between two strides, so that the worker is not asked anew with every second.
#[test]
fn what_is_late_is_asked_about_every_ten_seconds() {
    let (fish, times) = in_pan("19");
    let turn = i64::from(times.skin);
    let asked = |secs: i64| fish.asked(at(IN + secs)).unwrap().so_far.now;
    assert_eq!((asked(1), asked(turn), asked(turn + 9)), (0, 0, 0));
    let late: Vec<u32> = (turn + 10..turn + 70).map(asked).collect();
    let mut strides = late.clone();
    strides.dedup();
    assert!((6..=7).contains(&strides.len()), "{strides:?}");
    // A fish that nobody tapped for hours: the card stands for itself.
    assert_eq!(asked(20_000), 0);
}

/// Two pans: what happened to the first is followed also once the second is in, each with its own course.
#[test]
fn every_panful_in_hand_is_followed_not_only_the_latest() {
    let (_, times) = in_pan("12");
    let turn = i64::from(times.skin);
    let typed = |field, text: &str| Action::Heat(HeatTap::Typed(field, text.into()));
    let mut fish = demo::bream("a".into(), NOW, &Settings::default());
    for action in [
        Action::Take {
            which: Which::Whole,
            sure: true,
        },
        Action::Raw(true),
        Action::Take {
            which: Which::Ready,
            sure: true,
        },
        typed(HeatField::Thickness, "12"),
        typed(HeatField::Core, "58"),
        Action::Heat(HeatTap::Surface(Surface::BareOiled)),
        Action::Plan(PlanTap::AtOnce("1".into())),
        Action::Plan(PlanTap::Pans(2)),
        Action::Plan(PlanTap::Times(Some(times))),
        Action::Start { insist: true },
    ] {
        fish = act(&fish, 0, action);
    }
    for (secs, step) in [(0, "warm_plates"), (10, "heat_pan"), (20, "heat_pan/2")] {
        fish = serve(&fish, secs, Tap::Begin(step.into()));
        fish = serve(&fish, secs + 80, Tap::Done(step.into()));
    }
    fish = serve(&fish, IN, skin(Tap::Begin));
    // The second goes in half a minute before the first is to be turned, which then is turned a minute late.
    let second = IN + turn - 30;
    fish = serve(&fish, second, Tap::Begin("skin_side/2".into()));
    fish = serve(&fish, IN + turn + 60, skin(Tap::Done));

    let now = at(IN + turn + 72);
    let in_hand = fish.in_hand(now);
    assert_eq!(
        in_hand.iter().map(|pan| pan.panful).collect::<Vec<_>>(),
        [2, 1]
    );
    let asked = fish.asked(now).unwrap();
    let (turned, since) = (
        u32::try_from(turn + 60).unwrap(),
        u32::try_from(turn + 72).unwrap(),
    );
    assert_eq!((asked.panful, asked.so_far.turned_at), (2, None));
    let others: Vec<_> = asked
        .others
        .iter()
        .map(|(number, so_far)| (*number, so_far.turned_at))
        .collect();
    assert_eq!(others, [(1, Some(turned))]);
    let estimate = asked.answer().unwrap();
    let said: Vec<_> = in_hand
        .iter()
        .filter_map(|pan| pan.follows(Some(&estimate)))
        .collect();
    assert_eq!(said.len(), 1, "{said:?}");
    assert_eq!(
        said[0].sentence,
        "Batch 1. Turned 1 min late: lift now, look inside."
    );
    // It is the course that this panful has alone.
    let (fillet, stove, target) = fish.entered().unwrap();
    let so_far = SoFar {
        now: turned,
        turned_at: Some(turned),
        lifted_at: None,
    };
    let known = Known {
        off_mm: asked.off_mm,
        is_probed: false,
    };
    let alone = advise_from(&fillet, &stove, &target, so_far, known).unwrap();
    assert_eq!(said[0].core.unwrap().0, alone.core_peak_c);
    assert!(in_hand[1].so_far.now == since);
    // Set by this, the timers of the first move, and no other's.
    let rings =
        |fish: &Fish| -> Vec<_> { fish.in_hand(now).iter().map(|pan| pan.rings_at).collect() };
    let before = rings(&fish);
    let (anew, later) = (FishTimes::from(&alone), None);
    let set = act(
        &fish,
        IN + turn + 72,
        Action::Plan(PlanTap::Anew(1, anew, later)),
    );
    assert_eq!(rings(&set)[0], before[0]);
    assert_eq!(rings(&set)[1], Some(turn + 60 + i64::from(anew.finish)));
    // Once the first has rested, the second stands alone and is not numbered any more.
    for step in ["flesh_side", "check_core", "rest"] {
        fish = serve(&fish, IN + turn + 80, Tap::Done(step.into()));
    }
    let in_hand = fish.in_hand(at(IN + turn + 90));
    assert_eq!(in_hand.len(), 1);
    assert_eq!((in_hand[0].panful, in_hand[0].is_one_of_many), (2, false));
}
