//! What is said where a weight, a price, a yield test or a purchase is refused, or a weight is asked about.

use std::fmt;

use super::figure::NoFigure;
use super::mass::{self, Unit};
use super::money::Currency;
use super::odd_price::OddPrice;
use super::species::{OddOffBone, OddWeight};
use crate::base::refusal::Said;

/// Said wherever a figure has two decimal marks.
pub(super) const TWO_MARKS: &str =
    "There are two decimal marks: keep one, and put no mark between thousands.";
/// Said wherever a figure may be two.
pub(super) const A_GAP: &str = "There is a gap inside the figure: type it as one number.";

/// Why what was typed is no weight.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum NoWeight {
    /// It is no figure in this unit.
    NoFigure(NoFigure, Unit),
    /// It is nothing.
    Zero,
    /// It is over [`super::mass::Mass::HEAVIEST`].
    TooHeavy,
    /// Ounces follow pounds that are not whole.
    BrokenPounds,
    /// The ounces beside the pounds make a pound.
    ManyOunces,
}

impl Said for NoWeight {}

impl fmt::Display for NoWeight {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::NoFigure(NoFigure::Empty, _) => "Type the weight the scale shows.",
            Self::NoFigure(NoFigure::Negative, _) => {
                "A weight can't be below zero: zero the scale and weigh again."
            }
            Self::NoFigure(NoFigure::Letters, Unit::PoundOunce) => {
                "Type pounds, then lb, then ounces, as in 1 lb 6.5."
            }
            Self::NoFigure(NoFigure::Letters, unit) => {
                return write!(
                    f,
                    "Type only digits and one decimal mark; the weight is in {}.",
                    unit.name()
                );
            }
            Self::NoFigure(NoFigure::Marks, _) => TWO_MARKS,
            Self::NoFigure(NoFigure::Spaces, _) => A_GAP,
            Self::NoFigure(NoFigure::Decimals, Unit::Gram) => {
                "Grams take at most two decimals; if that mark stands between thousands, leave it out."
            }
            Self::NoFigure(NoFigure::Decimals, _) => "A weight takes at most three decimals.",
            Self::NoFigure(NoFigure::Large, _) | Self::TooHeavy => {
                "That is more than 100 kg: check the unit and the decimal mark."
            }
            Self::Zero => "The weight is zero: put the fish on the scale and read it again.",
            Self::BrokenPounds => "Give whole pounds when ounces follow, as in 1 lb 6.5.",
            Self::ManyOunces => {
                "Sixteen ounces make a pound: beside pounds, give fewer than 16 ounces."
            }
        })
    }
}

impl fmt::Display for OddWeight {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let shown = mass::show(self.mass, self.unit);
        let name = self
            .species
            .map(|species| species.name.to_ascii_lowercase());
        let name = name.as_deref().unwrap_or("fish");
        let (is, asks) = if self.light {
            ("light", "was the scale at zero with the tray on it")
        } else if self.may_be_two {
            ("heavy", "are there two on the scale")
        } else {
            ("heavy", "is it one fish without its box and ice")
        };
        write!(
            f,
            "{shown} is {is} for one {name}: is the unit right, and {asks}?"
        )
    }
}

impl fmt::Display for OddOffBone {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let name = self
            .species
            .map(|species| species.name.to_ascii_lowercase());
        write!(
            f,
            "That leaves {} for {}, less than any {} has: weigh again, or weigh head and bones.",
            mass::show(self.left, self.unit),
            self.form.off_the_bone(),
            name.as_deref().unwrap_or("fish")
        )
    }
}

impl fmt::Display for OddPrice {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let is = if self.is_dear { "a lot" } else { "little" };
        write!(
            f,
            "{} is {is} for fish: does the decimal mark stand where the invoice has it?",
            self.price.show()
        )
    }
}

/// Why an amount is no price.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum NoPrice {
    /// What was typed is no figure.
    NoFigure(NoFigure),
    /// It is nothing, or less.
    NotAboveZero,
    /// It is over ten million.
    TooDear,
    /// It has more decimals than a price is kept with.
    TooFine,
}

impl Said for NoPrice {}

impl fmt::Display for NoPrice {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::NoFigure(NoFigure::Empty) => "Type the price from the invoice.",
            Self::NoFigure(NoFigure::Negative) => "A price can't be below zero.",
            Self::NoFigure(NoFigure::Letters) => "Type the price in digits, without the currency.",
            Self::NoFigure(NoFigure::Marks) => TWO_MARKS,
            Self::NoFigure(NoFigure::Spaces) => {
                "There is a gap inside the price: type it as one number."
            }
            Self::NoFigure(NoFigure::Decimals) => {
                "A price takes at most two decimals; if that mark stands between thousands, leave it out."
            }
            Self::NoFigure(NoFigure::Large) | Self::TooDear => {
                "That price is over ten million: check the decimal mark."
            }
            Self::NotAboveZero => {
                "The price must be above zero: take it from the invoice, or the market price of the day."
            }
            Self::TooFine => "A price takes at most four decimals.",
        })
    }
}

/// Why readings can't belong to one fish.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum NoBreakdown {
    /// It weighs nothing as delivered.
    NotDelivered,
    /// It is over [`super::mass::Mass::HEAVIEST`].
    TooHeavy,
    /// The fillets weigh nothing ready to cook.
    NotReady,
    /// The fillets weigh nothing off the bone.
    NothingOffBone,
    /// The fillets off the bone are heavier than the fish.
    OffBoneOverDelivered,
    /// The fillets ready to cook are heavier than the fish.
    ReadyOverDelivered,
    /// The fillets ready to cook are heavier than off the bone.
    ReadyOverOffBone,
}

impl Said for NoBreakdown {}

impl fmt::Display for NoBreakdown {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::NotDelivered => "Weigh the fish as delivered first: its weight is zero.",
            Self::TooHeavy => {
                "The fish weighs more than 100 kg: check the unit and the decimal mark."
            }
            Self::NotReady => "Weigh the fillets ready to cook: their weight is zero.",
            Self::NothingOffBone => {
                "The fillets off the bone weigh zero: weigh them again or leave it out."
            }
            Self::OffBoneOverDelivered => {
                "The fillets off the bone weigh more than the fish they came from: weigh both again."
            }
            Self::ReadyOverDelivered => {
                "The fillets ready to cook weigh more than the fish they came from: weigh both again."
            }
            Self::ReadyOverOffBone => {
                "The fillets weigh more ready to cook than they did off the bone: dry them and weigh again."
            }
        })
    }
}

/// Why the trimmings kept leave no yield test.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum NoYieldTest {
    /// The trimming of this name weighs nothing.
    Unweighed(String),
    /// The trimming of this name is not priced in the currency of the fish.
    OtherCurrency(String, Currency),
    /// They weigh more than was trimmed.
    TooHeavy,
    /// They are worth more than the fish cost.
    TooDear,
}

impl Said for NoYieldTest {}

impl fmt::Display for NoYieldTest {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Unweighed(name) => write!(f, "Weigh the {name} first: its weight is zero."),
            Self::OtherCurrency(name, fish) => {
                write!(f, "Price the {name} in {}, like the fish.", fish.name())
            }
            Self::TooHeavy => f.write_str(
                "The trimmings kept weigh more than all that was trimmed: weigh them again.",
            ),
            Self::TooDear => f.write_str(
                "The trimmings are worth more than the whole fish cost: check their prices.",
            ),
        }
    }
}
