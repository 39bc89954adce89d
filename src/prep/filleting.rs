//! The filleting, cut by cut, as data: what to do, what right looks like, what changes without some kit.

use std::collections::BTreeSet;

use super::cuts::CUTS;
use crate::base::kit::Kit;
use crate::trade::breakdown::DeliveryForm;
use crate::trade::species;

/// The part of the fish that the picture of a cut shows.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum FishPart {
    /// Fins and their spines.
    Spines,
    /// The belly and its cavity.
    Belly,
    /// The head and the flesh behind it.
    Head,
    /// The line of the back.
    Back,
    /// The tail end.
    Tail,
    /// The rib bones.
    Ribs,
    /// The row of pin bones.
    Pins,
    /// The edges of the fillet.
    Edges,
    /// The skin.
    Skin,
    /// The board under it all.
    Board,
    /// The frame that is left.
    Frame,
}

impl FishPart {
    /// Whether it is cut on the fillet, once that is off the bone.
    #[must_use]
    pub fn is_of_the_fillet(self) -> bool {
        matches!(self, Self::Ribs | Self::Pins | Self::Edges)
    }
}

/// How a fish lies on the board.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Shape {
    /// One fillet from each side, from the back to the belly.
    Round,
    /// Two from each side, from the middle line outwards.
    Flat,
}

impl Shape {
    /// How the fish of a list's key lies on the board; one that the cook named says so itself.
    #[must_use]
    pub fn of(species_key: Option<&str>) -> Self {
        if species_key.is_some_and(species::is_flat) {
            Self::Flat
        } else {
            Self::Round
        }
    }
}

/// What takes the place of a cut without one kind of kit.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct CutDetour {
    /// The kit that is missing.
    pub without: Kit,
    /// What the step is called then, where it is another one.
    pub title: Option<&'static str>,
    /// What to do instead.
    pub say: &'static str,
    /// What it costs in flesh and in looks.
    pub costs: &'static str,
    /// What can hurt somebody, shown with it.
    pub caution: Option<&'static str>,
}

/// What is said of a cut.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct CutWords {
    /// What to do, in two to four short sentences.
    pub say: &'static str,
    /// What can hurt somebody at this cut.
    pub caution: Option<&'static str>,
    /// What right looks like.
    pub looks: &'static str,
    /// Another way to the same end.
    pub or: Option<&'static str>,
    /// What takes its place without some kit.
    pub detours: &'static [CutDetour],
}

/// One cut of the filleting, one screen.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Cut {
    /// Its name in what is stored.
    pub id: &'static str,
    /// Its name on the screen.
    pub title: &'static str,
    /// What the picture shows.
    pub part: FishPart,
    /// The delivery forms that need this cut; all of them when it isn't given.
    pub forms: Option<&'static [DeliveryForm]>,
    /// The fish that need it; all of them when it isn't given.
    pub shape: Option<Shape>,
    /// What is said of it; the words for flat fish alone stand in [`super::flat`], since few first visits need them.
    pub words: Option<&'static CutWords>,
}

/// The cuts for a fish of a shape delivered as `form`.
#[must_use]
pub fn cuts_for(shape: Shape, form: DeliveryForm) -> Vec<&'static Cut> {
    CUTS.iter()
        .filter(|cut| cut.shape.is_none_or(|only| only == shape))
        .filter(|cut| cut.forms.is_none_or(|forms| forms.contains(&form)))
        .collect()
}

impl Cut {
    /// What it is called on a bench without `missing`.
    #[must_use]
    pub fn title_without(&self, missing: &BTreeSet<Kit>) -> &'static str {
        let words = self.words.map(|words| words.without(missing));
        let named = words.and_then(|detours| detours.into_iter().find_map(|detour| detour.title));
        named.unwrap_or(self.title)
    }
}

impl CutWords {
    /// What takes its place on a bench without `missing`.
    #[must_use]
    pub fn without(&self, missing: &BTreeSet<Kit>) -> Vec<&'static CutDetour> {
        self.detours
            .iter()
            .filter(|detour| missing.contains(&detour.without))
            .collect()
    }
}
