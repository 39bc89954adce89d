//! What the cook is told: times, core and rest with their bands, the thin end, the safety rule.

use serde::{Deserialize, Serialize};

use super::band::{Banded, Quadrature};
use super::cook::{
    FINISH_MOST, OtherTurn, REST_LEAST, REST_MOST, SKIN_MOST, SoFar, TurnBy, other_turns, times,
};
use super::course::{CoreGoal, Course, Times};
use super::dryness::{DRY_C, Dryness};
use super::food::{self, StandIn};
use super::history::{Moment, Record};
use super::refusals::NoCourse;
use super::safety::SafetyVerdict;
use super::stove::{Fillet, Setup, Stove, Target};
use crate::base::refusal::Refusal;

/// How far off a thickness may be measured, mm.
pub const THICKNESS_MM: f64 = 1.0;
/// How far off a thickness may be judged by eye, mm (our choice).
pub const BY_EYE_MM: f64 = 3.0;
/// How far off the contact may be, as a share.
pub const CONDUCTANCE: f64 = 0.4;
/// How far off the start may be, K.
pub const START_K: f64 = 2.0;
/// The search aims this much hotter and longer than asked, for the steps it takes are not quite those
/// of the course that is shown, K and s.
const SPARE_K: f64 = 0.1;
const SPARE_SECS: u32 = 5;
/// For a rule the low end is aimed at it: in this many rounds, no hotter than this, °C (our choice: beyond it nothing is
/// left to dry), and near enough at this, K.
const ROUNDS: u32 = 3;
const MOST_AIMED_C: f64 = 80.0;
const NEAR_ENOUGH_K: f64 = 0.3;

/// What becomes of the thin end at the thick part's times.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct ThinEnd {
    /// Its own core's peak, °C.
    pub core_peak_c: f64,
    /// It dries out.
    pub overcooked: bool,
    /// What to do about it.
    pub tip: Option<String>,
}

/// The advice for one fillet. An estimate: see `safety::ESTIMATE`.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Advice {
    /// Skin side down, s; this is when to turn.
    pub skin_secs: Banded<u32>,
    /// Turned and off the heat, s.
    pub finish_secs: Banded<u32>,
    /// Lifted, s after it went in.
    pub lift_at: Banded<u32>,
    /// Rest until the core peaks, at least a minute, s.
    pub rest_secs: u32,
    /// Highest temperature of the coldest part, °C. The band is that of the core when the advised
    /// times are kept.
    pub core_peak_c: Banded<f64>,
    /// When that comes, s after it went in.
    pub peak_at: u32,
    /// Skin side down as a share of pan time.
    pub skin_share: f64,
    /// The core that is wanted, °C.
    pub wanted_c: f64,
    /// What was aimed at, °C: the wanted core or, where a rule is meant to be met, so much more that the low end meets it.
    pub aimed_c: f64,
    /// How dry the flesh gets.
    pub dryness: Dryness,
    /// How dry it would get if only the best estimate met the rule; nothing where no more was aimed at.
    pub dryness_unaimed: Option<Dryness>,
    /// The turns there are, the soonest first; none once it is in the pan.
    pub other_turns: Vec<OtherTurn>,
    /// How far up the pale, set flesh has climbed at the turn, where the fillet's side is thinner: that is the edge a cook
    /// sees; as a share of its own thickness, and that thickness, mm.
    pub pale_edge: (f64, f64),
    /// It has its skin on.
    pub has_skin: bool,
    /// When the skin has dried, s after it went in; nothing where it doesn't, or there is none.
    pub skin_dry_at: Option<u32>,
    /// The wanted core is reached (and held, where the rule asks) within the rest.
    pub reached: bool,
    /// How it stands against the rule.
    pub safety: SafetyVerdict,
    /// What the heat does at the coldest depth, as seconds at 70 °C: a comparison, see `safety::seconds_at_70`.
    pub seconds_at_70: f64,
    /// The thin end, when it was measured.
    pub thin_end: Option<ThinEnd>,
    /// The fish whose composition stands in for this one.
    pub stand_in: Option<StandIn>,
    /// Sentences for the cook.
    pub tips: Vec<String>,
    /// The course, step by step, to the end of the longest rest.
    pub course: Vec<Moment>,
}

