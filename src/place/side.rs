//! The screens of one dish, and of one class.

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
    /// What a guest may react to in it.
    Allergens,
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
            "allergens" => Self::Allergens,
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
            Self::Allergens => f.write_str("/allergens"),
            Self::Journal => f.write_str("/journal"),
        }
    }
}

/// A side of a class.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum ClassSide {
    /// Its results side by side.
    Board,
    /// Who has sent, and what goes back to them.
    Students,
    /// One student over time, by nickname; two of one nickname have a letter after a hyphen.
    Student(String),
    /// What is marked.
    Criteria,
    /// For the wall of the room.
    Wall,
    /// The class as a table, and on paper.
    Sheet,
}

impl ClassSide {
    pub(super) fn parse(word: &str, rest: Option<&str>) -> Option<Self> {
        let is_nickname = |word: &&str| {
            (1..=6).contains(&word.len())
                && word.chars().all(|c| c.is_ascii_uppercase() || c == '-')
        };
        Some(match word {
            "students" => Self::Students,
            "student" => Self::Student(rest.filter(is_nickname)?.replace('-', " ")),
            "criteria" => Self::Criteria,
            "wall" => Self::Wall,
            "sheet" => Self::Sheet,
            _ => return None,
        })
    }
}

impl fmt::Display for ClassSide {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Board => Ok(()),
            Self::Students => f.write_str("/students"),
            Self::Student(nickname) => write!(f, "/student/{}", nickname.replace(' ', "-")),
            Self::Criteria => f.write_str("/criteria"),
            Self::Wall => f.write_str("/wall"),
            Self::Sheet => f.write_str("/sheet"),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::DishSide;
    use crate::place::Place;

    #[test]
    fn every_side_is_found_again_by_its_address() {
        for side in [
            DishSide::Card,
            DishSide::Line("k3f9b".into()),
            DishSide::Plate,
            DishSide::Scale,
            DishSide::Order,
            DishSide::Steps,
            DishSide::Allergens,
            DishSide::Journal,
        ] {
            let place = Place::Dish("k3f9".into(), side);
            assert_eq!(Place::parse(&place.to_string()), place);
        }
    }
}
