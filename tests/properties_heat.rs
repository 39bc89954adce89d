//! What must hold of the heat estimate for any fillet, pan and cook.
#![cfg(not(target_arch = "wasm32"))]
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::indexing_slicing,
    clippy::panic,
    missing_docs
)]

use proptest::prelude::*;
use scaleside::heat::advice::{Advice, Known, advise, advise_from};
use scaleside::heat::band::Banded;
use scaleside::heat::cook::{REST_MOST, SoFar};
use scaleside::heat::course::{Course, Times};
use scaleside::heat::pan::{Heat, Material, Pan, Surface};
use scaleside::heat::probe::{ProbeCause, ProbeReading, correct, fit};
use scaleside::heat::safety::Rule;
use scaleside::heat::stove::{Fillet, Setup, Stove, Target};

prop_compose! {
    fn stove()(
        material in proptest::sample::select(Material::ALL.to_vec()),
        surface in proptest::sample::select(Surface::ALL.to_vec()),
        mass_g in 400.0..2500.0,
        conductance in proptest::option::of(60.0..900.0),
        set_c in 130.0..240.0,
        power_w in 400.0..2500.0,
        room_c in 15.0..35.0,
    ) -> Stove {
        Stove {
            pan: Pan { material, mass_g, base_mm: 260.0, conductance },
            surface,
            heat: Heat { set_c, power_w },
            room_c,
        }
    }
}

prop_compose! {
    fn fillet()(
        species in proptest::sample::select(vec!["cod", "salmon", "gilthead_bream", "sunfish"]),
        thickness_mm in 6.0..35.0,
        thin in proptest::option::of(0.4..1.0),
        start_c in 0.0..20.0,
        skin: bool,
        area in 0.004..0.03,
    ) -> Fillet {
        Fillet {
            species: species.into(),
            thickness_mm,
            thin_end_mm: thin.map(|share| thickness_mm * share),
            start_c,
            skin,
            mass_g: area * thickness_mm * 1050.0 * (1.0 + thin.unwrap_or(1.0)) / 2.0,
        }
    }
}

fn target() -> impl Strategy<Value = Target> {
    (45.0..75.0, proptest::sample::select(Rule::ALL.to_vec()))
        .prop_map(|(core_c, rule)| Target { core_c, rule })
}

/// Anything a keyboard, or a damaged record, may hold.
fn anything() -> impl Strategy<Value = f64> {
    prop_oneof![
        3 => any::<f64>(),
        3 => -10.0..500.0,
        1 => Just(f64::NAN),
        1 => Just(f64::INFINITY),
        1 => Just(0.0),
    ]
}

fn config(cases: u32) -> ProptestConfig {
    ProptestConfig {
        cases,
        failure_persistence: None,
        ..ProptestConfig::default()
    }
}

fn core(fillet: &Fillet, stove: &Stove, times: Times) -> f64 {
    let setup = Setup::new(fillet, stove).unwrap();
    let mut course = Course::start(&setup, f64::INFINITY);
    course.follow(times, times.lift + REST_MOST);
    course.core().0
}

/// The advice on a fillet that has just been turned.
fn turned_at(turn: u32, fillet: &Fillet, stove: &Stove, target: &Target) -> Advice {
    let so_far = SoFar {
        now: turn,
        turned_at: Some(turn),
        lifted_at: None,
    };
    advise_from(fillet, stove, target, so_far, Known::default()).unwrap()
}

fn holds<T: PartialOrd>(band: &Banded<T>) -> bool {
    band.low <= band.best && band.best <= band.high
}

