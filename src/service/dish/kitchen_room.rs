//! What a kitchen has room for at once, as far as the cook has said it.

use serde::{Deserialize, Serialize};

use super::Dish;
use super::step::{Station, Step};

/// The most of anything that is counted.
pub const MOST_COUNTED: u32 = 5;

/// How many there are of each; what nobody has counted is enough.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(default, deny_unknown_fields)]
pub struct KitchenRoom {
    /// Rings or burners: a pan takes one, and so does another pot.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub burners: Option<u32>,
    /// Shelves of the oven.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub shelves: Option<u32>,
    /// Boards.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub boards: Option<u32>,
}

/// One of the things that are counted.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Counted {
    /// Rings or burners.
    Burners,
    /// Shelves of the oven.
    Shelves,
    /// Boards.
    Boards,
}

impl Counted {
    /// All of them.
    pub const ALL: [Self; 3] = [Self::Burners, Self::Shelves, Self::Boards];

    /// What names them on a page.
    #[must_use]
    pub fn key(self) -> &'static str {
        match self {
            Self::Burners => "burners",
            Self::Shelves => "shelves",
            Self::Boards => "boards",
        }
    }

    /// The name a cook knows them by.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::Burners => "burners",
            Self::Shelves => "oven shelves",
            Self::Boards => "boards",
        }
    }
}

impl KitchenRoom {
    /// Whether nobody has counted anything.
    #[must_use]
    pub fn is_open(&self) -> bool {
        *self == Self::default()
    }

    /// How many there are.
    #[must_use]
    pub fn of(&self, what: Counted) -> Option<u32> {
        match what {
            Counted::Burners => self.burners,
            Counted::Shelves => self.shelves,
            Counted::Boards => self.boards,
        }
    }

    /// The same with so many of something; nothing for more or fewer than can be.
    #[must_use]
    pub fn with(mut self, what: Counted, count: Option<u32>) -> Option<Self> {
        if !count.is_none_or(|count| (1..=MOST_COUNTED).contains(&count)) {
            return None;
        }
        match what {
            Counted::Burners => self.burners = count,
            Counted::Shelves => self.shelves = count,
            Counted::Boards => self.boards = count,
        }
        Some(self)
    }
}

impl Dish {
    /// How many steps a plan may put at a station at once.
    #[must_use]
    pub fn planned_places(&self, station: Station) -> usize {
        let counted = self.counted(station);
        let counted = counted.and_then(|count| usize::try_from(count).ok());
        counted.unwrap_or_else(|| self.places(station))
    }

    /// Whether two steps are after the same place, of which there are only so many.
    #[must_use]
    pub fn share_a_place(&self, one: &Step, other: &Step) -> bool {
        let limited = |station: Station| station.takes_one() || self.counted(station).is_some();
        let on_a_burner = |step: &Step| step.station.is_some_and(Station::is_on_a_burner);
        let at_one = one.station == other.station && one.station.is_some_and(limited);
        at_one || (self.room.burners.is_some() && on_a_burner(one) && on_a_burner(other))
    }

    fn counted(&self, station: Station) -> Option<u32> {
        match station {
            Station::Oven => self.room.shelves,
            Station::Board => self.room.boards,
            Station::Pan | Station::Stove | Station::Plate => None,
        }
    }
}
