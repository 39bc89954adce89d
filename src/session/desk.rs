//! One dish as its screens work on it: read against everything it leans on, changed by taps.

use std::sync::Arc;

use leptos::prelude::*;

use crate::base::refusal::Refusal;
use crate::cards::larder;
use crate::cards::larder::{CardField, CardReading, Larder};
use crate::cards::purchase::careful_yield;
use crate::cards::recipe::{Recipe, RecipeAction};
use crate::code::day::Day;
use crate::device::clock;
use crate::fish::record::Fish;
use crate::place::{DishSide, Place};
use crate::session::bench::Bench;
use crate::session::drawer::Drawer;
use crate::trade::outlook::Outlook;

/// A dish and the way to send what was tapped. Copied freely: it holds only handles.
#[derive(Clone, Copy)]
pub struct Desk {
    /// What all screens share.
    pub bench: Bench,
    /// Every card on this phone.
    pub recipes: Drawer<Recipe>,
    id: StoredValue<String>,
    /// The card as it reads, read once for all the fields that show something of it.
    read: Memo<Option<Arc<CardReading>>>,
    /// What could not be done with the last tap.
    pub refused: RwSignal<Option<String>>,
}

impl Desk {
    /// The desk of the card `id`.
    #[must_use]
    pub fn of(bench: Bench, recipes: Drawer<Recipe>, id: &str) -> Self {
        let own = id.to_owned();
        let read = move |_: Option<&_>| {
            let card = recipes.with(&own, Clone::clone)?;
            let reading = with_larder(bench, recipes, |larder| larder::read(&own, &card, larder));
            Some(Arc::new(reading))
        };
        Self {
            bench,
            recipes,
            id: StoredValue::new(id.to_owned()),
            // It is read again only when something that it leans on has changed.
            read: Memo::new_with_compare(read, |_, _| true),
            refused: RwSignal::new(None),
        }
    }

    /// The identity of the card.
    #[must_use]
    pub fn id(self) -> String {
        self.id.get_value()
    }

    /// Reads the card and follows its changes; an empty text where it has just been removed.
    pub fn get<T: Default>(self, read: impl FnOnce(&Recipe) -> T) -> T {
        self.recipes
            .with(&self.id.get_value(), read)
            .unwrap_or_default()
    }

    /// Does something with what the cards lean on, and follows its changes.
    pub fn with_larder<T>(self, work: impl FnOnce(Larder) -> T) -> T {
        with_larder(self.bench, self.recipes, work)
    }

    /// The card as it reads; `None` once it is removed.
    #[must_use]
    pub fn reading(self) -> Option<Arc<CardReading>> {
        self.read.get()
    }

    /// The sentence beside a field.
    #[must_use]
    pub fn said(self, field: CardField) -> Option<String> {
        self.reading()?.said(field)
    }

    /// Does what was tapped; what can't be done is also said in `refused`.
    ///
    /// # Errors
    /// The sentence for what can't be done. Nothing is changed then.
    pub fn act(self, action: RecipeAction) -> Result<(), Refusal> {
        let outcome = self.recipes.act(&self.id.get_value(), action);
        let said = outcome.as_ref().err().map(ToString::to_string);
        self.refused.set(said);
        outcome
    }

    /// Sends a tap; what can't be done is said in `refused`.
    pub fn send(self, action: RecipeAction) {
        // It is said on the screen.
        let _ = self.act(action);
    }

    /// The address of a side of this card.
    #[must_use]
    pub fn at(self, side: DishSide) -> Place {
        Place::Dish(self.id.get_value(), side)
    }

    /// Its name, following its changes.
    #[must_use]
    pub fn title(self) -> Signal<String> {
        Signal::derive(move || self.get(Recipe::title))
    }

    /// Whether it is the demonstration.
    #[must_use]
    pub fn demo(self) -> Signal<bool> {
        Signal::derive(move || self.get(|card| card.demo))
    }

    /// One of the cook's own fish for a list: its identity, and its name with its day and yield.
    #[must_use]
    pub fn own_fish(self) -> Vec<(String, String)> {
        let ids = self.bench.fish.ids();
        let demo = self.get(|card| card.demo);
        let words = |id: &String| {
            self.bench.fish.with_untracked(id, |fish| {
                // An invented fish never counts among one's own.
                if fish.demo != demo {
                    return None;
                }
                let weights = fish.breakdown()?.ok()?;
                let day = clock::day(fish.begun);
                let share = crate::trade::rounding::percent(weights.yield_ratio(), 1);
                Some((id.clone(), format!("{}, {day}: {share}", fish.name())))
            })?
        };
        ids.iter().filter_map(words).collect()
    }
}

/// Does something with what the cards of this phone lean on, and follows its changes.
pub fn with_larder<T>(bench: Bench, recipes: Drawer<Recipe>, work: impl FnOnce(Larder) -> T) -> T {
    work(Larder {
        fish: &|id| bench.fish.with(id, Clone::clone),
        card: &|id| recipes.with(id, Clone::clone),
        careful: &|fish| careful_yield(&outlook(bench, fish)?),
        list: bench.settings.with(|settings| settings.allergens),
    })
}

/// What the next fish is likely to give, by the cook's own tests of the same species and form, weighed one by one.
fn outlook(bench: Bench, fish: &Fish) -> Option<Outlook> {
    if !bench.fish.read_all() {
        return None;
    }
    let latest_first = bench.fish.of_each(|other| {
        let alike = other.demo == fish.demo
            && other.slip.species == fish.slip.species
            && other.slip.form == fish.slip.form
            && other.slip.read_count() == Ok(1);
        let weights = alike.then(|| other.breakdown()?.ok()).flatten()?;
        // What was delivered to a kitchen on one day is taken for one delivery.
        let day = Day::at(other.begun, clock::offset_minutes(other.begun));
        Some((day, weights))
    });
    Outlook::of(latest_first.into_iter().rev())
}
