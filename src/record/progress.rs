//! How far a fish has come: what is done, and what comes next.

use super::fish::Fish;
use super::weighing::Which;
use crate::place::Stage;
use crate::service::filleting;

impl Fish {
    /// Whether a stage of the job is done.
    #[must_use]
    pub fn is_done(&self, stage: Stage) -> bool {
        match stage {
            Stage::Summary => self.finished.is_some(),
            Stage::Delivery => self.slip.read().is_ok(),
            Stage::WeighWhole => self.reading(Which::Whole).taken,
            Stage::Fillet(_) => self.cut >= self.cuts() && self.cut > 0,
            Stage::WeighOffBone => self.reading(Which::OffBone).taken,
            Stage::WeighReady | Stage::Yield => self.reading(Which::Ready).taken,
            Stage::Prepare => self.run.is_some(),
            Stage::Service => self.is_served(),
            Stage::Pass => self.finished.is_some(),
        }
    }

    /// How many steps the filleting of this fish has.
    #[must_use]
    pub fn cuts(&self) -> usize {
        self.slip.form.map_or(0, |form| {
            filleting::cuts_for(form, &self.slip.missing).map_or(0, |cuts| cuts.len())
        })
    }

    /// Whether every step of the service is done.
    #[must_use]
    pub fn is_served(&self) -> bool {
        match (&self.run, self.dish()) {
            (Some(run), Ok(dish)) => run.is_over(dish),
            _ => false,
        }
    }

    /// Whether a timer of this fish may still ring.
    #[must_use]
    pub fn is_cooking(&self) -> bool {
        self.finished.is_none() && self.run.is_some() && !self.is_served()
    }

    /// Where the cook goes on: the first stage that is not done.
    #[must_use]
    pub fn next_stage(&self) -> Stage {
        if self.finished.is_some() {
            return Stage::Summary;
        }
        if self.run.is_some() {
            return if self.is_served() { Stage::Pass } else { Stage::Service };
        }
        if !self.is_done(Stage::Delivery) {
            return Stage::Delivery;
        }
        if !self.whole.taken {
            return Stage::WeighWhole;
        }
        if self.ready.taken {
            return Stage::Prepare;
        }
        if self.cut < self.cuts() {
            return Stage::Fillet(self.cut);
        }
        Stage::WeighReady
    }
}