fn is_sound(a: &Advice, target: &Target) {
    assert!(holds(&a.skin_secs) && holds(&a.finish_secs) && holds(&a.lift_at));
    assert!(
        holds(&a.core_peak_c) && a.core_peak_c.low.is_finite() && a.core_peak_c.high.is_finite()
    );
    assert_eq!(a.skin_secs.best + a.finish_secs.best, a.lift_at.best);
    assert!((0.0..=1.0).contains(&a.skin_share));
    assert!(a.rest_secs <= REST_MOST);
    assert_eq!(a.reached, a.tips.is_empty());
    if a.reached {
        assert!(a.core_peak_c.best >= target.core_c);
        if target.rule.aimed_at(target.core_c).is_some() {
            assert!(a.safety.met.is_some());
        }
    }
}

proptest! {
    #![proptest_config(config(24))]

    #[test]
    fn advice_is_sound(f in fillet(), b in stove(), t in target()) {
        is_sound(&advise(&f, &b, &t).unwrap(), &t);
    }

    #[test]
    fn temperatures_stay_within_their_sources(f in fillet(), b in stove(), t in target()) {
        let a = advise(&f, &b, &t).unwrap();
        // A wet top may cool below the air, by less than its wet bulb does.
        let floor = f.start_c.min(b.room_c - 15.0);
        for m in &a.course {
            for c in [m.skin_c, m.middle_c, m.flesh_c] {
                prop_assert!((floor..=100.0 + 1e-6).contains(&c), "{m:?}");
            }
            prop_assert!(m.base_c <= b.heat.set_c + 1e-6 && m.base_c >= f.start_c.min(b.room_c) - 1e-6, "{m:?}");
        }
        prop_assert!(a.course.windows(2).all(|w| w[0].secs < w[1].secs));
    }

    /// Closes only if every step was solved.
    #[test]
    fn the_heat_balance_closes(f in fillet(), b in stove(), turn in 4_u32..400, finish in 0_u32..180) {
        let setup = Setup::new(&f, &b).unwrap();
        let mut course = Course::start(&setup, f64::INFINITY);
        let (mut flesh, mut pan, mut moved) = (course.slab().heat(), 0.0, 0.0);
        for stage in 0..3 {
            let end = [turn, turn + finish, turn + finish + REST_MOST][stage];
            match stage {
                1 => course.turn(),
                2 => {
                    let held = setup.pan.capacity() / setup.area * (course.slab().base_c() - b.heat.set_c);
                    prop_assert!((pan - held).abs() <= moved * 1e-9, "{pan} {held}");
                    course.lift();
                }
                _ => {}
            }
            while course.secs() < end {
                let f = course.step(end);
                flesh += f.contact - f.boiled - f.dry - f.vapour;
                pan += f.burner - f.lost - f.contact;
                moved += f.burner + f.contact.abs();
                prop_assert!(f.boiled >= 0.0 && f.burner >= 0.0 && f.vapour >= 0.0);
            }
        }
        prop_assert!((flesh - course.slab().heat()).abs() <= moved * 1e-9);
    }

    #[test]
    fn more_heat_never_cools_the_core(
        f in fillet(), b in stove(), turn in 20_u32..400, finish in 0_u32..180,
        hotter in 0.0..40.0, stronger in 0.0..1000.0,
    ) {
        let times = Times { turn, lift: turn + finish };
        let mut more = b;
        more.heat.set_c += hotter;
        more.heat.power_w += stronger;
        let (hot, cool) = (core(&f, &more, times), core(&f, &b, times));
        prop_assert!(hot >= cool - 1e-3, "{hot} {cool}");
    }

    // Which turn dries the least changes with thickness and core, and with it the whole pan time: compared are fillets that
    // are turned at the same moment.
    #[test]
    fn thicker_is_never_done_sooner(f in fillet(), b in stove(), t in target(), turn in 20_u32..400, extra in 1.0..10.0) {
        let f = Fillet { thin_end_mm: None, ..f };
        let thicker = Fillet {
            thickness_mm: f.thickness_mm + extra,
            mass_g: f.mass_g * (f.thickness_mm + extra) / f.thickness_mm,
            ..f.clone()
        };
        // Near boiling a thin slab is all but steady and its thickness no longer counts.
        let t = Target { core_c: t.core_c.min(63.0), rule: Rule::Preference };
        let (thin, thick) = (turned_at(turn, &f, &b, &t), turned_at(turn, &thicker, &b, &t));
        prop_assert!(thin.reached || !thick.reached);
        if thick.reached {
            // Times are told to four seconds.
            prop_assert!(
                thick.lift_at.best + 4 >= thin.lift_at.best,
                "{} {}", thick.lift_at.best, thin.lift_at.best
            );
        }
    }

    #[test]
    fn a_hotter_core_is_never_lifted_sooner(f in fillet(), b in stove(), t in target(), turn in 20_u32..400, extra in 0.0..8.0) {
        let t = Target { rule: Rule::Preference, ..t };
        let hotter = Target { core_c: t.core_c + extra, ..t };
        let (less, more) = (turned_at(turn, &f, &b, &t), turned_at(turn, &f, &b, &hotter));
        prop_assert!(less.reached || !more.reached);
        if more.reached {
            prop_assert!(more.lift_at.best >= less.lift_at.best);
        }
    }

    #[test]
    fn what_is_done_is_never_changed(f in fillet(), b in stove(), t in target(), now in 0_u32..900, turned: bool, lifted: bool) {
        let so_far = SoFar {
            now,
            turned_at: turned.then_some(now / 2),
            lifted_at: (turned && lifted).then_some(now * 3 / 4),
        };
        let a = advise_from(&f, &b, &t, so_far, Known::default()).unwrap();
        is_sound(&a, &t);
        match (so_far.turned_at, so_far.lifted_at) {
            (Some(turn), Some(lift)) => prop_assert_eq!((a.skin_secs.best, a.lift_at.best), (turn, lift)),
            (Some(turn), None) => {
                prop_assert_eq!(a.skin_secs.best, turn);
                prop_assert!(a.lift_at.best >= now);
            }
            (None, _) => prop_assert!(a.skin_secs.best >= now),
        }
    }

    #[test]
    fn a_reading_the_model_can_make_is_explained(f in fillet(), b in stove(), now in 40_u32..400, log in -1.0..1.0_f64, turned: bool) {
        let so_far = SoFar { now, turned_at: turned.then_some(now * 2 / 3), lifted_at: None };
        let mut truth = b;
        truth.pan.conductance = Some(b.conductance() * log.exp());
        let setup = Setup::new(&f, &truth).unwrap();
        let mut course = Course::start(&setup, f64::INFINITY);
        course.follow(Times { turn: so_far.turned_at.unwrap_or(u32::MAX), lift: u32::MAX }, now);
        let reading = ProbeReading { so_far, core_c: course.middle() };
        let c = correct(&f, &b, &reading).unwrap();
        prop_assert!((c.model_c - reading.core_c).abs() < 0.3 || c.cause == ProbeCause::Unexplained);
        prop_assert!(c.cause != ProbeCause::Unexplained || (c.model_c - reading.core_c).abs() < 1.0);
        advise_from(&c.fillet, &c.stove, &Target { core_c: 55.0, rule: Rule::Preference }, so_far, Known::default()).unwrap();
    }

    #[test]
    fn a_reading_far_off_still_gives_advice(f in fillet(), b in stove(), now in 0_u32..900, core_c in 0.0..100.0) {
        let reading = ProbeReading { so_far: SoFar { now, ..SoFar::default() }, core_c };
        let c = correct(&f, &b, &reading).unwrap();
        prop_assert!(c.model_c.is_finite());
        prop_assert!((c.model_c - core_c).abs() < 0.3 || c.cause == ProbeCause::Unexplained);
        is_sound(
            &advise_from(&c.fillet, &c.stove, &Target { core_c: 50.0, rule: Rule::Preference }, reading.so_far, Known::default()).unwrap(),
            &Target { core_c: 50.0, rule: Rule::Preference },
        );
    }
}

