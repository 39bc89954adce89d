//! A fish follows the card of its dish until the service begins.

use super::recipe::Recipe;
use crate::base::refusal::Refusal;
use crate::fish::record::Fish;
use crate::fish::serving::PlanTap;
use crate::service::dish::Dish;
use crate::service::menu;

impl Recipe {
    /// How the dish of this card is cooked, under the name of the card; nothing where the card does not say.
    #[must_use]
    pub fn cooked(&self) -> Option<Dish> {
        self.steps.as_deref().map(|steps| Dish {
            name: self.title(),
            ..steps.clone()
        })
    }

    /// The tap that cooks a fish into the dish of this card, called `id`. Nothing where the card does not say how.
    ///
    /// # Errors
    /// Why its steps can't be served.
    pub fn chosen(&self, id: &str) -> Option<Result<PlanTap, Refusal>> {
        let sound = menu::sound(self.cooked()?);
        Some(sound.map(|dish| PlanTap::Card(id.to_owned(), Box::new(dish))))
    }

    /// The tap that brings a fish up to this card, which it follows. Nothing when it is there already, or when its
    /// service has begun: an edit of the card is for the next one.
    ///
    /// # Errors
    /// Why the steps of the card can't be served.
    pub fn followed(&self, fish: &Fish) -> Option<Result<PlanTap, Refusal>> {
        let card = fish.serving().card.as_deref()?;
        let follows = fish.own_dish.as_ref().and_then(|own| own.open().ok());
        if fish.run.is_some() || follows == self.cooked().as_ref() {
            return None;
        }
        self.chosen(card)
    }
}
