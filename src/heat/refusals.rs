//! What is said where nothing can be told of a fillet in the pan.

use std::fmt;

use crate::base::refusal::Said;

/// The figure of a fillet, its stove or its target that can't be right.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum NoSetup {
    /// The core that is wanted.
    Core,
    /// The thickness at the thickest.
    Thickness,
    /// The thickness at the thin end.
    ThinEnd,
    /// The temperature that the fish goes in with.
    Start,
    /// The fish in the pan.
    Mass,
    /// What the pan weighs.
    PanMass,
    /// How wide the pan's base is.
    PanBase,
    /// The temperature that the pan is held at.
    PanHeat,
    /// The heat under the pan.
    Power,
    /// The temperature of the kitchen.
    Room,
    /// How well the pan meets the fish.
    Contact,
    /// The fish covers more than the pan.
    Area,
}

impl Said for NoSetup {}

impl fmt::Display for NoSetup {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::Core => "The core temperature should be between 40 and 85 °C.",
            Self::Thickness => {
                "The fillet should be 4 to 60 mm at its thickest: measure it lying flat."
            }
            Self::ThinEnd => {
                "The thin end should be at least 2 mm and no thicker than the thickest part."
            }
            Self::Start => {
                "The fish should be between 0 and 30 °C when it goes in; thaw it right through first."
            }
            Self::Mass => "The fish in the pan should weigh between 10 g and 5 kg.",
            Self::PanMass => "The pan should weigh between 200 g and 8 kg.",
            Self::PanBase => "The pan's flat base should be 100 to 500 mm across.",
            Self::PanHeat => "The pan should be held between 110 and 280 °C.",
            Self::Power => "The heat under the pan should be between 100 and 6000 W.",
            Self::Room => "The kitchen should be between 0 and 50 °C.",
            Self::Contact => {
                "The pan's contact figure should be between 20 and 5000 W/m²K: fit it again."
            }
            Self::Area => "That much fish does not lie flat in this pan: cook it in batches.",
        })
    }
}

/// Why what was done so far can't have happened, or says nothing any more.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum NoCourse {
    /// Lifted, and never turned.
    NeverTurned,
    /// Turned after it was lifted, or after now.
    OutOfOrder,
    /// It went in too long ago.
    TooLongAgo,
}

impl Said for NoCourse {}

impl fmt::Display for NoCourse {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::NeverTurned => {
                "The fish is lifted but was never turned: enter when it was turned."
            }
            Self::OutOfOrder => {
                "The fish is turned first, then lifted, and neither lies ahead of now."
            }
            Self::TooLongAgo => {
                "The fish went in too long ago for the estimate to say anything: use the probe."
            }
        })
    }
}

/// Why a probe tells nothing.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum NoReading {
    /// What it showed can't be in fish.
    OffScale,
    /// A pan is to be fitted, and there is no reading.
    NoneYet,
}

impl Said for NoReading {}

impl fmt::Display for NoReading {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::OffScale => {
                "The probe should read between 0 and 100 °C in fish: check it in iced or boiling water."
            }
            Self::NoneYet => {
                "A pan's contact is fitted from probe readings: cook a fish and take one."
            }
        })
    }
}

/// Why it isn't known what a flesh is made of.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum NoFlesh {
    /// The parts of an analysis don't make a whole.
    Parts,
    /// A table of this build can't be read, for this reason.
    Table(String),
    /// No table has the fish of this key.
    Unlisted(String),
}

impl Said for NoFlesh {}

impl fmt::Display for NoFlesh {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Parts => f.write_str(
                "The water, protein, fat and ash of the fish should add up to about 100 g in 100 g.",
            ),
            Self::Table(why) => write!(f, "The table of fish composition can't be read: {why}."),
            Self::Unlisted(key) => write!(f, "There is no composition for {key}."),
        }
    }
}