proptest! {
    #![proptest_config(config(150))]

    #[test]
    fn bad_entries_get_a_sentence_and_never_nonsense(
        entries in proptest::collection::vec(anything(), 11),
        which in proptest::collection::vec(proptest::bool::weighted(0.2), 11),
        thin: bool, fitted: bool,
    ) {
        let good = [18.0, 9.0, 5.0, 150.0, 1200.0, 240.0, 400.0, 180.0, 1200.0, 22.0, 52.0];
        let v: Vec<f64> = (0..11).map(|i| if which[i] { entries[i] } else { good[i] }).collect();
        let f = Fillet {
            species: "cod".into(),
            thickness_mm: v[0],
            thin_end_mm: thin.then_some(v[1]),
            start_c: v[2],
            skin: true,
            mass_g: v[3],
        };
        let b = Stove {
            pan: Pan {
                material: Material::Steel,
                mass_g: v[4],
                base_mm: v[5],
                conductance: fitted.then_some(v[6]),
            },
            surface: Surface::BakingPaper,
            heat: Heat { set_c: v[7], power_w: v[8] },
            room_c: v[9],
        };
        let t = Target { core_c: v[10], rule: Rule::FdaIntact };
        match advise(&f, &b, &t) {
            Ok(a) => {
                is_sound(&a, &t);
                prop_assert!(v.iter().zip([true, thin, true, true, true, true, fitted, true, true, true, true]).all(|(x, used)| !used || x.is_finite()));
            }
            Err(refusal) => prop_assert!(refusal.to_string().ends_with('.')),
        }
        let reading = ProbeReading { so_far: SoFar { now: 60, ..SoFar::default() }, core_c: v[0] };
        if let Ok(c) = correct(&f, &b, &reading) {
            prop_assert!(c.model_c.is_finite());
        }
    }
}

