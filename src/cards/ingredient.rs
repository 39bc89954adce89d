//! One line of a card as it is typed and chosen.

use std::collections::BTreeSet;

use serde::{Deserialize, Serialize};

use super::larder::{Larder, LineField};
use crate::base::part::Part;
use crate::trade::breakdown::DeliveryForm;
use crate::trade::plate::allergens::{Allergen, AllergenList};
use crate::trade::plate::line::LineGroup;
use crate::trade::plate::trims::trim_for;
use crate::trade::plate::units::{Dimension, QuantityUnit};
use crate::trade::species;

/// What a price is for, as chosen.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum PricedBy {
    /// One kilogram.
    Kilo,
    /// One avoirdupois pound.
    Pound,
    /// One litre.
    Litre,
    /// One piece.
    Piece,
    /// A pack of a stated content.
    Pack,
}

impl PricedBy {
    /// Every one, in the order a picker shows them.
    pub const ALL: [Self; 5] = [
        Self::Kilo,
        Self::Litre,
        Self::Piece,
        Self::Pack,
        Self::Pound,
    ];

    /// As in "a kg".
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::Kilo => "kg",
            Self::Pound => "lb",
            Self::Litre => "litre",
            Self::Piece => "piece",
            Self::Pack => "pack",
        }
    }
}

/// Where a line comes from, as chosen.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Origin {
    /// Bought ready to trim.
    #[default]
    Bought,
    /// One of the cook's own fish, by its identity: its yield, its price and its size.
    OwnFish(String),
    /// A fish of the list, by its key, bought in this form: the published yield. No key until it is said which fish.
    PublishedFish(String, DeliveryForm),
    /// A fish with a yield as typed.
    TypedFish,
    /// A part made ahead, by the identity of its card.
    Part(String),
}

impl Origin {
    /// Whether it is a fish.
    #[must_use]
    pub fn is_fish(&self) -> bool {
        matches!(
            self,
            Self::OwnFish(_) | Self::PublishedFish(..) | Self::TypedFish
        )
    }
}

/// One line as typed.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(default)]
pub struct Ingredient {
    /// Its identity on its card.
    #[serde(skip_serializing_if = "String::is_empty")]
    pub id: String,
    /// What it is.
    pub name: String,
    /// How much, ready to use, for all covers together.
    pub quantity: String,
    /// The unit of the quantity.
    pub unit: QuantityUnit,
    /// Where it comes from.
    pub origin: Origin,
    /// What is left after trimming, in percent; empty: the published figure, or nothing is trimmed.
    pub trim: String,
    /// The price as bought; empty for an own fish: what was paid for it.
    pub price: String,
    /// What the price is for, once chosen.
    pub per: Option<PricedBy>,
    /// What is in a pack.
    pub pack: String,
    /// The unit of what is in a pack.
    pub pack_unit: QuantityUnit,
    /// Grams of 100 ml.
    pub density: String,
    /// Grams of one piece as bought, or of one whole fish.
    pub piece: String,
    /// Who sells it; the group of its published trim yield, or the dry store, until chosen.
    pub group: Option<LineGroup>,
    /// The line as it came from another kitchen, where it could not be read.
    pub came_as: String,
    /// What a guest may react to in it, once the cook has said something of it.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub allergens: Option<TickedAllergens>,
}

/// What the cook has said of the allergens of an ingredient.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(default)]
pub struct TickedAllergens {
    /// The ingredient it was said of: under another name it counts no more.
    pub name: String,
    /// What is in it.
    pub contains: BTreeSet<Allergen>,
    /// By which list the cook has confirmed that nothing else is in it; by none yet.
    pub confirmed: Option<AllergenList>,
}

impl Part for Ingredient {
    fn id(&self) -> &str {
        &self.id
    }

    fn id_mut(&mut self) -> &mut String {
        &mut self.id
    }
}

/// Gives `$line` each field in which `$is` differs from `$was`.
macro_rules! take_what_differs {
    ($line:ident, $was:ident, $is:ident: $($field:ident)*) => {
        $(if $was.$field != $is.$field {
            $line.$field.clone_from(&$is.$field);
        })*
    };
}

impl Ingredient {
    /// Changes what was typed or chosen between `was` and `is`, and leaves the rest, which another tab may have changed.
    pub(super) fn retype(&mut self, was: &Self, is: &Self) {
        take_what_differs!(self, was, is: name quantity unit origin trim price per pack pack_unit density piece group came_as allergens);
    }

    /// Every text in it that is typed.
    pub(super) fn typed(&self) -> [&str; 7] {
        [
            &self.name,
            &self.quantity,
            &self.trim,
            &self.price,
            &self.pack,
            &self.density,
            &self.piece,
        ]
    }

    /// What the price is counted in, once it is known; a fish is priced by weight until something else is chosen.
    #[must_use]
    pub fn price_kind(&self) -> Option<Dimension> {
        match self.per {
            None => self.origin.is_fish().then_some(Dimension::Mass),
            Some(PricedBy::Kilo | PricedBy::Pound) => Some(Dimension::Mass),
            Some(PricedBy::Litre) => Some(Dimension::Volume),
            Some(PricedBy::Piece) => Some(Dimension::Pieces),
            Some(PricedBy::Pack) => Some(self.pack_unit.kind()),
        }
    }

    /// What has to be known so that the quantity and the price meet: what 100 ml or one piece weigh.
    #[must_use]
    pub fn meeting(&self) -> Option<LineField> {
        if matches!(self.origin, Origin::Part(_)) {
            return None;
        }
        match (self.unit.kind(), self.price_kind()?) {
            (Dimension::Volume, Dimension::Mass) | (Dimension::Mass, Dimension::Volume) => {
                Some(LineField::Density)
            }
            (Dimension::Pieces, Dimension::Mass) | (Dimension::Mass, Dimension::Pieces) => {
                Some(LineField::Piece)
            }
            _ => None,
        }
    }

    pub(super) fn meeting_field(&self) -> LineField {
        self.meeting().unwrap_or(LineField::Quantity)
    }

    /// Who sells it: as chosen, or as far as its name tells.
    #[must_use]
    pub fn group(&self) -> LineGroup {
        self.group.unwrap_or_else(|| {
            if self.origin.is_fish() {
                LineGroup::Fish
            } else if trim_for(&self.name).is_some() {
                LineGroup::Vegetables
            } else {
                LineGroup::DryStore
            }
        })
    }

    /// What it goes by: its name, or that of the fish or the part it is.
    #[must_use]
    pub fn title(&self, larder: Larder) -> String {
        let name = match (&self.origin, self.name.trim()) {
            (Origin::OwnFish(id), "") => (larder.fish)(id).map(|fish| fish.name()),
            (Origin::Part(id), "") => (larder.card)(id).map(|card| card.title()),
            (Origin::PublishedFish(key, _), "") => {
                species::species(key).map(|species| species.name.to_owned())
            }
            (_, "") => None,
            (_, name) => Some(name.to_owned()),
        };
        name.unwrap_or_else(|| "A line without a name".to_owned())
    }
}
