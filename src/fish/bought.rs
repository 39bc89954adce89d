//! A species in one delivery form, which is what a yield belongs to.

use super::slip::Species;
use crate::base::text::caseless;
use crate::trade::breakdown::DeliveryForm;
use crate::trade::published::{self, PublishedRange};

/// A species in one delivery form: the only yields that compare.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct SpeciesForm {
    /// Which fish.
    pub species: Species,
    /// How it was delivered.
    pub form: DeliveryForm,
}

impl SpeciesForm {
    /// What tells it from other kinds: a name typed in capitals is the same fish.
    #[must_use]
    pub fn key(&self) -> (String, DeliveryForm) {
        (caseless(&self.species.name()), self.form)
    }

    /// As a cook says it: `Gilthead bream, gutted`.
    #[must_use]
    pub fn name(&self) -> String {
        format!("{}, {}", self.species.name(), self.form.name())
    }

    /// What is published for it.
    #[must_use]
    pub fn published(&self) -> Option<PublishedRange> {
        published::range_for(self.species.key()?, self.form)
    }
}
