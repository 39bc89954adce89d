//! What a fish's heat card reads as for the estimate, and what the service has done to the fish so far.

use serde::{Deserialize, Serialize};

use super::heat_card::{HeatCard, figure, read};
use super::refusals::Asks;
use super::weighing::Which;
use crate::base::instant::Instant;
use crate::base::kit::Kit;
use crate::base::refusal::Refusal;
use crate::fish::record::Fish;
use crate::heat::advice::{Advice, BY_EYE_MM, Known, THICKNESS_MM, advise_from, times_alone};
use crate::heat::cook::SoFar;
use crate::heat::pan::{Pan, Surface};
use crate::heat::probe::{ProbeCause, ProbeReading, correct};
use crate::heat::stove::{Fillet, Stove, Target};
use crate::service::dish::laid_out::{FishTimes, panful};
use crate::service::dish::step::OfFish;

/// The kitchen's air, °C (our choice).
pub const KITCHEN_C: f64 = 24.0;

/// What is asked of the estimate, as plain values: it is worked out when the screen has time.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct EstimateQuestion {
    /// The fillet.
    pub fillet: Fillet,
    /// The stove.
    pub stove: Stove,
    /// The wanted core.
    pub target: Target,
    /// Which panful it is about, from 1.
    pub panful: u32,
    /// What has been done.
    pub so_far: SoFar,
    /// The other panfuls in hand, each by its number with what has been done: they are as thick and in the same pans.
    pub others: Vec<(u32, SoFar)>,
    /// How far off the thickness may be, mm.
    pub off_mm: f64,
    /// The reading of the probe that corrects it.
    pub reading: Option<ProbeReading>,
}

/// An estimate, and what a reading was put down to.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Estimate {
    /// The advice.
    pub advice: Advice,
    /// What the reading was put down to, where there was one.
    pub cause: Option<ProbeCause>,
    /// Which panful it is about, from 1.
    pub panful: u32,
    /// What had been done when it was asked for.
    pub so_far: SoFar,
    /// The same of the other panfuls that are in hand.
    pub others: Vec<PanfulAdvice>,
    /// The core that was wanted, °C.
    pub core_c: f64,
    /// The times of a panful that goes in later, where a reading says more than was known before.
    pub next: Option<FishTimes>,
}

/// What is advised on one of several panfuls.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct PanfulAdvice {
    /// Its number, from 1.
    pub panful: u32,
    /// What had been done with it.
    pub so_far: SoFar,
    /// The advice on the rest of its course.
    pub advice: Advice,
}

impl EstimateQuestion {
    /// Works it out: seconds of a slow phone.
    ///
    /// # Errors
    /// The sentence for the first figure that can't be right.
    pub fn answer(&self) -> Result<Estimate, Refusal> {
        let (mut fillet, mut stove, mut cause) = (self.fillet.clone(), self.stove, None);
        if let Some(reading) = &self.reading {
            let corrected = correct(&fillet, &stove, reading)?;
            (fillet, stove, cause) = (corrected.fillet, corrected.stove, Some(corrected.cause));
        }
        let known = Known {
            off_mm: self.off_mm,
            is_probed: matches!(cause, Some(ProbeCause::Contact | ProbeCause::Thickness)),
        };
        let advise = |so_far| advise_from(&fillet, &stove, &self.target, so_far, known);
        let advice = advise(self.so_far)?;
        let others = self.others.iter().map(|(panful, so_far)| {
            Ok(PanfulAdvice {
                panful: *panful,
                so_far: *so_far,
                advice: advise(*so_far)?,
            })
        });
        let others = others.collect::<Result<_, Refusal>>()?;
        let next = match cause {
            Some(ProbeCause::Contact | ProbeCause::Thickness) => {
                let (skin, finish, rest) = times_alone(&fillet, &stove, &self.target)?;
                Some(FishTimes { skin, finish, rest })
            }
            Some(ProbeCause::Unexplained) | None => None,
        };
        Ok(Estimate {
            advice,
            cause,
            panful: self.panful,
            so_far: self.so_far,
            others,
            core_c: self.target.core_c,
            next,
        })
    }
}

