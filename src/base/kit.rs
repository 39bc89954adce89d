//! The kit a cook may be missing, and that changes what a step says.

use serde::{Deserialize, Serialize};

/// A tool that some benches lack. A step may carry a detour for a bench without it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Kit {
    /// Fish pliers or strong tweezers, for pin bones.
    Pliers,
    /// A pan the skin does not stick to.
    NonStickPan,
    /// A filleting knife with a flexible blade.
    FlexibleKnife,
    /// A thin probe thermometer.
    Probe,
    /// A fine grater.
    FineGrater,
}

impl Kit {
    /// Every kind of kit, in the order the order slip asks for it.
    pub const ALL: [Self; 5] = [
        Self::Pliers,
        Self::NonStickPan,
        Self::FlexibleKnife,
        Self::Probe,
        Self::FineGrater,
    ];

    /// The name a cook knows it by.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::Pliers => "fish pliers or tweezers",
            Self::NonStickPan => "non-stick pan",
            Self::FlexibleKnife => "flexible filleting knife",
            Self::Probe => "probe thermometer",
            Self::FineGrater => "fine grater",
        }
    }
}
