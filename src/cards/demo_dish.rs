//! The demonstration of a dish: a plate of a training kitchen that does not exist, every figure invented.

use super::ingredient::{Ingredient, Origin, PricedBy};
use super::recipe::{Recipe, Serves};
use crate::base::instant::Instant;
use crate::fish::settings::Settings;
use crate::trade::money::Currency;
use crate::trade::plate::line::LineGroup;
use crate::trade::plate::units::QuantityUnit;

/// The green sauce that is made ahead for it.
#[must_use]
pub fn green_sauce(now: Instant, settings: &Settings) -> Recipe {
    let jar = |line: Ingredient, pack: &str| Ingredient {
        per: Some(PricedBy::Pack),
        pack: pack.to_owned(),
        ..line
    };
    Recipe {
        name: "Green sauce".to_owned(),
        makes: "180".to_owned(),
        lines: vec![
            Ingredient {
                trim: "95".to_owned(),
                ..bought("Flat parsley", "60", QuantityUnit::Gram, "14.00")
            },
            jar(bought("Capers", "25", QuantityUnit::Gram, "3.20"), "200"),
            jar(bought("Anchovy fillets", "10", QuantityUnit::Gram, "4.10"), "90"),
            Ingredient {
                per: Some(PricedBy::Kilo),
                piece: "4".to_owned(),
                ..bought("Garlic", "1", QuantityUnit::Piece, "9.00")
            },
            Ingredient {
                per: Some(PricedBy::Litre),
                ..bought("Olive oil", "80", QuantityUnit::Millilitre, "11.50")
            },
            Ingredient {
                per: Some(PricedBy::Pack),
                pack: "500".to_owned(),
                pack_unit: QuantityUnit::Millilitre,
                ..bought("Sherry vinegar", "1", QuantityUnit::Tablespoon, "5.60")
            },
        ],
        share: String::new(),
        method: "Chop the parsley, capers, anchovy and garlic by hand.\nStir in the oil, then vinegar to taste: capers and anchovy carry the salt.".to_owned(),
        ..demo(Serves::Amount, now, settings)
    }
}

/// The plate for two covers, with the green sauce kept as `sauce`.
#[must_use]
pub fn bream_plate(sauce: &str, now: Instant, settings: &Settings) -> Recipe {
    Recipe {
        name: "Sea bream, green sauce, leeks and sugar snaps".to_owned(),
        lines: vec![
            Ingredient {
                origin: Origin::TypedFish,
                trim: "46.6".to_owned(),
                piece: "648".to_owned(),
                ..bought("Gilthead bream", "300", QuantityUnit::Gram, "15.40")
            },
            Ingredient {
                origin: Origin::Part(sauce.to_owned()),
                quantity: "90".to_owned(),
                ..Ingredient::default()
            },
            Ingredient {
                trim: "44".to_owned(),
                ..bought("Leeks", "160", QuantityUnit::Gram, "3.40")
            },
            Ingredient {
                per: Some(PricedBy::Pack),
                pack: "250".to_owned(),
                group: Some(LineGroup::Vegetables),
                ..bought("Sugar snaps", "100", QuantityUnit::Gram, "2.90")
            },
            Ingredient {
                per: Some(PricedBy::Piece),
                group: Some(LineGroup::Vegetables),
                ..bought("Watercress, a bunch", "0.5", QuantityUnit::Piece, "1.80")
            },
        ],
        share: "3".to_owned(),
        method: "Fry the fillets skin side down, finish them in the pan's own heat, rest them on paper.\nLeeks, then sugar snaps, in the same pan while the fish rests.\nDress the cress at the last moment; warm plates, sauce beside the skin, not on it.".to_owned(),
        price: "24.50".to_owned(),
        tax: "10".to_owned(),
        wanted: "24".to_owned(),
        margin: "5".to_owned(),
        ..demo(Serves::Covers, now, settings)
    }
}

fn demo(serves: Serves, now: Instant, settings: &Settings) -> Recipe {
    Recipe {
        demo: true,
        currency: Currency::Eur,
        ..Recipe::new(serves, now, settings)
    }
}

fn bought(name: &str, quantity: &str, unit: QuantityUnit, price: &str) -> Ingredient {
    Ingredient {
        name: name.to_owned(),
        quantity: quantity.to_owned(),
        unit,
        price: price.to_owned(),
        per: Some(PricedBy::Kilo),
        ..Ingredient::default()
    }
}
