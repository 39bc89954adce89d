//! The screens of one dish.

use std::fmt;

use crate::base::id::is_id;

/// A side of a dish.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum DishSide {
    /// Its lines as written.
    Card,
    /// One line, by its identity.
    Line(String),
    /// What a cover costs, and sells for.
    Plate,
    /// Its lines for other covers.
    Scale,
    /// What to buy for them.
    Order,
    /// The steps of its service.
    Steps,
    /// Photos, and what the cook says of it.
    Journal,
}

impl DishSide {
    pub(super) fn parse(word: &str, rest: Option<&str>) -> Option<Self> {
        Some(match word {
            "line" => Self::Line(rest.filter(|id| is_id(id))?.to_owned()),
            "plate" => Self::Plate,
            "scale" => Self::Scale,
            "order" => Self::Order,
            "steps" => Self::Steps,
            "journal" => Self::Journal,
            _ => return None,
        })
    }
}

impl fmt::Display for DishSide {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Card => Ok(()),
            Self::Line(line) => write!(f, "/line/{line}"),
            Self::Plate => f.write_str("/plate"),
            Self::Scale => f.write_str("/scale"),
            Self::Order => f.write_str("/order"),
            Self::Steps => f.write_str("/steps"),
            Self::Journal => f.write_str("/journal"),
        }
    }
}