/// Advises on a fillet that is about to go in.
///
/// # Errors
/// One sentence about the first figure that can't be right.
pub fn advise(fillet: &Fillet, stove: &Stove, target: &Target) -> Result<Advice, Refusal> {
    advise_from(fillet, stove, target, SoFar::default(), Known::default())
}

/// How much is known of a fillet.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Known {
    /// How far off its thickness may be, mm.
    pub off_mm: f64,
    /// A probe has been in it: what that says decides, and nothing is added to be sure.
    pub is_probed: bool,
}

impl Default for Known {
    /// Measured, and not cooked yet.
    fn default() -> Self {
        Self {
            off_mm: THICKNESS_MM,
            is_probed: false,
        }
    }
}

/// Advises on the rest of a course of which some is done, of a fillet of which so much is known.
///
/// # Errors
/// As `advise`; and when what was done is out of order.
pub fn advise_from(
    fillet: &Fillet,
    stove: &Stove,
    target: &Target,
    so_far: SoFar,
    known: Known,
) -> Result<Advice, Refusal> {
    let setup = Setup::new(fillet, stove)?;
    let target = target.checked()?;
    let so_far = so_far.checked()?;
    let (goal, unaimed) = goals(&target);
    let Aimed { aim, best, plain } = Aimed::at(&setup, unaimed, so_far, known);
    let record = Record::of(&setup, best, so_far);
    let (peak_c, peak_at) = record.core();
    let reached = peak_c >= goal.core_c
        && goal
            .hold
            .is_none_or(|(temp, secs)| record.held(temp) >= secs);

    let mut skin = Quadrature::around(f64::from(best.turn));
    let mut finish = Quadrature::around(f64::from(best.lift - best.turn));
    let mut lift = Quadrature::around(f64::from(best.lift));
    let by = TurnBy::Middle(record.middle_at_turn());
    for pair in setup.variants(known.off_mm) {
        let other = pair.map(|s| times(&s, aim, so_far, by));
        skin.widen(other.map(|t| f64::from(t.turn)));
        finish.widen(other.map(|t| f64::from(t.lift - t.turn)));
        lift.widen(other.map(|t| f64::from(t.lift)));
    }

    let core_peak_c = core_band(&setup, best, peak_c, known.off_mm);
    let mut tips = Vec::new();
    if !reached {
        tips.push(unreached(best, target.core_c));
    }
    Ok(Advice {
        skin_secs: skin.secs(best.turn),
        finish_secs: finish.secs(best.lift - best.turn),
        lift_at: lift.secs(best.lift),
        rest_secs: peak_at.saturating_sub(best.lift).max(REST_LEAST),
        core_peak_c,
        peak_at,
        wanted_c: target.core_c,
        aimed_c: aim.core_c - SPARE_K,
        dryness: record.dryness(),
        dryness_unaimed: plain.map(|plain| followed(&setup, plain).dryness()),
        other_turns: if so_far == SoFar::default() {
            other_turns(&setup, aim)
        } else {
            Vec::new()
        },
        pale_edge: pale_edge(&setup, fillet.thin_end_mm, best),
        has_skin: setup.skin,
        skin_dry_at: record.skin_dry_at().filter(|_| setup.skin),
        skin_share: f64::from(best.turn) / f64::from(best.lift.max(1)),
        reached,
        safety: SafetyVerdict::of(target.rule, peak_c, core_peak_c.low, |temp| {
            record.held(temp)
        }),
        seconds_at_70: record.least_seconds_at_70(),
        thin_end: fillet
            .thin_end_mm
            .map(|mm| thin_end(&setup, mm, aim, best, peak_c)),
        stand_in: food::fish(&fillet.species)?.stand_in,
        tips,
        course: record.moments,
    })
}

