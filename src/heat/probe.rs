//! A reading from the thermometer corrects the running estimate, and several of them fit the pan.

use serde::{Deserialize, Serialize};

use super::cook::SoFar;
use super::course::{Course, Times};
use super::refusals::NoReading;
use super::stove::{
    CONDUCTANCE_LIMITS, Fillet, MASS_LIMITS_G, Setup, Stove, THICKNESS_LIMITS_MM, THIN_LEAST_MM,
};
use crate::base::refusal::Refusal;

/// What the probe showed midway through the thickest part, and what had been done by then.
#[derive(Clone, Copy, Debug, PartialEq, serde::Serialize, serde::Deserialize)]
pub struct ProbeReading {
    /// When, and what was done.
    pub so_far: SoFar,
    /// What it showed, °C.
    pub core_c: f64,
}

/// What a reading was put down to.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum ProbeCause {
    /// The contact alone explains it.
    Contact,
    /// The contact can't (a boiling face takes what it takes): the fillet cooks as if thicker or
    /// thinner than measured.
    Thickness,
    /// Neither does within reason: look at the probe, the clock and the entries again.
    Unexplained,
}

/// Entries changed so that the estimate agrees with the reading. Advise again from these.
#[derive(Clone, Debug, PartialEq)]
pub struct Corrected {
    /// The fillet, perhaps of another thickness.
    pub fillet: Fillet,
    /// The stove, its pan with another contact conductance.
    pub stove: Stove,
    /// What was changed.
    pub cause: ProbeCause,
    /// What the estimate now says the probe should show, °C.
    pub model_c: f64,
}

/// A pan's contact conductance from its own readings.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Fitted {
    /// W/(m²·K).
    pub conductance: f64,
    /// The true figure lies within this factor either way, two times in three.
    pub factor: f64,
    /// How far the readings lie from the fitted estimate, root mean square, K.
    pub misfit_k: f64,
    /// Readings used.
    pub readings: usize,
}

/// A contact may differ from its first guess by this factor and still be a contact.
const CONTACT_FACTOR: f64 = 4.0;
/// A fillet may cook as if this much thicker or thinner than measured.
const THICKNESS_FACTOR: f64 = 1.3;
/// Looks either way from the first guess.
const STRIDES: u32 = 6;
/// Then closer, to far below what a probe shows.
const HALVINGS: u32 = 12;
/// A probe in a cook's hand, K (our choice: the tip's place matters more than the instrument).
const PROBE_K: f64 = 3.0;
/// What is known of a contact before any reading, as a logarithm: about the spread of the
/// published 250 to 650 W/(m²·K).
const PRIOR: f64 = 0.48;

/// What the probe should show.
fn expected(setup: &Setup, so_far: SoFar) -> f64 {
    let mut course = Course::start(setup, f64::INFINITY);
    course.follow(
        Times {
            turn: so_far.turned_at.unwrap_or(u32::MAX),
            lift: so_far.lifted_at.unwrap_or(u32::MAX),
        },
        so_far.now,
    );
    course.middle()
}

fn with_contact(setup: &Setup, factor: f64) -> Setup {
    let (least, most) = CONDUCTANCE_LIMITS;
    Setup {
        conductance: (setup.conductance * factor).clamp(least, most),
        ..*setup
    }
}

/// The same fish on the same area.
fn with_thickness(setup: &Setup, factor: f64) -> Setup {
    let (least, most) = THICKNESS_LIMITS_MM;
    Setup {
        thickness: (setup.thickness * factor).clamp(least / 1000.0, most / 1000.0),
        ..*setup
    }
}

fn checked(reading: &ProbeReading) -> Result<ProbeReading, Refusal> {
    reading.so_far.checked()?;
    if !(0.0..=100.0).contains(&reading.core_c) {
        return Err(NoReading::OffScale.into());
    }
    Ok(*reading)
}

/// The factor between `1/most` and `most`, nearest to one, at which `f` changes sign.
///
/// Looked for in strides: a better contact also drains the pan, and the estimate may fold back.
fn root(most: f64, f: impl Fn(f64) -> f64) -> Option<f64> {
    let stride = most.ln() / f64::from(STRIDES);
    let at_one = f(1.0);
    let mut ends = [(0.0, at_one), (0.0, at_one)];
    for i in 1..=STRIDES {
        for (end, sign) in ends.iter_mut().zip([1.0, -1.0]) {
            let next = sign * stride * f64::from(i);
            let at_next = f(next.exp());
            if at_next * end.1 <= 0.0 {
                return Some(halve(*end, next, f));
            }
            *end = (next, at_next);
        }
    }
    None
}

