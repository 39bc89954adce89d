//! What is kept of a service: its hour, its own copy of the dish, the times taken, the readings of the probe, the pan.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::indexing_slicing,
    clippy::panic,
    missing_docs
)]

use scaleside::base::instant::Instant;
use scaleside::cards::pan::{Contact, KeptPan, MOST_COOKED, PanTap};
use scaleside::fish::action::Action;
use scaleside::fish::demo;
use scaleside::fish::heat_card::{HeatField, HeatTap, PanCard};
use scaleside::fish::record::Fish;
use scaleside::fish::serving::PlanTap;
use scaleside::fish::settings::Settings;
use scaleside::fish::weighing::Which;
use scaleside::heat::cook::SoFar;
use scaleside::heat::pan::Surface;
use scaleside::heat::probe::ProbeCause;
use scaleside::service::dish::Sound;
use scaleside::service::dish::laid_out::FishTimes;
use scaleside::service::menu::edit::Edit;
use scaleside::service::run::Tap;
use scaleside::service::timetable::of_dish::Change;
use scaleside::store::entry::Entry;

const NOW: Instant = Instant(1_790_000_000_000);

const TIMES: FishTimes = FishTimes {
    skin: 300,
    finish: 60,
    rest: 80,
};

fn at(secs: i64) -> Instant {
    NOW.plus_secs(secs)
}

