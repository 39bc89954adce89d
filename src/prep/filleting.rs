//! The filleting, cut by cut, as data: what to do, what right looks like, what changes without some kit.

use std::collections::BTreeSet;
use std::sync::OnceLock;

use serde::{Deserialize, Serialize};

use super::refusals::NoFilleting;
use crate::base::kit::Kit;
use crate::base::refusal::Refusal;
use crate::base::refusals::NoDetour;
use crate::trade::breakdown::DeliveryForm;

/// The part of the fish that the picture of a cut shows.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Part {
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

impl Part {
    /// Whether it is cut on the fillet, once that is off the bone.
    #[must_use]
    pub fn is_of_the_fillet(self) -> bool {
        matches!(self, Self::Ribs | Self::Pins | Self::Edges)
    }
}

/// What changes at a cut without one kind of kit.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct CutDetour {
    /// The kit that is missing.
    pub without: Kit,
    /// What to do instead.
    pub say: String,
    /// What it costs in flesh and in looks.
    pub costs: String,
    /// What can hurt somebody, shown with it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub caution: Option<String>,
}

/// One cut of the filleting, one screen.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Cut {
    /// Its name in what is stored.
    pub id: String,
    /// Its name on the screen.
    pub title: String,
    /// What to do, in two to four short sentences.
    pub say: String,
    /// What can hurt somebody at this cut.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub caution: Option<String>,
    /// What right looks like.
    pub looks: String,
    /// What the picture shows.
    pub part: Part,
    /// The delivery forms that need this cut; all of them when it isn't given.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub forms: Option<Vec<DeliveryForm>>,
    /// What changes without some kit.
    #[serde(default)]
    pub detours: Vec<CutDetour>,
}

/// A cut as this bench sees it: with the detours that this bench needs.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct BenchCut {
    /// The cut.
    pub cut: &'static Cut,
    /// Its detours for the kit that is missing.
    pub detours: Vec<&'static CutDetour>,
}

static SHIPPED: OnceLock<Result<Vec<Cut>, Refusal>> = OnceLock::new();

/// Every cut, in order.
///
/// # Errors
/// A sentence, when the data in this build can't be read or doesn't hold together.
pub fn shipped() -> Result<&'static [Cut], Refusal> {
    SHIPPED
        .get_or_init(|| parse(include_str!("data/filleting.json")))
        .as_deref()
        .map_err(Clone::clone)
}

/// The cuts for a fish delivered as `form`, on a bench without `missing`.
///
/// # Errors
/// A sentence, when the data in this build can't be read or doesn't hold together.
pub fn cuts_for(form: DeliveryForm, missing: &BTreeSet<Kit>) -> Result<Vec<BenchCut>, Refusal> {
    Ok(shipped()?
        .iter()
        .filter(|cut| cut.forms.as_ref().is_none_or(|forms| forms.contains(&form)))
        .map(|cut| BenchCut {
            cut,
            detours: cut
                .detours
                .iter()
                .filter(|d| missing.contains(&d.without))
                .collect(),
        })
        .collect())
}

/// Cuts from their JSON text.
///
/// # Errors
/// A sentence that names the cut at fault.
pub fn parse(json: &str) -> Result<Vec<Cut>, Refusal> {
    let cuts: Vec<Cut> =
        serde_json::from_str(json).map_err(|why| NoFilleting::Unreadable(why.to_string()))?;
    let mut ids = BTreeSet::new();
    for cut in &cuts {
        if !ids.insert(&cut.id) {
            return Err(NoFilleting::Twice(cut.id.clone()).into());
        }
        if cut.forms.as_ref().is_some_and(Vec::is_empty) {
            return Err(NoFilleting::ForNoForm(cut.title.clone()).into());
        }
        let mut kits = BTreeSet::new();
        if let Some(twice) = cut.detours.iter().find(|d| !kits.insert(d.without)) {
            return Err(NoDetour::Two {
                of: cut.title.clone(),
                without: twice.without,
            }
            .into());
        }
    }
    if cuts.is_empty() {
        return Err(NoFilleting::NoCuts.into());
    }
    Ok(cuts)
}