/// Between a logarithm whose value is known and another of the other sign.
fn halve((mut near, at_near): (f64, f64), mut far: f64, f: impl Fn(f64) -> f64) -> f64 {
    for _ in 0..HALVINGS {
        let middle = f64::midpoint(near, far);
        if f(middle.exp()) * at_near > 0.0 {
            near = middle;
        } else {
            far = middle;
        }
    }
    f64::midpoint(near, far).exp()
}

/// Changes the contact, or failing that the thickness, so that the estimate agrees with a reading.
///
/// # Errors
/// As `advise`, and for a reading that can't be right.
pub fn correct(
    fillet: &Fillet,
    stove: &Stove,
    reading: &ProbeReading,
) -> Result<Corrected, Refusal> {
    let ProbeReading { so_far, core_c } = checked(reading)?;
    let setup = Setup::new(fillet, stove)?;
    let contact = |x| with_contact(&setup, x);
    let thickness = |x| with_thickness(&setup, x);
    let (changed, cause) =
        if let Some(x) = root(CONTACT_FACTOR, |x| expected(&contact(x), so_far) - core_c) {
            (contact(x), ProbeCause::Contact)
        } else if let Some(x) = root(THICKNESS_FACTOR, |x| {
            expected(&thickness(x), so_far) - core_c
        }) {
            (thickness(x), ProbeCause::Thickness)
        } else {
            (setup, ProbeCause::Unexplained)
        };
    let mut corrected = Corrected {
        fillet: fillet.clone(),
        stove: *stove,
        cause,
        model_c: expected(&changed, so_far),
    };
    match cause {
        ProbeCause::Contact => corrected.stove.pan.conductance = Some(changed.conductance),
        ProbeCause::Thickness => {
            let share = changed.thickness / setup.thickness;
            corrected.fillet.thickness_mm = changed.thickness * 1000.0;
            corrected.fillet.thin_end_mm =
                fillet.thin_end_mm.map(|mm| (mm * share).max(THIN_LEAST_MM));
            let (least, most) = MASS_LIMITS_G;
            corrected.fillet.mass_g = (fillet.mass_g * share).clamp(least, most);
        }
        ProbeCause::Unexplained => {}
    }
    Ok(corrected)
}

/// Fits one contact conductance to the readings of one pan and surface, by least squares in its
/// logarithm, starting from what is known of any pan.
///
/// # Errors
/// When there is no reading, or one of them can't be right.
pub fn fit(history: &[(Fillet, Stove, ProbeReading)]) -> Result<Fitted, Refusal> {
    let Some((_, stove, _)) = history.first() else {
        return Err(NoReading::NoneYet.into());
    };
    let first = stove.surface.conductance();
    let cooked = history
        .iter()
        .map(|(fillet, stove, reading)| {
            let setup = Setup {
                conductance: first,
                ..Setup::new(fillet, stove)?
            };
            Ok((setup, checked(reading)?))
        })
        .collect::<Result<Vec<_>, Refusal>>()?;
    let squares = |log: f64| -> f64 {
        cooked
            .iter()
            .map(|(setup, reading)| {
                let model = expected(&with_contact(setup, log.exp()), reading.so_far);
                (model - reading.core_c).powi(2)
            })
            .sum()
    };
    let cost = |log: f64| squares(log) / PROBE_K.powi(2) + (log / PRIOR).powi(2);
    // A scan, then ever closer about its best: the cost may have more than one dip.
    let (mut best, mut width) = (0.0, CONTACT_FACTOR.ln());
    let mut least = cost(best);
    while width > 1e-3 {
        let centre = best;
        for i in -4..=4 {
            let log = centre + width * f64::from(i) / 4.0;
            let c = cost(log);
            if c < least {
                (best, least) = (log, c);
            }
        }
        width /= 3.0;
    }
    // Twice the cost's half is chi-square: its bend gives the deviation, never wider than before.
    let h = 0.1;
    let bend = (cost(best + h) - 2.0 * cost(best) + cost(best - h)) / (h * h);
    let deviation = (2.0 / bend.max(2.0 / PRIOR.powi(2))).sqrt();
    Ok(Fitted {
        conductance: first * best.exp(),
        factor: deviation.exp(),
        misfit_k: (squares(best) / cooked.len() as f64).sqrt(),
        readings: cooked.len(),
    })
}