/// The times alone of a fillet that is about to go in: skin side down, turned, at rest, s.
///
/// # Errors
/// As `advise`.
pub fn times_alone(
    fillet: &Fillet,
    stove: &Stove,
    target: &Target,
) -> Result<(u32, u32, u32), Refusal> {
    let setup = Setup::new(fillet, stove)?;
    let (_, aim) = goals(&target.checked()?);
    let best = times(&setup, aim, SoFar::default(), TurnBy::LeastDry);
    let (_, peak_at) = Record::of(&setup, best, SoFar::default()).core();
    let rest = peak_at.saturating_sub(best.lift).max(REST_LEAST);
    Ok((best.turn, best.lift - best.turn, rest))
}

/// What is aimed at, and its times.
struct Aimed {
    aim: CoreGoal,
    best: Times,
    /// The times of the plain aim, where more than that was aimed at.
    plain: Option<Times>,
}

impl Aimed {
    /// For a rule, so much hotter than `plain` that the low end of the core's band meets it too.
    fn at(setup: &Setup, plain: CoreGoal, so_far: SoFar, known: Known) -> Self {
        let best = times(setup, plain, so_far, TurnBy::LeastDry);
        let mut aimed = Self {
            aim: plain,
            best,
            plain: None,
        };
        let Some((rule_c, _)) = plain.hold.filter(|_| !known.is_probed) else {
            return aimed;
        };
        // What is lifted is judged by what was aimed at when it went in.
        if so_far.lifted_at.is_some() {
            aimed.aim = Self::at(setup, plain, SoFar::default(), known).aim;
            return aimed;
        }
        // How much hotter is found with the turn at the same look of the fillet, and only then the turn for it.
        let by = TurnBy::Middle(Record::of(setup, best, so_far).middle_at_turn());
        aimed.heat_until(rule_c, (setup, so_far, known), by);
        if aimed.plain.is_some() {
            aimed.best = times(setup, aimed.aim, so_far, TurnBy::LeastDry);
            aimed.heat_until(rule_c, (setup, so_far, known), TurnBy::LeastDry);
        }
        aimed
    }

    /// Aims hotter until the low end of the core's band is at `rule_c`.
    fn heat_until(&mut self, rule_c: f64, of: (&Setup, SoFar, Known), by: TurnBy) {
        let (setup, so_far, known) = of;
        for _ in 0..ROUNDS {
            let peak_c = followed(setup, self.best).core().0;
            let short = rule_c - core_band(setup, self.best, peak_c, known.off_mm).low;
            // Once the pan has given all it can, no hotter aim is of use.
            let is_spent = self.best.lift >= SKIN_MOST + FINISH_MOST;
            if short <= 0.0 || is_spent || self.aim.core_c >= MOST_AIMED_C {
                return;
            }
            self.plain.get_or_insert(self.best);
            self.aim.core_c = MOST_AIMED_C.min(self.aim.core_c + short + NEAR_ENOUGH_K);
            self.best = times(setup, self.aim, so_far, by);
        }
    }
}

/// The core of these times, which is at its best `peak_c`, with its band.
fn core_band(setup: &Setup, times: Times, peak_c: f64, off_mm: f64) -> Banded<f64> {
    let mut core = Quadrature::around(peak_c);
    for pair in setup.variants(off_mm) {
        core.widen(pair.map(|s| followed(&s, times).core().0));
    }
    core.band()
}

/// What is wanted of every part, and the little more that is aimed at.
fn goals(target: &Target) -> (CoreGoal, CoreGoal) {
    let goal = CoreGoal {
        core_c: target.core_c,
        hold: target.rule.aimed_at(target.core_c),
    };
    let aim = CoreGoal {
        core_c: goal.core_c + SPARE_K,
        hold: goal.hold.map(|(temp, secs)| (temp, secs + SPARE_SECS)),
    };
    (goal, aim)
}