impl Estimate {
    /// What had been done with a panful when it was asked for, and the advice on it.
    #[must_use]
    pub fn for_panful(&self, number: u32) -> Option<(SoFar, &Advice)> {
        if number == self.panful {
            return Some((self.so_far, &self.advice));
        }
        let found = self.others.iter().find(|other| other.panful == number)?;
        Some((found.so_far, &found.advice))
    }

    /// Whether a reading of the probe stands behind it.
    #[must_use]
    pub fn is_probed(&self) -> bool {
        self.cause
            .is_some_and(|cause| cause != ProbeCause::Unexplained)
    }
}

impl From<&Advice> for FishTimes {
    fn from(advice: &Advice) -> Self {
        Self {
            skin: advice.skin_secs.best,
            finish: advice.finish_secs.best,
            rest: advice.rest_secs,
        }
    }
}

/// Reads a card for the estimate: of this species, by its key, so much of it in the pan, its skin on this.
///
/// # Errors
/// The sentence for the first figure that can't be read.
pub(super) fn entered(
    card: &HeatCard,
    species: &str,
    panful_mg: u32,
    surface: Surface,
) -> Result<(Fillet, Stove, Target), Refusal> {
    let thin_end_mm = match card.thin_end.trim() {
        "" => None,
        text => Some(figure(text)?),
    };
    let fillet = Fillet {
        species: species.to_owned(),
        thickness_mm: read(&card.thickness, Asks::Thickness)?,
        thin_end_mm,
        start_c: read(&card.start, Asks::Start)?,
        skin: true,
        mass_g: f64::from(panful_mg) / 1000.0,
    };
    let stove = Stove {
        pan: Pan {
            material: card.pan.material,
            mass_g: read(&card.pan.mass, Asks::PanMass)?,
            base_mm: read(&card.pan.base, Asks::PanBase)?,
            conductance: card.pan.contact_w_per_m2_k.map(f64::from),
        },
        surface,
        heat: card.flame.heat(),
        room_c: KITCHEN_C,
    };
    let target = Target {
        core_c: read(&card.core, Asks::Core)?,
        rule: card.rule,
    };
    Ok((fillet, stove, target))
}

impl Fish {
    /// What the skin lies on: as chosen, or as the missing kit has it.
    #[must_use]
    pub fn surface(&self) -> Surface {
        self.heat().surface.unwrap_or_else(|| {
            if self.slip.missing.contains(&Kit::NonStickPan) {
                Surface::BakingPaper
            } else {
                Surface::NonStick
            }
        })
    }

    /// The fish in the pan at one time, in whole milligrams: the ready fillets, or the portions of the dish, by the
    /// panfuls.
    pub(super) fn panful_mg(&self) -> Result<u32, Refusal> {
        let panfuls = u64::from(self.panfuls()?);
        let dish = self.dish()?;
        let mg = match self.taken_mass(Which::Ready) {
            Some(mass) => mass.mg().unsigned_abs(),
            None => u64::from(self.covers(dish)) * u64::from(dish.portion_g) * 1000,
        };
        Ok(u32::try_from(mg / panfuls.max(1)).unwrap_or(u32::MAX))
    }

    /// Reads the card for the estimate.
    ///
    /// # Errors
    /// The sentence for the first figure that can't be read.
    pub fn entered(&self) -> Result<(Fillet, Stove, Target), Refusal> {
        let key = self.slip.species.as_ref().and_then(|s| s.key());
        entered(
            self.heat(),
            key.unwrap_or_default(),
            self.panful_mg()?,
            self.surface(),
        )
    }

    pub(super) fn latest_panful(&self, by: Instant) -> Option<(u32, Instant)> {
        let begun = self.begun_panfuls(by).into_iter();
        begun.max_by_key(|(_, began)| *began)
    }

