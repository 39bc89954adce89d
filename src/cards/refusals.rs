//! What is said where a card can't be kept as it is wanted, or doesn't read.

use std::fmt;

use crate::base::refusal::{Refusal, Said};
use crate::trade::money::Currency;

/// Why a tap on a card changes nothing.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum NoChange {
    /// It has [`super::recipe::MOST_LINES`].
    ManyLines,
    /// No line of it has this identity.
    LineGone,
    /// Its steps are others by now.
    StepsChanged,
    /// What was typed is longer than so many letters.
    TooLong(usize),
}

impl Said for NoChange {}

impl fmt::Display for NoChange {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::ManyLines => {
                "A dish holds 60 lines: make a part of it ahead on a card of its own."
            }
            Self::LineGone => "This line was removed in another tab.",
            Self::StepsChanged => {
                "The steps were changed in another tab: look at them, and change this again."
            }
            Self::TooLong(longest) => {
                return write!(
                    f,
                    "That is too long to keep: shorten it to {longest} letters."
                );
            }
        })
    }
}

/// Why a pan is not kept.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum NoPan {
    /// What it is called is no name.
    Unnamed,
}

impl Said for NoPan {}

impl fmt::Display for NoPan {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Unnamed => {
                f.write_str("Give the pan a name of up to 40 letters, such as “black 24”.")
            }
        }
    }
}

/// Why a price is not put on the market list.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum NoQuote {
    /// It is too long to be one.
    TooLong,
}

impl Said for NoQuote {}

impl fmt::Display for NoQuote {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::TooLong => f.write_str("Keep the price under 40 figures."),
        }
    }
}

/// Why a line of a card is not counted.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum NoLine {
    /// It isn't said what it is.
    Unnamed,
    /// It is a fish, and its quantity is no weight.
    FishNotByWeight,
}

impl Said for NoLine {}

impl fmt::Display for NoLine {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::Unnamed => "Name the ingredient.",
            Self::FishNotByWeight => {
                "A fish is portioned by weight: give grams, kilos, ounces or pounds."
            }
        })
    }
}

/// Why a card is no part made ahead. A part is called by its title.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum NoPart {
    /// It isn't said how much its lines make.
    NoAmount,
    /// None was chosen.
    Unchosen,
    /// The card has gone.
    Gone,
    /// The part goes into itself.
    InItself(String),
    /// The part is costed in this currency, its dish in another.
    OtherCurrency(String, Currency),
    /// The part holds parts in parts, more than are worked out.
    TooMuch(String),
    /// The part doesn't read itself, and why.
    Unfinished(String, Refusal),
}

impl Said for NoPart {}

impl fmt::Display for NoPart {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NoAmount => f.write_str("Say how much these lines make, such as 180 g."),
            Self::Unchosen => f.write_str("Choose which part made ahead it is."),
            Self::Gone => f.write_str(
                "This part is no longer on this phone: choose another, or take the line out.",
            ),
            Self::InItself(part) => {
                write!(f, "“{part}” would contain itself: choose another part.")
            }
            Self::OtherCurrency(part, currency) => write!(
                f,
                "“{part}” is costed in {}: put both cards in one currency.",
                currency.code()
            ),
            Self::TooMuch(part) => write!(
                f,
                "“{part}” holds too many parts in parts to be worked out: make it simpler, or take the line out."
            ),
            Self::Unfinished(part, why) => write!(f, "“{part}” is not finished: {why}"),
        }
    }
}

/// Why it isn't known what is left of what is bought.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum NoYield {
    /// The yield of a fish is not typed.
    NotTyped,
    /// It is not said which fish of the list it is.
    NoFish,
    /// None is published.
    Unpublished,
    /// The cook's own fish has gone.
    FishGone,
    /// The cook's own fish has not been weighed to its end.
    FishUnweighed,
    /// It is nothing; what it would be heads the sentence, as in "The trim yield".
    Zero(&'static str),
}

impl Said for NoYield {}

impl fmt::Display for NoYield {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::NotTyped => "Type the yield of the fish, or take it from one of your own.",
            Self::NoFish => "Choose which fish it is.",
            Self::Unpublished => {
                "No yield is published for this fish in this form: type it instead."
            }
            Self::FishGone => {
                "This fish is no longer on this phone: choose another, or type its yield."
            }
            Self::FishUnweighed => {
                "Weigh this fish whole and ready to cook first: then its yield is known."
            }
            Self::Zero(what) => {
                return write!(f, "{what} is zero: then nothing would be left to serve.");
            }
        })
    }
}

/// Why what is bought has no price.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum NoCardPrice {
    /// The cook's own fish was paid in another currency than the card is in.
    OtherCurrency {
        /// What was paid.
        paid: Currency,
        /// What the card is in.
        card: Currency,
    },
    /// It isn't said what the price is for.
    ForNothing,
    /// It isn't said what a pack holds.
    EmptyPack,
}

impl Said for NoCardPrice {}

impl fmt::Display for NoCardPrice {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::OtherCurrency { paid, card } => {
                return write!(
                    f,
                    "This fish was paid in {}: type what it costs in {}.",
                    paid.code(),
                    card.code()
                );
            }
            Self::ForNothing => "Say what the price is for: a kilo, a litre, a piece or a pack.",
            Self::EmptyPack => "Say what is in one pack, such as 250 g.",
        })
    }
}
