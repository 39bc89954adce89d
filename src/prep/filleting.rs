//! The filleting, cut by cut, as data: what to do, what right looks like, what changes without some kit.

use std::collections::BTreeSet;

use super::cuts::CUTS;
use crate::base::kit::Kit;
use crate::trade::breakdown::DeliveryForm;

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

/// What changes at a cut without one kind of kit.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct CutDetour {
    /// The kit that is missing.
    pub without: Kit,
    /// What to do instead.
    pub say: &'static str,
    /// What it costs in flesh and in looks.
    pub costs: &'static str,
    /// What can hurt somebody, shown with it.
    pub caution: Option<&'static str>,
}

/// One cut of the filleting, one screen.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Cut {
    /// Its name in what is stored.
    pub id: &'static str,
    /// Its name on the screen.
    pub title: &'static str,
    /// What to do, in two to four short sentences.
    pub say: &'static str,
    /// What can hurt somebody at this cut.
    pub caution: Option<&'static str>,
    /// What right looks like.
    pub looks: &'static str,
    /// What the picture shows.
    pub part: FishPart,
    /// The delivery forms that need this cut; all of them when it isn't given.
    pub forms: Option<&'static [DeliveryForm]>,
    /// What changes without some kit.
    pub detours: &'static [CutDetour],
}

/// A cut as this bench sees it: with the detours that this bench needs.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct BenchCut {
    /// The cut.
    pub cut: &'static Cut,
    /// Its detours for the kit that is missing.
    pub detours: Vec<&'static CutDetour>,
}

/// The cuts for a fish delivered as `form`, on a bench without `missing`.
#[must_use]
pub fn cuts_for(form: DeliveryForm, missing: &BTreeSet<Kit>) -> Vec<BenchCut> {
    let needed = CUTS
        .iter()
        .filter(|cut| cut.forms.is_none_or(|forms| forms.contains(&form)));
    needed
        .map(|cut| BenchCut {
            cut,
            detours: cut
                .detours
                .iter()
                .filter(|d| missing.contains(&d.without))
                .collect(),
        })
        .collect()
}
