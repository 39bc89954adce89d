//! A fish follows the card of its dish until the service begins; a dish may be served alone, without one.

use super::ingredient::{Ingredient, Origin};
use super::larder::Larder;
use super::recipe::{Recipe, Serves};
use crate::base::instant::Instant;
use crate::base::refusal::Refusal;
use crate::fish::action::Action;
use crate::fish::alongside::{Alongside, AlongsideTap};
use crate::fish::record::{Fish, OWN_DISH};
use crate::fish::serving::PlanTap;
use crate::fish::settings::Settings;
use crate::fish::slip::Species;
use crate::service::dish::shipped;
use crate::service::dish::{Dish, FOOD, MiseLine};
use crate::service::menu;
use crate::trade::plate::scaled::parse_covers;

/// The longest name of a line among what is to be made ready, in letters: the name of a step is no longer.
const LONGEST_READY: usize = 60;

impl Recipe {
    /// The steps that a card without any starts from: fish in the pan where it has fish or no lines yet, otherwise those
    /// of a dish without.
    ///
    /// # Errors
    /// The sentence for steps that this build can't read.
    pub fn starting(&self) -> Result<&'static Dish, Refusal> {
        let has_fish = self.lines.iter().any(|line| line.origin.is_fish());
        if has_fish || self.lines.is_empty() {
            shipped::by_id(OWN_DISH)
        } else {
            shipped::plain()
        }
    }

    /// How the dish of this card is cooked, under the name of the card and with what its own lines make ready; nothing
    /// where the card does not say.
    #[must_use]
    pub fn cooked(&self, larder: Larder) -> Option<Dish> {
        let steps = self.steps.as_deref()?;
        let mut dish = Dish {
            name: self.title(),
            ..steps.clone()
        };
        if self.serves == Serves::Covers && !self.lines.is_empty() {
            dish.covers = parse_covers(&self.covers).unwrap_or(dish.covers);
            dish.mise = self.made_ready(&dish, larder);
            dish.allergens = self.allergens(larder).sentences();
        }
        Some(dish)
    }

    /// What has to be ready: every line of the card, and the tools of its steps.
    fn made_ready(&self, dish: &Dish, larder: Larder) -> Vec<MiseLine> {
        let care = |line: &Ingredient| {
            let shipped = shipped::by_id(OWN_DISH).ok();
            let fillets = shipped.and_then(|dish| dish.mise.iter().find(|m| m.id == "fillets"));
            fillets
                .filter(|_| line.origin.is_fish())
                .and_then(|fillets| fillets.caution.clone())
        };
        let lines = self.lines.iter().enumerate().map(|(at, line)| {
            let title: String = line.title(larder).chars().take(LONGEST_READY).collect();
            let ready = match line.origin {
                Origin::Part(_) => "made and tasted",
                _ => "ready to use",
            };
            let said = match line.quantity.trim() {
                "" => format!("{title}: {ready}."),
                quantity => format!(
                    "{title}: {quantity} {} for {} covers, {ready}.",
                    line.unit.symbol(),
                    self.covers.trim()
                ),
            };
            // A card that was never read yet has lines without an identity: they are named by their place then.
            let id = match line.id.as_str() {
                "" => at.saturating_add(1).to_string(),
                id => id.to_owned(),
            };
            MiseLine {
                id: format!("line-{id}"),
                say: said,
                caution: care(line),
                detours: Vec::new(),
            }
        });
        let tools = dish.mise.iter();
        // The card says itself what food there is.
        let tools = tools.filter(|line| !FOOD.contains(&line.id.as_str()));
        lines.chain(tools.cloned()).collect()
    }

    /// The tap that cooks a fish into the dish of this card, called `id`. Nothing where the card does not say how.
    ///
    /// # Errors
    /// Why its steps can't be served.
    pub fn chosen(&self, id: &str, larder: Larder) -> Option<Result<PlanTap, Refusal>> {
        let sound = menu::sound(self.cooked(larder)?);
        Some(sound.map(|dish| PlanTap::Card(id.to_owned(), Box::new(dish))))
    }

    /// The tap that brings a fish up to this card, which it follows. Nothing when it is there already, or when its
    /// service has begun: an edit of the card is for the next one.
    ///
    /// # Errors
    /// Why the steps of the card can't be served.
    pub fn followed(&self, fish: &Fish, larder: Larder) -> Option<Result<PlanTap, Refusal>> {
        let card = fish.serving().card.as_deref()?;
        let follows = fish.own_dish.as_ref().and_then(|own| own.open().ok());
        if fish.run.is_some() || follows == self.cooked(larder).as_ref() {
            return None;
        }
        self.chosen(card, larder)
    }

    /// The tap that brings a dish of a service up to this card, which it follows. Nothing when it is there already, or when
    /// the service has begun.
    ///
    /// # Errors
    /// Why the steps of the card can't be served.
    pub fn followed_alongside(
        &self,
        fish: &Fish,
        one: &Alongside,
        larder: Larder,
    ) -> Option<Result<PlanTap, Refusal>> {
        let cooked = self.cooked(larder)?;
        if fish.run.is_some() || one.card.is_none() || one.dish == cooked {
            return None;
        }
        let follow = |dish| AlongsideTap::Follow(one.id.clone(), Box::new(dish));
        Some(menu::sound(cooked).map(|dish| PlanTap::Alongside(follow(dish))))
    }

    /// A service of this card, called `card`, alone: no fish is bought and weighed for it. It is kept as a fish is.
    /// Nothing where the card does not say how it is cooked.
    ///
    /// # Errors
    /// Why its steps can't be served.
    pub fn served_alone(
        &self,
        card: &str,
        id: String,
        now: Instant,
        (settings, larder): (&Settings, Larder),
    ) -> Option<Result<Fish, Refusal>> {
        let chosen = self.chosen(card, larder)?;
        let mut fish = Fish::new(id, now, settings);
        fish.demo = self.demo;
        fish.alone = Some(self.title());
        fish.slip.species = self.lines.iter().find_map(|line| species(line, larder));
        if parse_covers(&self.covers).is_ok() {
            fish.slip.portions = self.covers.trim().to_owned();
        }
        Some(chosen.and_then(|tap| fish.apply(&Action::Plan(tap), now)))
    }
}

/// Which fish a line is, as far as it says.
fn species(line: &Ingredient, larder: Larder) -> Option<Species> {
    match &line.origin {
        Origin::OwnFish(id) => (larder.fish)(id)?.slip.species,
        Origin::PublishedFish(key, _) => (!key.is_empty()).then(|| Species::Listed(key.clone())),
        Origin::TypedFish => Some(Species::Other(line.title(larder))),
        Origin::Bought | Origin::Part(_) => None,
    }
}
