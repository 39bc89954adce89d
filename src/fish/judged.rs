//! What is to be said of a weight before it is taken: that it can't be, or what it makes worth asking about.

use super::record::Fish;
use super::refusals::NoWeighing;
use super::slip::{Slip, Species};
use super::weighing::{Doubt, Judgement, ScaleReading, Which};
use crate::base::refusal::Refusal;
use crate::prep::filleting::Shape;
use crate::trade::breakdown::{Breakdown, DeliveryForm, Weights};
use crate::trade::mass::{self, Mass};
use crate::trade::plausible::{YieldVerdict, plausible};
use crate::trade::species;

impl Fish {
    /// What a reading weighs: as keyed, less what the scale shows empty for each of the weights that were added up.
    ///
    /// # Errors
    /// The sentence for figures that are no weight, or no more than the empty scale shows.
    pub fn mass_of(&self, reading: &ScaleReading) -> Result<Mass, Refusal> {
        let mass = reading.mass()?;
        let Slip { scale, zero, .. } = self.slip;
        let left = scale.less_zero(mass, zero, reading.weights());
        if left <= Mass::ZERO || left > Mass::HEAVIEST {
            return Err(NoWeighing::EmptyScale.into());
        }
        Ok(left)
    }

    /// What one of the weighings comes to, as keyed.
    ///
    /// # Errors
    /// As [`Fish::mass_of`].
    pub fn mass(&self, which: Which) -> Result<Mass, Refusal> {
        self.mass_of(self.reading(which))
    }

    /// What one of the weighings comes to, once the cook has taken it.
    #[must_use]
    pub fn taken_mass(&self, which: Which) -> Option<Mass> {
        let taken = self.reading(which).taken;
        taken.then(|| self.mass(which).ok()).flatten()
    }

    /// What the empty scale shows, where that is not nothing.
    #[must_use]
    pub fn zero_shown(&self) -> Option<String> {
        let Slip { scale, zero, .. } = self.slip;
        (zero != Mass::ZERO).then(|| mass::show(zero, scale.unit()))
    }

    /// What is to be said of a weight as keyed, before it is taken.
    #[must_use]
    pub fn judge(&self, which: Which) -> Judgement {
        let mass = match self.mass(which) {
            Ok(mass) => mass,
            Err(refusal) => return Judgement::Wrong(refusal),
        };
        if let Err(refusal) = self.fits(which, mass) {
            return Judgement::Wrong(refusal);
        }
        let doubt = self.doubts(which).into_iter().next();
        doubt.map_or(Judgement::Fine(mass), Judgement::Doubt)
    }

    /// Everything a weight as keyed makes worth asking about, one question after the other: first whether it can be the
    /// weight of such a fish, and then whether the scale can have shown it. A slip of a key is often both.
    #[must_use]
    pub fn doubts(&self, which: Which) -> Vec<Doubt> {
        let Ok(mass) = self.mass(which) else {
            return Vec::new();
        };
        let scale = self.slip.scale;
        let between =
            (!self.reading(which).is_on_a_step(scale)).then_some(Doubt::BetweenSteps(scale));
        let odd = self.slip.form.and_then(|form| self.odd(which, mass, form));
        odd.into_iter().chain(between).collect()
    }

    /// The fish as delivered, put together again from its fillets and what came off them; nothing before both are keyed.
    #[must_use]
    pub fn put_together(&self) -> Option<ScaleReading> {
        let sum = ScaleReading {
            typed: format!("{}+{}", self.off_bone.typed, self.frame.typed),
            unit: self.off_bone.unit,
            taken: true,
        };
        sum.mass().is_ok().then_some(sum)
    }

    fn fits(&self, which: Which, mass: Mass) -> Result<(), Refusal> {
        if which == Which::Frame {
            return match self.put_together() {
                Some(_) => Ok(()),
                None => Err(NoWeighing::FilletsFirst.into()),
            };
        }
        if which == Which::Ready && self.raw == Some(false) {
            return Err(NoWeighing::Cooked.into());
        }
        if which == Which::Ready && self.raw.is_none() {
            return Err(NoWeighing::RawOrNot.into());
        }
        let whole = self
            .taken_mass(Which::Whole)
            .filter(|_| which != Which::Whole);
        if whole.is_some_and(|whole| mass > whole) {
            return Err(NoWeighing::OverWhole.into());
        }
        let off_bone = self
            .taken_mass(Which::OffBone)
            .filter(|_| which == Which::Ready);
        if off_bone.is_some_and(|off_bone| mass > off_bone) {
            return Err(NoWeighing::OverOffBone.into());
        }
        Ok(())
    }

    /// What is odd about a weight of a fish of this kind.
    fn odd(&self, which: Which, mass: Mass, form: DeliveryForm) -> Option<Doubt> {
        match which {
            Which::Whole => self.odd_fish(mass, form),
            Which::Frame => self.odd_fish(self.mass_of(&self.put_together()?).ok()?, form),
            Which::OffBone => {
                let whole = self.taken_mass(Which::Whole)?;
                let odd = species::off_bone_doubt(
                    whole,
                    mass,
                    self.species_key(),
                    form,
                    self.off_bone.unit,
                );
                // Off the bone there is more on the fillet than any published yield counts.
                odd.map(Doubt::OffBone).or_else(|| {
                    self.odd_yield(mass, form)
                        .filter(|doubt| *doubt != Doubt::Yield(YieldVerdict::FarTooHigh))
                })
            }
            Which::Ready => self.odd_yield(mass, form),
        }
    }

    fn odd_fish(&self, mass: Mass, form: DeliveryForm) -> Option<Doubt> {
        let count = i64::from(self.slip.read_count().unwrap_or(1));
        let each = Mass::from_mg(mass.mg().checked_div(count)?);
        let odd = species::doubt(each, self.species_key(), form, self.whole.unit)?;
        Some(if count > 1 {
            Doubt::EachOf(count, odd)
        } else {
            Doubt::OneFish(odd)
        })
    }

    fn odd_yield(&self, mass: Mass, form: DeliveryForm) -> Option<Doubt> {
        let verdict = |mass| {
            let weights = Weights {
                delivered: self.taken_mass(Which::Whole)?,
                off_bone: None,
                ready: mass,
            };
            let yields = Breakdown::of(weights).ok()?.yield_ratio();
            Some(plausible(self.species_key(), form, yields))
        };
        let both = mass.checked_add(mass)?;
        // One fillet is judged as if the other were like it.
        if self.one_fillet {
            return match verdict(both) {
                Some(odd @ (YieldVerdict::FarTooLow | YieldVerdict::FarTooHigh)) => {
                    Some(Doubt::Yield(odd))
                }
                _ => None,
            };
        }
        match verdict(mass)? {
            // Of the four of a flat fish no one is half of it.
            YieldVerdict::FarTooLow
                if self.shape() == Shape::Round && verdict(both) == Some(YieldVerdict::Usual) =>
            {
                Some(Doubt::HalfYield)
            }
            odd @ (YieldVerdict::FarTooLow | YieldVerdict::FarTooHigh) => Some(Doubt::Yield(odd)),
            _ => None,
        }
    }

    fn species_key(&self) -> &str {
        let key = self.slip.species.as_ref().and_then(Species::key);
        key.unwrap_or_default()
    }
}