/// Readings from a poor contact, where the contact is what limits, give the contact back (a little
/// towards the first guess, which three readings don't outweigh); readings
/// from a boiling one say little, and the factor says so.
#[test]
fn a_pan_is_fitted_from_its_readings() {
    for (truth, noise, least, most, widest) in [
        (90.0, [0.0, 0.0, 0.0], 90.0, 110.0, 1.25),
        (90.0, [1.5, -2.0, 1.0], 80.0, 120.0, 1.25),
        (500.0, [0.0, 0.0, 0.0], 300.0, 600.0, 1.65),
    ] {
        let history: Vec<_> = [(12.0, 90_u32), (16.0, 150), (20.0, 240)]
            .into_iter()
            .zip(noise)
            .map(|((mm, now), off)| {
                let f = Fillet {
                    species: "cod".into(),
                    thickness_mm: mm,
                    thin_end_mm: None,
                    start_c: 5.0,
                    skin: true,
                    mass_g: 8.0 * mm,
                };
                let mut b = Stove {
                    pan: Pan {
                        material: Material::CastIron,
                        mass_g: 2000.0,
                        base_mm: 240.0,
                        conductance: Some(truth),
                    },
                    surface: Surface::BakingPaper,
                    heat: Heat::MEDIUM,
                    room_c: 22.0,
                };
                let setup = Setup::new(&f, &b).unwrap();
                let mut course = Course::start(&setup, f64::INFINITY);
                course.follow(
                    Times {
                        turn: u32::MAX,
                        lift: u32::MAX,
                    },
                    now,
                );
                let reading = ProbeReading {
                    so_far: SoFar {
                        now,
                        ..SoFar::default()
                    },
                    core_c: course.middle() + off,
                };
                b.pan.conductance = None;
                (f, b, reading)
            })
            .collect();
        let fitted = fit(&history).unwrap();
        assert!(
            (least..=most).contains(&fitted.conductance),
            "{truth}: {fitted:?}"
        );
        assert!(
            fitted.factor >= 1.0 && fitted.factor <= widest,
            "{truth}: {fitted:?}"
        );
        assert_eq!(fitted.readings, 3);
        println!("contact {truth}: {fitted:?}");
    }
    assert!(fit(&[]).is_err());
}
