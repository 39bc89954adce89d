//! How far a fish has come: what is done, and what comes next.

use super::slip::Species;
use super::weighing::Which;
use crate::fish::record::Fish;
use crate::place::Stage;
use crate::prep::filleting::{self, Cut, Shape};

impl Fish {
    /// Whether a stage of the job is done.
    #[must_use]
    pub fn is_done(&self, stage: Stage) -> bool {
        match stage {
            Stage::Summary => self.finished.is_some(),
            // These are asked for as often as anyone likes, and nothing waits for them.
            Stage::Code
            | Stage::Card
            | Stage::Journal
            | Stage::Heat
            | Stage::Plan
            | Stage::Steps
            | Stage::AllSteps => false,
            Stage::PutRight(number) => self.is_done(number.stage()),
            Stage::Delivery => self.slip.read().is_ok(),
            Stage::WeighWhole => self.reading(Which::Whole).taken,
            Stage::Fillet(_) => self.cut >= self.cuts() && self.cut > 0,
            Stage::WeighOffBone => self.reading(Which::OffBone).taken,
            Stage::WeighFrame => self.reading(Which::Frame).taken,
            Stage::WeighReady | Stage::Yield => self.reading(Which::Ready).taken,
            Stage::Prepare => self.run.is_some(),
            Stage::Service => self.is_served(),
            Stage::Pass => self.finished.is_some(),
        }
    }

    /// How many steps the filleting of this fish has.
    #[must_use]
    pub fn cuts(&self) -> usize {
        self.cut_list().len()
    }

    /// The steps of the filleting of this fish, in order; none while it isn't said how it was delivered.
    #[must_use]
    pub fn cut_list(&self) -> Vec<&'static Cut> {
        let form = self.slip.form;
        form.map_or_else(Vec::new, |form| filleting::cuts_for(self.shape(), form))
    }

    /// How it lies on the board.
    #[must_use]
    pub fn shape(&self) -> Shape {
        if self.slip.flat {
            return Shape::Flat;
        }
        Shape::of(self.slip.species.as_ref().and_then(Species::key))
    }

    /// Whether every step of the service is done, as its last tap left it. A service of the first builds doesn't say: it
    /// goes on until it is opened, see [`Fish::is_over`].
    #[must_use]
    pub fn is_served(&self) -> bool {
        self.run.as_ref().is_some_and(|run| run.over == Some(true))
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
            return if self.is_served() {
                Stage::Pass
            } else {
                Stage::Service
            };
        }
        if self.is_alone() {
            return Stage::Prepare;
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

    /// The stage before `stage`, in the order of the job at this bench.
    #[must_use]
    pub fn stage_before(&self, stage: Stage) -> Stage {
        let trimming = self.trimming_starts();
        match stage {
            Stage::Summary | Stage::Delivery | Stage::Journal | Stage::PutRight(_) => {
                Stage::Summary
            }
            Stage::WeighWhole => Stage::Delivery,
            Stage::Fillet(0) => Stage::WeighWhole,
            Stage::Fillet(step) if step == trimming => Stage::WeighOffBone,
            Stage::Fillet(step) => Stage::Fillet(step.saturating_sub(1)),
            Stage::WeighOffBone => Stage::Fillet(trimming.saturating_sub(1)),
            Stage::WeighFrame => Stage::WeighOffBone,
            Stage::WeighReady => Stage::Fillet(self.cuts().saturating_sub(1)),
            Stage::Yield => Stage::WeighReady,
            Stage::Code | Stage::Card => Stage::Yield,
            Stage::Prepare if self.is_alone() => Stage::Summary,
            Stage::Prepare => Stage::Yield,
            Stage::Service | Stage::Heat | Stage::Plan | Stage::Steps => Stage::Prepare,
            Stage::Pass | Stage::AllSteps => Stage::Service,
        }
    }

    /// The stage after `stage`: the fillets are weighed off the bone before they are trimmed.
    #[must_use]
    pub fn stage_after(&self, stage: Stage) -> Stage {
        let trimming = self.trimming_starts();
        match stage {
            Stage::Delivery => Stage::WeighWhole,
            Stage::WeighWhole => Stage::Fillet(0),
            Stage::Fillet(step) => match step.saturating_add(1) {
                next if next == trimming => Stage::WeighOffBone,
                next if next < self.cuts() => Stage::Fillet(next),
                _ => Stage::WeighReady,
            },
            Stage::WeighOffBone => Stage::Fillet(trimming),
            Stage::WeighFrame => Stage::WeighOffBone,
            Stage::WeighReady => Stage::Yield,
            Stage::Yield | Stage::Heat | Stage::Plan | Stage::Steps => Stage::Prepare,
            Stage::Prepare => Stage::Service,
            Stage::Service | Stage::AllSteps => Stage::Pass,
            Stage::Pass
            | Stage::Code
            | Stage::Card
            | Stage::Journal
            | Stage::PutRight(_)
            | Stage::Summary => Stage::Summary,
        }
    }

    /// The last step of the filleting from `step` on before something is weighed, and the stage at which it is.
    #[must_use]
    pub fn scale_after(&self, step: usize) -> (usize, Stage) {
        let mut last = step;
        loop {
            match self.stage_after(Stage::Fillet(last)) {
                // It goes up, and ends with the cuts.
                Stage::Fillet(next) => last = next,
                scale => return (last, scale),
            }
        }
    }

    /// Whether a step of the filleting is done on fillets that are off the bone already.
    #[must_use]
    pub fn is_off_bone_at(&self, step: usize) -> bool {
        let trimming = self.trimming_starts();
        trimming > 0 && step >= trimming
    }

    /// The first step of the filleting that takes something off the fillet itself.
    fn trimming_starts(&self) -> usize {
        let cuts = self.cut_list();
        let first = cuts.iter().position(|cut| cut.part.is_of_the_fillet());
        first.unwrap_or(0)
    }
}
