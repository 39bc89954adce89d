//! A phone with cards and fish on it, and lines to write on them.

use std::collections::BTreeMap;

use rust_decimal::Decimal;
use scaleside::base::instant::Instant;
use scaleside::cards::demo_dish;
use scaleside::cards::ingredient::{Ingredient, Origin, PricedBy};
use scaleside::cards::larder;
use scaleside::cards::larder::{CardReading, Larder};
use scaleside::cards::recipe::{Recipe, Serves};
use scaleside::fish::action::Action;
use scaleside::fish::demo;
use scaleside::fish::record::Fish;
use scaleside::fish::settings::Settings;
use scaleside::fish::weighing::Which;
use scaleside::trade::plate::allergens::AllergenList;
use scaleside::trade::plate::plate::Plate;

/// 2026-03-09, 23:30 UTC.
pub const NOW: Instant = Instant(1_773_099_000_000);

/// What is on the phone: cards and fish by identity.
#[derive(Clone, Default)]
pub struct Phone {
    pub cards: BTreeMap<String, Recipe>,
    pub fish: BTreeMap<String, Fish>,
}

impl Phone {
    pub fn of<const N: usize>(cards: [(&str, Recipe); N]) -> Self {
        let cards = cards.map(|(id, card)| (id.to_owned(), card));
        Self {
            cards: cards.into(),
            ..Self::default()
        }
    }

    pub fn with<T>(&self, work: impl FnOnce(Larder) -> T) -> T {
        work(Larder {
            fish: &|id| self.fish.get(id).cloned(),
            card: &|id| self.cards.get(id).cloned(),
            careful: &|_| None,
            list: AllergenList::default(),
        })
    }

    pub fn read(&self, id: &str) -> CardReading {
        self.with(|larder| larder::read(id, &self.cards[id], larder))
    }

    pub fn cost_of_a_cover(&self, id: &str) -> Decimal {
        let reading = self.read(id);
        assert!(reading.faults.is_empty(), "{:?}", reading.faults);
        Plate::of(&reading.preparation).unwrap().per_cover().amount
    }
}

pub fn dish(lines: Vec<Ingredient>) -> Recipe {
    Recipe {
        name: "Plate".into(),
        lines,
        ..Recipe::new(Serves::Covers, NOW, &Settings::default())
    }
}

pub fn part(makes: &str, lines: Vec<Ingredient>) -> Recipe {
    Recipe {
        name: "Sauce".into(),
        makes: makes.into(),
        lines,
        ..Recipe::new(Serves::Amount, NOW, &Settings::default())
    }
}

pub fn leek() -> Ingredient {
    Ingredient {
        name: "Leek".into(),
        quantity: "200".into(),
        trim: "44".into(),
        price: "3.30".into(),
        per: Some(PricedBy::Kilo),
        ..Ingredient::default()
    }
}

pub fn uses(id: &str, quantity: &str) -> Ingredient {
    Ingredient {
        quantity: quantity.into(),
        origin: Origin::Part(id.into()),
        ..Ingredient::default()
    }
}

pub fn demo_phone() -> Phone {
    let settings = Settings::default();
    Phone::of([
        ("sauce", demo_dish::green_sauce(NOW, &settings)),
        ("plate", demo_dish::bream_plate("sauce", NOW, &settings)),
    ])
}

/// The demo's bream, weighed.
pub fn bream(id: &str) -> Fish {
    let fish = demo::bream(id.into(), NOW, &Settings::default());
    let take = |which| Action::Take { which, sure: true };
    [take(Which::Whole), Action::Raw(true), take(Which::Ready)]
        .iter()
        .fold(fish, |fish, action| fish.apply(action, NOW).unwrap())
}
