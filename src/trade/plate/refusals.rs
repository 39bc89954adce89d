//! What is said where a dish can't be read, costed or scaled.

use std::fmt;

use super::units::{Dimension, QuantityUnit};
use crate::base::refusal::Said;
use crate::trade::figure::NoFigure;
use crate::trade::refusals::{A_GAP, NoWeight, TWO_MARKS};

/// Why what was typed is no quantity.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum NoQuantity {
    /// It is no figure in this unit.
    NoFigure(NoFigure, QuantityUnit),
    /// It is nothing.
    Zero,
    /// It is more than a line takes.
    TooMuch(Dimension),
}

impl Said for NoQuantity {}

impl fmt::Display for NoQuantity {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::NoFigure(NoFigure::Empty, _) => "Say how much of it.",
            Self::NoFigure(NoFigure::Negative, _) => "A quantity can't be below zero.",
            Self::NoFigure(NoFigure::Letters, unit) => {
                return write!(
                    f,
                    "Type the quantity in digits; it is in {}.",
                    unit.symbol()
                );
            }
            Self::NoFigure(NoFigure::Marks, _) => TWO_MARKS,
            Self::NoFigure(NoFigure::Spaces, _) => A_GAP,
            Self::NoFigure(NoFigure::Decimals, _) => "A quantity takes at most three decimals.",
            Self::NoFigure(NoFigure::Large, unit) => {
                return Self::TooMuch(unit.kind()).fmt(f);
            }
            Self::Zero => "The quantity is zero: say how much, or take the line out.",
            Self::TooMuch(Dimension::Mass) => return NoWeight::TooHeavy.fmt(f),
            Self::TooMuch(Dimension::Volume) => {
                "That is more than 100 litres: check the unit and the decimal mark."
            }
            Self::TooMuch(Dimension::Pieces) => {
                "That is more than 10,000 pieces: check the number."
            }
        })
    }
}

/// Why what was typed is no percentage; what it would be heads the sentence, as in "The trim yield".
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum NoPercentage {
    /// It is no figure.
    NoFigure(String, NoFigure),
    /// It is over so many percent.
    TooMuch(String, u32),
}

impl Said for NoPercentage {}

impl fmt::Display for NoPercentage {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NoFigure(what, NoFigure::Negative) => write!(f, "{what} can't be below zero."),
            Self::NoFigure(what, NoFigure::Decimals) => {
                write!(f, "{what} takes at most three decimals.")
            }
            Self::NoFigure(what, _) => {
                write!(f, "{what} is a percentage in digits, such as 44.")
            }
            Self::TooMuch(what, most) => write!(f, "{what} can't be over {most} %."),
        }
    }
}

/// Why a wanted share gives no price.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum NoTarget {
    /// Nothing is wanted.
    Zero,
}

impl Said for NoTarget {}

impl fmt::Display for NoTarget {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Zero => f.write_str(
                "The wanted share must be above zero: food that costs nothing has no price.",
            ),
        }
    }
}

/// Why what was typed is no number of covers.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum NoCovers {
    /// Nothing was typed.
    Empty,
    /// It is none.
    Zero,
    /// It is over [`super::scaled::MOST_COVERS`].
    TooMany,
    /// It is no whole number.
    NotWhole,
}

impl Said for NoCovers {}

impl fmt::Display for NoCovers {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::Empty => "Say for how many covers.",
            Self::Zero => "There is at least one cover.",
            Self::TooMany => "That is more than 10,000 covers: check the number.",
            Self::NotWhole => "Covers are a whole number, such as 24.",
        })
    }
}

/// Why the figures of a dish can't be worked out.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum NoSum {
    /// Their product no longer fits.
    TooFar,
    /// The quantity and the price are of kinds that nothing brings together.
    KindsApart {
        /// What the quantity counts.
        quantity: Dimension,
        /// What the price counts.
        price: Dimension,
    },
    /// A volume meets a weight, and its density is not known.
    NoDensity,
    /// Pieces meet a weight, and what one weighs is not known.
    NoPieceWeight,
    /// The part of this name is made by this, and used by something else.
    PartMadeBy(String, Dimension),
    /// What is used as a part is a dish of this name.
    PartForCovers(String),
}

impl Said for NoSum {}

impl fmt::Display for NoSum {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::TooFar => f.write_str(
                "These figures are too far apart to work out: check the quantities and the units.",
            ),
            Self::KindsApart { quantity, price } => write!(
                f,
                "The quantity is in {} and the price is by {}: give both by weight, or both alike.",
                quantity.name(),
                price.name()
            ),
            Self::NoDensity => {
                f.write_str("A volume meets a price by weight: say what 100 ml of it weighs.")
            }
            Self::NoPieceWeight => {
                f.write_str("Pieces meet a weight: say what one piece weighs as bought.")
            }
            Self::PartMadeBy(part, kind) => {
                let kind = kind.name();
                write!(
                    f,
                    "“{part}” is made by {kind}: say how much of it is used by {kind} too."
                )
            }
            Self::PartForCovers(part) => {
                write!(f, "“{part}” is a dish for covers, not a part made ahead.")
            }
        }
    }
}