fn act(fish: &Fish, secs: i64, action: Action) -> Fish {
    fish.apply(&action, at(secs)).unwrap()
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

fn serve(fish: &Fish, secs: i64, tap: Tap) -> Fish {
    act(fish, secs, Action::Serve(tap))
}

/// In the pan since 100 s.
fn cooking(fish: &Fish) -> Fish {
    let mut fish = act(fish, 0, Action::Start { insist: true });
    for (secs, step) in [(0, "warm_plates"), (10, "heat_pan")] {
        fish = serve(&fish, secs, Tap::Begin(step.into()));
        fish = serve(&fish, secs + 80, Tap::Done(step.into()));
    }
    serve(&fish, 100, Tap::Begin("skin_side".into()))
}

fn lasts(fish: &Fish, step: &str) -> Option<u32> {
    fish.dish().unwrap().step(step).unwrap().lasts
}

#[test]
fn a_service_keeps_its_own_copy_only_where_it_differs() {
    let plain = cooking(&bream());
    assert!(plain.laid.is_none());
    let timed = act(&bream(), 0, Action::Plan(PlanTap::Times(Some(TIMES))));
    let timed = cooking(&timed);
    assert_eq!(lasts(&timed, "skin_side"), Some(300));
    let kept: Fish = serde_json::from_str(&serde_json::to_string(&timed).unwrap()).unwrap();
    assert_eq!(kept, timed);
    // Put back to before its start, it has the dish's own steps and the times that were taken.
    let again = act(&timed, 200, Action::StartAgain);
    assert_eq!(lasts(&again, "skin_side"), Some(270));
    assert_eq!(again.serving().times, Some(TIMES));
}

#[test]
fn a_service_waits_for_its_hour() {
    let hour = act(&bream(), 0, Action::Plan(PlanTap::PlateAt(Some(at(3600)))));
    let told = |fish: &Fish, secs: i64| {
        let plan = fish.timetable(at(secs)).unwrap();
        fish.told_by(&plan, at(secs))
    };
    let begun = act(&hour, 0, Action::Start { insist: true });
    let waiting = act(&begun, 0, Action::Plan(told(&begun, 0).unwrap()));
    assert_eq!(told(&waiting, 1), None);
    // 90 and 30 more for the paper, 270, 30, 15 and 240: plating is 675 s after the first step.
    let run = waiting.run.as_ref().unwrap();
    assert_eq!(run.begin_at, Some(at(3600 - 675)));
    assert!(run.steps.is_empty() && waiting.is_cooking());
    // Another hour before anything has begun moves the start; as soon as it can means now.
    let later = act(&waiting, 10, Action::Plan(PlanTap::PlateAt(Some(at(4200)))));
    assert_eq!(later.run.as_ref().unwrap().begin_at, None);
    assert_eq!(told(&later, 10), Some(PlanTap::BeginAt(at(4200 - 675))));
    let now = act(&waiting, 10, Action::Plan(PlanTap::PlateAt(None)));
    assert_eq!(now.run.as_ref().unwrap().begin_at, None);
    assert_eq!(told(&now, 10), None);
    // An hour that has passed is none.
    let stale = act(&hour, 7200, Action::Start { insist: true });
    assert_eq!(told(&stale, 7200), None);
}

#[test]
fn what_would_move_a_running_service_is_refused() {
    let fish = cooking(&bream());
    let edited = fish.dish().unwrap().edited(&Edit::Add).unwrap();
    for tap in [
        PlanTap::AtOnce("1".into()),
        PlanTap::Times(None),
        PlanTap::Shipped("fillet".into()),
        PlanTap::Own(Box::new(edited.clone())),
    ] {
        let refusal = fish.apply(&Action::Plan(tap.clone()), at(120)).unwrap_err();
        assert!(refusal.to_string().contains("has begun"), "{tap:?}");
    }
    for tap in [
        PlanTap::Cooks(0),
        PlanTap::Cooks(7),
        PlanTap::Cook(7, "Noor".into()),
        PlanTap::Pans(0),
        PlanTap::Pans(7),
        PlanTap::Shipped("stew".into()),
    ] {
        assert!(
            bream().apply(&Action::Plan(tap.clone()), NOW).is_err(),
            "{tap:?}"
        );
    }
    let own = act(&bream(), 0, Action::Plan(PlanTap::Own(Box::new(edited))));
    assert_eq!(own.dish().unwrap().steps.len(), 12);
    let back = act(&own, 0, Action::Plan(PlanTap::Shipped("fillet".into())));
    assert_eq!(back.dish().unwrap().id, "fillet");
}

#[test]
fn a_fish_follows_the_card_of_its_dish_until_the_service_begins() {
    let first = bream().dish().unwrap().edited(&Edit::Add).unwrap();
    let second = first.edited(&Edit::Add).unwrap();
    let card = |dish: &Sound| Action::Plan(PlanTap::Card("c1".into(), Box::new(dish.clone())));
    let chosen = act(&bream(), 0, card(&first));
    let followed = act(&chosen, 1, card(&second));
    assert_eq!(followed.dish().unwrap().steps.len(), 13);
    assert_eq!(followed.serving().card.as_deref(), Some("c1"));
    let begun = cooking(&followed);
    assert!(begun.apply(&card(&first), at(120)).is_err());
    assert_eq!(begun.dish().unwrap().steps.len(), 13);
    // What is changed for this fish alone, or by a way out, no longer follows a card.
    let gap = PlanTap::WayOut(Change::Gap {
        step: "plate".into(),
        to: "rest".into(),
        greatest: true,
        by: 100,
    });
    for tap in [
        PlanTap::Own(Box::new(first.clone())),
        PlanTap::Shipped("bream".into()),
        gap,
    ] {
        let other = act(&followed, 2, Action::Plan(tap));
        assert_eq!(other.serving().card, None);
    }
    // An older build knew of no card.
    let mut stored = serde_json::to_value(&followed).unwrap();
    stored["serving"].as_object_mut().unwrap().remove("card");
    let read: Fish = serde_json::from_value(stored).unwrap();
    assert_eq!(read.dish().unwrap().steps.len(), 13);
}

#[test]
fn a_way_out_is_taken_before_the_service_and_during_it() {
    let gap = PlanTap::WayOut(Change::Gap {
        step: "plate".into(),
        to: "rest".into(),
        greatest: true,
        by: 100,
    });
    let most = |fish: &Fish| {
        let links = &fish.dish().unwrap().step("plate").unwrap().links;
        links.iter().find(|link| link.to == "rest").unwrap().most
    };
    let before = act(&bream(), 0, Action::Plan(gap.clone()));
    assert_eq!(most(&before), Some(220));
    let during = act(&cooking(&bream()), 120, Action::Plan(gap));
    assert_eq!(most(&during), Some(220));
    assert!(during.own_dish.is_none());
    let pans = act(
        &cooking(&bream()),
        120,
        Action::Plan(PlanTap::WayOut(Change::Pans(2))),
    );
    assert_eq!(pans.dish().unwrap().pans, 2);
    let third = act(&pans, 121, Action::Plan(PlanTap::WayOut(Change::Pans(3))));
    assert_eq!((third.dish().unwrap().pans, third.serving().pans), (3, 3));
    let cooks = act(&bream(), 0, Action::Plan(PlanTap::WayOut(Change::Cook)));
    assert_eq!(cooks.serving().cooks, 2);
}

#[test]
fn the_card_reads_as_typed_or_says_what_it_lacks() {
    let fish = bream();
    let (fillet, bench, target) = fish.entered().unwrap();
    assert_eq!(
        (fillet.species.as_str(), fillet.thickness_mm),
        ("gilthead_bream", 19.0)
    );
    // 302 g ready, all in the pan at once; no non-stick pan at this bench.
    assert!((fillet.mass_g - 302.0).abs() < 1e-9);
    assert_eq!((bench.surface, target.core_c), (Surface::BakingPaper, 63.0));
    let halves = act(&fish, 0, Action::Plan(PlanTap::AtOnce("1".into())));
    assert!((halves.entered().unwrap().0.mass_g - 151.0).abs() < 1e-9);
    for (field, typed, said) in [
        (HeatField::Thickness, "", "How thick is the fillet"),
        (HeatField::Thickness, "thick", "“thick” is no figure"),
        (HeatField::Thickness, "NaN", "“NaN” is no figure"),
        (HeatField::ThinEnd, "-", "“-” is no figure"),
        (HeatField::Start, "", "How cold"),
        (HeatField::Core, "", "Which core"),
        (HeatField::PanMass, "", "What does the pan weigh"),
        (HeatField::PanBase, "wide", "“wide” is no figure"),
    ] {
        let typed = act(&fish, 0, Action::Heat(HeatTap::Typed(field, typed.into())));
        let refusal = typed.entered().unwrap_err().to_string();
        assert!(refusal.contains(said), "{refusal}");
    }
    // By eye the thickness is less sure, until it is typed.
    let eye = act(&fish, 0, Action::Heat(HeatTap::ByEye(28)));
    assert!(eye.asked(NOW).unwrap().off_mm > fish.asked(NOW).unwrap().off_mm);
    let typed = act(
        &eye,
        0,
        Action::Heat(HeatTap::Typed(HeatField::Thickness, "27,5".into())),
    );
    assert!(!typed.heat().by_eye);
    assert_eq!(typed.entered().unwrap().0.thickness_mm, 27.5);
    // Times that were taken don't outlive what they were worked out from.
    let taken = act(&fish, 0, Action::Plan(PlanTap::Times(Some(TIMES))));
    let changed = act(
        &taken,
        0,
        Action::Heat(HeatTap::Typed(HeatField::Core, "55".into())),
    );
    assert_eq!(changed.serving().times, None);
}

#[test]
fn a_reading_corrects_the_running_estimate() {
    let probe = |text: &str| Action::Heat(HeatTap::Probe(text.into()));
    let said = bream().apply(&probe("40"), NOW).unwrap_err().to_string();
    assert!(said.contains("while the fish is in the pan"), "{said}");
    let timed = act(&bream(), 0, Action::Plan(PlanTap::Times(Some(TIMES))));
    let fish = cooking(&timed);
    assert!(fish.apply(&probe("hot"), at(200)).is_err());
    let read = act(&fish, 220, probe("12,5"));
    let reading = read.last_reading().unwrap();
    assert_eq!(reading.core_c, 12.5);
    let in_pan = SoFar {
        now: 120,
        turned_at: None,
        lifted_at: None,
    };
    assert_eq!(reading.so_far, in_pan);
    let asked = read.asked(at(240)).unwrap();
    let estimate = asked.answer().unwrap();
    assert_eq!(estimate.cause, Some(ProbeCause::Contact));
    assert!(estimate.advice.skin_secs.best >= 120);
    // The question stands still while nothing happens, and follows the turn.
    assert_eq!(read.asked(at(290)).unwrap(), asked);
    let turned = serve(&read, 300, Tap::Done("skin_side".into()));
    let so_far = turned.asked(at(310)).unwrap().so_far;
    assert_eq!((so_far.now, so_far.turned_at), (200, Some(200)));
    // Its times go to the panful in hand, with the half minute it was given counted in.
    let more = serve(&read, 230, Tap::More("skin_side".into()));
    let set = act(
        &more,
        240,
        Action::Plan(PlanTap::Anew(1, FishTimes { skin: 250, ..TIMES }, None)),
    );
    assert_eq!(lasts(&set, "skin_side"), Some(250));
    assert_eq!(lasts(&set, "flesh_side"), Some(60));
    let skin = &set.run.as_ref().unwrap().steps["skin_side"];
    assert_eq!(skin.ends(250_000), at(350));
    // What is done keeps the time it was planned with.
    let again = act(
        &serve(&set, 380, Tap::Done("skin_side".into())),
        381,
        Action::Plan(PlanTap::Anew(1, FishTimes { skin: 280, ..TIMES }, None)),
    );
    assert_eq!(lasts(&again, "skin_side"), Some(250));
}

#[test]
fn a_pan_keeps_its_latest_readings_and_what_they_fit() {
    let card = PanCard::default();
    assert!(KeptPan::named(" ", &card, NOW).is_err());
    let mut pan = KeptPan::named(" black 24 ", &card, NOW).unwrap();
    assert_eq!(pan.name, "black 24");
    let fish = act(
        &cooking(&bream()),
        220,
        Action::Heat(HeatTap::Probe("12.5".into())),
    );
    let (fillet, stove, _) = fish.entered().unwrap();
    let read = (fillet, stove, fish.last_reading().unwrap());
    for _ in 0..MOST_COOKED + 2 {
        let cooked = fish.pan_reading().unwrap();
        assert_eq!(cooked.figures().unwrap(), read);
        pan = pan.apply(&PanTap::Cooked(Box::new(cooked)), NOW).unwrap();
    }
    let cooked = pan.cooked_on(Surface::BakingPaper);
    assert_eq!(
        (cooked.len(), pan.cooked_on(Surface::NonStick).len()),
        (MOST_COOKED, 0)
    );
    let fitted = scaleside::heat::probe::fit(&cooked).unwrap();
    let contact = Contact::of(Surface::BakingPaper, &fitted);
    assert!((f64::from(contact.conductance_w_per_m2_k) - fitted.conductance).abs() <= 0.5);
    assert!((f64::from(contact.factor_percent) / 100.0 - fitted.factor).abs() <= 0.005);
    for _ in 0..2 {
        pan = pan.apply(&PanTap::Fitted(contact), NOW).unwrap();
    }
    assert_eq!(pan.fitted, [contact]);
    assert_eq!(pan.contact(Surface::NonStick), None);
    let kept: KeptPan = serde_json::from_str(&serde_json::to_string(&pan).unwrap()).unwrap();
    assert_eq!(kept, pan);
}

/// A fish that an older build kept has none of this, and is read with what a new one starts from.
#[test]
fn a_fish_of_an_older_build_is_read() {
    let mut old = serde_json::to_value(cooking(&bream())).unwrap();
    for field in ["heat", "serving", "own_dish", "laid"] {
        old.as_object_mut().unwrap().remove(field);
    }
    let fish: Fish = serde_json::from_value(old).unwrap();
    assert_eq!(
        fish.serving(),
        &scaleside::fish::serving::Serving::default()
    );
    assert!(fish.dish().is_ok() && fish.timetable(at(120)).is_ok());
}
