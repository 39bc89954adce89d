//! What a guest may react to in a dish: line by line as the cook confirmed it or as the names propose, and gathered with
//! what the parts made ahead bring.

use super::ingredient::{Ingredient, Origin, TickedAllergens};
use super::larder::Larder;
use super::recipe::Recipe;
use crate::base::text::caseless;
use crate::trade::plate::allergens::{Allergen, AllergenList, Gathered, LineAllergens, proposed};

/// How deep parts in parts are followed: as deep as they are costed.
const DEEPEST: usize = 10;
/// How many lines are looked at in all: a card that came from elsewhere may be made so that its parts multiply.
const MOST_LINES: usize = 2_000;

impl Ingredient {
    /// What is said of the allergens of this line, by the name it goes by now; nothing of a part made ahead, whose own
    /// lines say it.
    #[must_use]
    pub fn allergens_said(&self, larder: Larder) -> Option<LineAllergens> {
        if matches!(self.origin, Origin::Part(_)) {
            return None;
        }
        let name = self.title(larder);
        let ticked = self.allergens.as_ref();
        let ticked = ticked.filter(|of| caseless(&of.name) == caseless(&name));
        let contains = match ticked {
            Some(of) => of.contains.clone(),
            None => {
                let mut found = proposed(&name);
                found.extend(self.origin.is_fish().then_some(Allergen::Fish));
                found
            }
        };
        // Who went by the shorter list has said nothing of what only the longer one names.
        let by = ticked.and_then(|of| of.confirmed);
        Some(LineAllergens {
            confirmed: by.is_some_and(|by| by == AllergenList::Europe || by == larder.list),
            name,
            contains,
        })
    }

    /// The same with one allergen in it or not. That is no word about the others.
    #[must_use]
    pub fn with_allergen(&self, larder: Larder, allergen: Allergen, is_in: bool) -> Option<Self> {
        let mut said = self.allergens_said(larder)?;
        if is_in {
            said.contains.insert(allergen);
        } else {
            said.contains.remove(&allergen);
        }
        let confirmed = said.confirmed.then_some(larder.list);
        Some(self.ticked(said, confirmed))
    }

    /// The same with what is said of it confirmed, and that nothing else of the list is in it.
    #[must_use]
    pub fn with_allergens_confirmed(&self, larder: Larder) -> Option<Self> {
        let said = self.allergens_said(larder)?;
        Some(self.ticked(said, Some(larder.list)))
    }

    fn ticked(&self, said: LineAllergens, confirmed: Option<AllergenList>) -> Self {
        Self {
            allergens: Some(TickedAllergens {
                name: said.name,
                contains: said.contains,
                confirmed,
            }),
            ..self.clone()
        }
    }
}

impl Recipe {
    /// What a guest may react to in this dish, its parts and their parts, by the list of this kitchen.
    #[must_use]
    pub fn allergens(&self, larder: Larder) -> Gathered {
        let mut all = Vec::new();
        gather(self, larder, &mut Vec::new(), &mut all);
        Gathered::of(&all, larder.list)
    }
}

fn gather(card: &Recipe, larder: Larder, trail: &mut Vec<String>, all: &mut Vec<LineAllergens>) {
    for line in &card.lines {
        if all.len() >= MOST_LINES {
            return;
        }
        let Origin::Part(id) = &line.origin else {
            all.extend(line.allergens_said(larder));
            continue;
        };
        // Of a part that is gone, in itself or without lines nobody can tell what is in it.
        let part = (larder.card)(id).filter(|_| !trail.contains(id) && trail.len() < DEEPEST);
        match part.filter(|part| !part.lines.is_empty()) {
            Some(part) => {
                trail.push(id.clone());
                gather(&part, larder, trail, all);
                trail.pop();
            }
            None => all.push(LineAllergens {
                name: line.title(larder),
                ..LineAllergens::default()
            }),
        }
    }
}
