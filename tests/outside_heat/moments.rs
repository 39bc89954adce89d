//! Courses that went otherwise than planned: what is advised from the real moments, against scipy's method of lines.

use scaleside::fish::estimate::EstimateQuestion;
use scaleside::heat::cook::SoFar;
use scaleside::heat::safety::Rule;
use scaleside::heat::stove::Target;
use serde::Deserialize;

use crate::course::stove;
use crate::{Case, near};

/// Made by `tests/vectors/heat_moments.py`; the file carries the library versions.
#[derive(Deserialize)]
struct Moments {
    cases: Vec<Went>,
}

#[derive(Deserialize)]
struct Went {
    #[serde(flatten)]
    case: Case,
    wanted_c: f64,
    tries: Vec<Try>,
}

#[derive(Deserialize)]
struct Try {
    what: String,
    turned: u32,
    now: u32,
    lifted: Option<u32>,
    lift: u32,
    core_c: f64,
}

/// The core may lie so far off the independent course, K: as the middle of a whole course may.
const CORE_K: f64 = 0.7;
/// What a second longer in a pan that is still hot gives the core, K: the contact's heat (450 W/(m²·K) over some 70 K) in
/// the flesh of 12 mm.
const K_PER_SEC: f64 = 0.6;
/// The lift may lie so far off it, s: the little more that is aimed at (0.1 K), and whole steps of up to four seconds.
const LIFT_SECS: f64 = 12.0;

/// Late turn, early turn, a held timer, early lift, late lift, of panfuls in hand together: the lift that is advised and the
/// core that is foretold.
#[test]
fn what_is_advised_from_the_real_moments_follows_the_method_of_lines() {
    let moments: Moments =
        serde_json::from_str(include_str!("../vectors/heat_moments.json")).unwrap();
    let (mut worst_core, mut worst_lift, mut count) = (0.0_f64, 0.0_f64, 0);
    for went in &moments.cases {
        let (fillet, stove) = stove(&went.case);
        let target = Target {
            core_c: went.wanted_c,
            rule: Rule::Preference,
        };
        let so_far = |tried: &Try| SoFar {
            now: tried.now,
            turned_at: Some(tried.turned),
            lifted_at: tried.lifted,
        };
        // All of them in hand at once, beside one that has just gone in: each panful is followed by itself.
        let others = (2..).zip(went.tries.iter().map(so_far)).collect();
        let question = EstimateQuestion {
            fillet,
            stove,
            target,
            panful: 1,
            so_far: SoFar::default(),
            others,
            off_mm: 1.0,
            reading: None,
        };
        let estimate = question.answer().unwrap();
        for (number, tried) in (2..).zip(&went.tries) {
            let (done, advice) = estimate.for_panful(number).unwrap();
            assert_eq!(done, so_far(tried));
            let what = format!("{}, {}", went.case.name, tried.what);
            let lift = f64::from(advice.lift_at.best);
            near(&what, lift, f64::from(tried.lift), LIFT_SECS);
            let later = (lift - f64::from(tried.lift)).abs();
            near(
                &what,
                advice.core_peak_c.best,
                tried.core_c,
                CORE_K + K_PER_SEC * later,
            );
            assert_eq!(advice.skin_secs.best, tried.turned, "{what}");
            assert!(tried.lifted.is_none() || advice.lift_at.best == tried.lift);
            worst_core = worst_core.max((advice.core_peak_c.best - tried.core_c).abs());
            worst_lift = worst_lift.max((lift - f64::from(tried.lift)).abs());
            count += 1;
        }
    }
    assert!(count >= 30, "only {count} courses");
    println!(
        "{count} courses: worst core {worst_core:.2} K, worst lift {worst_lift:.0} s off scipy"
    );
}
