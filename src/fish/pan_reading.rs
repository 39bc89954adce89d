//! What a cook entered of a fish in the pan when the probe was read, as it is kept for the pan to learn from.

use serde::{Deserialize, Serialize};

use super::estimate::entered;
use super::heat_card::{HeatCard, figure};
use crate::base::refusal::Refusal;
use crate::fish::record::Fish;
use crate::heat::cook::SoFar;
use crate::heat::pan::Surface;
use crate::heat::probe::ProbeReading;
use crate::heat::stove::{Fillet, Stove};

/// A reading of the probe with the entries it was read under. The figures are read from it anew each time, so that a
/// better estimate learns from old readings too.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct PanReading {
    /// The fish, by its key in the published yields; empty for any other.
    pub species: String,
    /// All the fish in the pan at once, in whole milligrams.
    pub panful_mg: u32,
    /// The card as typed, with what the skin lay on, and without what the probe showed.
    pub card: HeatCard,
    /// When the probe was read, in seconds since the fish went in.
    pub read_secs: u32,
    /// When it was turned, in seconds since it went in, if it had been.
    pub turned_secs: Option<u32>,
    /// When it was lifted, in seconds since it went in, if it had been.
    pub lifted_secs: Option<u32>,
    /// What the probe showed, °C, as typed.
    pub shown: String,
}

impl PanReading {
    /// What the skin lay on.
    #[must_use]
    pub fn surface(&self) -> Option<Surface> {
        self.card.surface
    }

    /// The fillet, the stove and the reading, as figures.
    ///
    /// # Errors
    /// The sentence for the first figure that can't be read.
    pub fn figures(&self) -> Result<(Fillet, Stove, ProbeReading), Refusal> {
        let surface = self.card.surface.unwrap_or(Surface::NonStick);
        let (fillet, stove, _) = entered(&self.card, &self.species, self.panful_mg, surface)?;
        let so_far = SoFar {
            now: self.read_secs,
            turned_at: self.turned_secs,
            lifted_at: self.lifted_secs,
        };
        let core_c = figure(&self.shown)?;
        Ok((fillet, stove, ProbeReading { so_far, core_c }))
    }
}

impl Fish {
    /// The last reading of the probe with what was entered, while it is of the panful in hand and can be read.
    #[must_use]
    pub fn pan_reading(&self) -> Option<PanReading> {
        let so_far = self.last_reading()?.so_far;
        let mut card = self.heat().clone();
        let shown = card.probed.pop()?.typed;
        card.probed.clear();
        card.surface = Some(self.surface());
        // Which pan it is and what was fitted to it before is nothing to fit it to.
        (card.pan.kept, card.pan.contact_w_per_m2_k) = (None, None);
        let key = self.slip.species.as_ref().and_then(|species| species.key());
        let cooked = PanReading {
            species: key.unwrap_or_default().to_owned(),
            panful_mg: self.panful_mg().ok()?,
            card,
            read_secs: so_far.now,
            turned_secs: so_far.turned_at,
            lifted_secs: so_far.lifted_at,
            shown,
        };
        cooked.figures().is_ok().then_some(cooked)
    }
}
