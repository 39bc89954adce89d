//! What a plan is asked about: steps, the stations and hands they use, and the links between them.

use serde::{Deserialize, Serialize};

use super::Edge;

/// A dish and the kitchen it is cooked in. All times are whole seconds.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Kitchen {
    /// Cooks at work: each gives one pair of hands. Up to six.
    pub cooks: u32,
    /// Places where steps are done: pan, oven, board, stove, fridge.
    pub stations: Vec<PlanStation>,
    /// The steps, plating among them, in any order.
    pub tasks: Vec<Task>,
    /// What must come before what, and how soon.
    pub links: Vec<PlanLink>,
    /// The id of the plating step: every other step ends before it starts.
    pub plating: String,
}

impl Kitchen {
    /// The same with every greatest gap let go: what makes sense at all then fits.
    #[must_use]
    pub fn without_greatest_gaps(&self) -> Self {
        let mut loose = self.clone();
        loose.links.iter_mut().for_each(|link| link.greatest = None);
        loose
    }
}

/// A place that holds only so much at once.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct PlanStation {
    /// What tasks call it by.
    pub id: String,
    /// What the cook calls it, as it reads inside a sentence.
    pub name: String,
    /// How many places it has: two for two pans or two oven shelves.
    pub places: u32,
    /// Seconds before each step there but plating in which the place is made ready for it, and taken already.
    #[serde(default)]
    pub ready: i64,
}

/// One step, with a length that does not change.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Task {
    /// What links and events call it by.
    pub id: String,
    /// What the cook calls it.
    pub name: String,
    /// Length in seconds.
    pub secs: i64,
    /// Seconds at its start that take one cook's hands.
    pub hands_first: i64,
    /// Seconds at its end that take one cook's hands. Between the two it minds itself.
    pub hands_last: i64,
    /// Places it takes for its whole length.
    pub needs: Vec<Need>,
    /// What one second of waiting between its end and the start of plating costs; 0 when it keeps.
    pub held: u32,
}

/// Places a task takes at a station.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Need {
    /// The station's id.
    pub station: String,
    /// How many of its places.
    pub places: u32,
}

/// A gap kept between an edge of one task and an edge of another:
/// `least <= moment(to) - moment(from) <= greatest`, in seconds.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct PlanLink {
    /// The id of the task the gap is measured from.
    pub from: String,
    /// Which end of it.
    pub from_edge: Edge,
    /// The id of the task the gap is measured to.
    pub to: String,
    /// Which end of it.
    pub to_edge: Edge,
    /// The least gap; negative when `to` may come first by as much.
    pub least: i64,
    /// The greatest gap, when there is one.
    pub greatest: Option<i64>,
}

impl PlanLink {
    /// `to` starts no sooner than `from` ends.
    #[must_use]
    pub fn after(from: &str, to: &str) -> Self {
        Self {
            from: from.to_owned(),
            from_edge: Edge::End,
            to: to.to_owned(),
            to_edge: Edge::Start,
            least: 0,
            greatest: None,
        }
    }

    /// The same link with its gap between `least` and `greatest` seconds.
    #[must_use]
    pub fn within(self, least: i64, greatest: i64) -> Self {
        Self {
            least,
            greatest: Some(greatest),
            ..self
        }
    }

    /// The same link with a least gap of `least` seconds.
    #[must_use]
    pub fn at_least(self, least: i64) -> Self {
        Self { least, ..self }
    }
}