    /// The panfuls that had gone in by a moment, each by its number, and when.
    pub(super) fn begun_panfuls(&self, by: Instant) -> Vec<(u32, Instant)> {
        let (Some(run), Ok(dish)) = (&self.run, self.dish()) else {
            return Vec::new();
        };
        let skin = dish
            .steps
            .iter()
            .filter(|step| step.of_fish == Some(OfFish::SkinSide));
        skin.filter_map(|step| Some((panful(&step.id).1, run.steps.get(&step.id)?.began)))
            .filter(|(_, began)| *began <= by)
            .collect()
    }

    /// What had been done at a moment with the panful that was in the pan then, or at rest.
    #[must_use]
    pub fn so_far(&self, at: Instant) -> Option<SoFar> {
        let (number, began) = self.latest_panful(at)?;
        self.so_far_of(number, began, at)
    }

    /// The same of a panful by its number, which went in at `began`.
    pub(super) fn so_far_of(&self, number: u32, began: Instant, at: Instant) -> Option<SoFar> {
        let (run, dish) = (self.run.as_ref()?, self.dish().ok()?);
        let step = |part: OfFish| {
            let step = dish
                .steps
                .iter()
                .find(|s| s.of_fish == Some(part) && panful(&s.id).1 == number)?;
            run.steps.get(&step.id)
        };
        let secs = |moment: Instant| u32::try_from(moment.ms_since(began) / 1000).ok();
        let by_then = |moment: Instant| (moment <= at).then(|| secs(moment)).flatten();
        Some(SoFar {
            now: secs(at)?,
            turned_at: step(OfFish::SkinSide)
                .and_then(|s| s.done)
                .and_then(by_then),
            lifted_at: step(OfFish::Rest).and_then(|s| by_then(s.began)),
        })
    }

    /// The last reading of the probe, with what had been done by then, while it is of the panful in hand.
    #[must_use]
    pub fn last_reading(&self) -> Option<ProbeReading> {
        let probed = self.heat().probed.last()?;
        let began = self.latest_panful(Instant(i64::MAX))?.1;
        Some(ProbeReading {
            so_far: self.so_far(probed.at).filter(|_| probed.at >= began)?,
            core_c: figure(&probed.typed).ok()?,
        })
    }

    /// What is asked of the estimate at a moment: while fish is in hand, of the rest of its course from what really
    /// happened to it, and with the reading of the probe.
    ///
    /// # Errors
    /// The sentence for the first figure that can't be read.
    pub fn asked(&self, at: Instant) -> Result<EstimateQuestion, Refusal> {
        let (fillet, stove, target) = self.entered()?;
        let reading = self.last_reading();
        let in_hand = self.in_hand(at);
        // Not the moment itself, which never stands still: the last thing that is known.
        let known = |done: SoFar, overdue: Option<u32>, read: Option<u32>| {
            let known = [read, done.turned_at, done.lifted_at, overdue];
            SoFar {
                now: known.into_iter().flatten().max().unwrap_or_default(),
                ..done
            }
        };
        let latest = self.latest_panful(at).map_or(1, |(number, _)| number);
        let overdue = |number: u32| in_hand.iter().find(|pan| pan.panful == number)?.overdue();
        let read = reading.map(|reading| reading.so_far.now);
        let so_far = self.so_far(at);
        let so_far = so_far.map(|done| known(done, overdue(latest), read));
        // A fish nobody tapped for an hour says nothing any more: the card stands for itself again.
        let so_far = so_far.filter(|done| reading.is_some() || done.checked().is_ok());
        let so_far = so_far.unwrap_or_default();
        let others = in_hand.iter().filter(|pan| pan.panful != latest);
        let others = others.map(|pan| (pan.panful, known(pan.so_far, pan.overdue(), None)));
        let others = others.filter(|(_, done)| done.checked().is_ok()).collect();
        Ok(EstimateQuestion {
            fillet,
            stove,
            target,
            panful: latest,
            so_far,
            others,
            off_mm: if self.heat().by_eye {
                BY_EYE_MM
            } else {
                THICKNESS_MM
            },
            reading,
        })
    }
}