impl SoFar {
    /// The same, checked.
    ///
    /// # Errors
    /// When the moments are out of order or lie hours apart.
    pub fn checked(self) -> Result<Self, Refusal> {
        let turned = self.turned_at.unwrap_or(self.now);
        let lifted = self.lifted_at.unwrap_or(self.now);
        if self.lifted_at.is_some() && self.turned_at.is_none() {
            return Err(NoCourse::NeverTurned.into());
        }
        if turned > lifted || lifted > self.now {
            return Err(NoCourse::OutOfOrder.into());
        }
        if self.now > 2 * (SKIN_MOST + FINISH_MOST + REST_MOST) {
            return Err(NoCourse::TooLongAgo.into());
        }
        Ok(self)
    }
}

/// The course of these times to the end of the longest rest.
fn followed(setup: &Setup, times: Times) -> Course<'_> {
    let mut course = Course::start(setup, f64::INFINITY);
    course.follow(times, times.lift + REST_MOST);
    course
}

/// Flesh is set and pale from here, °C: where salmon's myosin and collagen come apart ("Protein Denaturation and Textural
/// Changes of Atlantic Salmon During Simulated Cooking", *Food Biophysics*).
const SET_C: f64 = 40.0;
/// How thick the side of a fillet is beside its thickest part, where its thin end was not measured (our choice, no source).
const SIDE_SHARE: f64 = 0.6;

fn pale_edge(setup: &Setup, thin_end_mm: Option<f64>, times: Times) -> (f64, f64) {
    let mm = thin_end_mm.unwrap_or(setup.thickness * 1000.0 * SIDE_SHARE);
    let side = Setup {
        thickness: mm / 1000.0,
        ..*setup
    };
    let mut course = Course::start(&side, f64::INFINITY);
    course.follow(
        Times {
            turn: u32::MAX,
            lift: u32::MAX,
        },
        times.turn,
    );
    let temps = course.slab().temps();
    let pale = temps.iter().take_while(|t| **t >= SET_C).count();
    let share = pale as f64 / temps.len().max(1) as f64;
    (share, mm)
}

fn unreached(best: Times, core_c: f64) -> String {
    let pan = (best.lift - best.turn) / 60;
    format!(
        "The pan alone does not bring the core to {core_c:.0} °C within {} minutes skin side down and {pan} after the turn: leave the heat on low after the turn, or finish it in the oven, and go by the probe.",
        best.turn.div_ceil(60)
    )
}

fn thin_end(setup: &Setup, mm: f64, goal: CoreGoal, best: Times, core_c: f64) -> ThinEnd {
    let thin = Setup {
        thickness: mm / 1000.0,
        ..*setup
    };
    let core_peak_c = followed(&thin, best).core().0;
    let overcooked = core_peak_c >= DRY_C && core_peak_c > core_c + 1.0;
    let tip = overcooked.then(|| {
        let own = times(&thin, goal, SoFar::default(), TurnBy::LeastDry);
        let later = best.lift.saturating_sub(own.lift);
        format!(
            "The thin end reaches about {core_peak_c:.0} °C while the thick part reaches {core_c:.0} °C: fold it under to even the thickness, or trim it off and lay it in {} min {:02} s later.",
            later / 60,
            later % 60,
        )
    });
    ThinEnd {
        core_peak_c,
        overcooked,
        tip,
    }
}

impl Setup {
    /// Thickness, contact and start, each too low and too high by its uncertainty.
    fn variants(&self, off_mm: f64) -> [[Self; 2]; 3] {
        let thickness = |mm: f64| Self {
            thickness: (self.thickness + mm / 1000.0).max(0.002),
            ..*self
        };
        let conductance = |share: f64| Self {
            conductance: self.conductance * share,
            ..*self
        };
        let start = |k: f64| Self {
            start_c: (self.start_c + k).max(0.0),
            ..*self
        };
        [
            [thickness(-off_mm), thickness(off_mm)],
            [
                conductance(1.0 - CONDUCTANCE),
                conductance(1.0 + CONDUCTANCE),
            ],
            [start(-START_K), start(START_K)],
        ]
    }
}
