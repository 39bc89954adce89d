//! When the skin has dried, how dry the flesh gets, and that no other turn dries less of it: against scipy's method of
//! lines.

use scaleside::heat::advice::{Advice, advise};
use scaleside::heat::course::{Course, Times};
use scaleside::heat::dryness::Dryness;
use scaleside::heat::safety::Rule;
use scaleside::heat::stove::{Setup, Target};
use serde::Deserialize;

use crate::course::stove;
use crate::{Case, near};

/// Made by `tests/vectors/heat_skin.py`; the file carries the library versions.
#[derive(Deserialize)]
struct Reference {
    cases: Vec<Scanned>,
}

#[derive(Deserialize)]
struct Scanned {
    #[serde(flatten)]
    case: Case,
    wanted_c: f64,
    skin_dry_at: f64,
    splits: Vec<Split>,
}

/// One turn, the earliest lift that brings the core there, and what comes of it.
#[derive(Deserialize)]
struct Split {
    turn: u32,
    lift: u32,
    dry: f64,
    mean_secs: f64,
}

fn scanned() -> Vec<Scanned> {
    let reference: Reference =
        serde_json::from_str(include_str!("../vectors/heat_skin.json")).unwrap();
    assert_eq!(reference.cases.len(), 4);
    reference.cases
}

impl Scanned {
    /// What is advised on it, to preference.
    fn advised(&self) -> Advice {
        let (fillet, stove) = stove(&self.case);
        let target = Target {
            core_c: self.wanted_c,
            rule: Rule::Preference,
        };
        advise(&fillet, &stove, &target).unwrap()
    }
}

#[test]
fn what_gets_dry_is_what_the_method_of_lines_says() {
    let (mut worst_share, mut worst_secs) = (0.0_f64, 0.0_f64);
    for scan in scanned() {
        let (fillet, stove) = stove(&scan.case);
        let setup = Setup::new(&fillet, &stove).unwrap();
        for split in &scan.splits {
            let mut course = Course::start(&setup, f64::INFINITY);
            let times = Times {
                turn: split.turn,
                lift: split.lift,
            };
            course.follow(times, split.lift + 300);
            let ours = course.dryness();
            let what = format!("{}, turned at {} s", scan.case.name, split.turn);
            near(&what, ours.share, split.dry, 0.04);
            near(
                &what,
                ours.mean_secs,
                split.mean_secs,
                6.0 + split.mean_secs * 0.05,
            );
            worst_share = worst_share.max((ours.share - split.dry).abs());
            worst_secs = worst_secs.max((ours.mean_secs - split.mean_secs).abs());
        }
    }
    println!("worst share {worst_share:.3}, worst mean {worst_secs:.1} s off scipy");
}

/// The trade's two to three minutes for the skin lie about it (common practice, no source).
#[test]
fn the_skin_dries_when_the_method_of_lines_says() {
    for scan in scanned() {
        let dry = scan.advised().skin_dry_at.unwrap();
        println!(
            "{}: dry at {dry} s, scipy {} s",
            scan.case.name, scan.skin_dry_at
        );
        near(&scan.case.name, f64::from(dry), scan.skin_dry_at, 8.0);
    }
}

#[test]
fn no_other_turn_of_the_independent_scan_is_less_dry() {
    for scan in scanned() {
        let advice = scan.advised();
        let allowed = scan
            .splits
            .iter()
            .filter(|s| f64::from(s.turn) >= scan.skin_dry_at);
        let least = allowed.clone().map(|s| s.dry).fold(f64::INFINITY, f64::min);
        let Dryness { share, mean_secs } = advice.dryness;
        let shortest = allowed
            .filter(|s| s.dry <= least + 0.02)
            .map(|s| s.mean_secs)
            .fold(f64::INFINITY, f64::min);
        println!(
            "{}: turn {} of {} s ({:.0} %): {:.0} % dry for {mean_secs:.0} s; the scan's least {:.0} % for {shortest:.0} s",
            scan.case.name,
            advice.skin_secs.best,
            advice.lift_at.best,
            100.0 * advice.skin_share,
            100.0 * share,
            100.0 * least,
        );
        // As far as a share may lie off the independent course, see above.
        assert!(share <= least + 0.04, "{}", scan.case.name);
        assert!(mean_secs <= shortest * 1.1 + 6.0, "{}", scan.case.name);
    }
}

/// The slider: what an earlier or a later turn would do. None of those that let the skin dry is less dry than the one that
/// is told, and what is said follows from its figures.
#[test]
fn no_other_turn_of_the_slider_is_less_dry() {
    for scan in scanned() {
        let advice = scan.advised();
        let turns = &advice.other_turns;
        assert!((5..=10).contains(&turns.len()), "{}", turns.len());
        assert!(
            turns
                .windows(2)
                .all(|w| w[0].turn < w[1].turn && w[0].skin_dried <= w[1].skin_dried)
        );
        for other in turns {
            let said = other.said();
            println!("{}: {said}", scan.case.name);
            assert_eq!(said.contains("the skin has dried"), other.skin_dried >= 1.0);
            assert!(said.contains(&format!(
                "{:.0} % of the thickness",
                100.0 * other.dryness.share
            )));
            assert!(other.skin_dried < 1.0 || advice.dryness.share <= other.dryness.share + 0.01);
        }
    }
}
