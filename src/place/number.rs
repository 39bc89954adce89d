//! The numbers of a fish as they are put right.

use super::Stage;

/// What is put right from the numbers of a fish, after which the cook is back where they came from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum JobNumber {
    /// The delivery slip.
    Slip,
    /// The fish as delivered.
    Whole,
    /// The fillets off the bone.
    OffBone,
    /// The fillets ready to cook.
    Ready,
}

impl JobNumber {
    /// All of them, in the order of the job.
    pub const ALL: [Self; 4] = [Self::Slip, Self::Whole, Self::OffBone, Self::Ready];

    /// The stage it belongs to.
    #[must_use]
    pub fn stage(self) -> Stage {
        match self {
            Self::Slip => Stage::Delivery,
            Self::Whole => Stage::WeighWhole,
            Self::OffBone => Stage::WeighOffBone,
            Self::Ready => Stage::WeighReady,
        }
    }

    pub(super) fn word(self) -> &'static str {
        match self {
            Self::Slip => "slip",
            Self::Whole => "whole",
            Self::OffBone => "off-bone",
            Self::Ready => "ready",
        }
    }
}
