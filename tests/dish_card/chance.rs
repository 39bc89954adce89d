//! What an order by a published yield leaves to chance.

use rust_decimal::Decimal;
use scaleside::cards::ingredient::{Ingredient, Origin, PricedBy};
use scaleside::trade::breakdown::DeliveryForm;
use scaleside::trade::plate::order::order;

use crate::phone::{Phone, dish};

/// Bream whole is published at 47.1 to 53.8 %, so the middle is 50.45 %. For 24 covers of 150 g, 3.6 kg ready, by hand:
/// loose 7.136 kg, and 7.643 kg at the least published. Of 648 g one fish gives two portions at either end, and 12 fish
/// weigh enough; of 600 g it gives two at the middle (302.7 g) and one at the least (282.6 g).
#[test]
fn an_order_by_a_published_yield_says_what_it_leaves_to_chance() {
    let line = |key: &str, piece: &str| Ingredient {
        name: "Fish".into(),
        quantity: "300".into(),
        price: "15.40".into(),
        per: Some(PricedBy::Kilo),
        origin: Origin::PublishedFish(key.into(), DeliveryForm::Whole),
        piece: piece.into(),
        ..Ingredient::default()
    };
    for (key, piece, buy, told) in [
        (
            "gilthead_bream",
            "",
            "7.15 kg",
            "At the least published, 47.1 %, you need 500 g more: 7.65 kg",
        ),
        (
            "gilthead_bream",
            "648",
            "12 fish of 648 g",
            "Still enough at the least published, 47.1 %",
        ),
        (
            "gilthead_bream",
            "600",
            "12 fish of 600 g",
            "At the least published, 47.1 %, you need 12 fish more: 24 fish of 600 g",
        ),
        (
            "octopus",
            "",
            "4.6 kg",
            "Only 79.0 % is published, and no range: a fish may give less",
        ),
    ] {
        let reading = Phone::of([("plate", dish(vec![line(key, piece)]))]).read("plate");
        let list = order(&reading.preparation, 24, Decimal::ZERO).unwrap();
        let bought = &list.groups[0].1[0];
        assert_eq!(bought.buy.show(bought.unit), buy);
        let chance = bought.chance.as_ref().unwrap();
        assert_eq!(chance.told(bought.unit), told);
    }
    let typed = Ingredient {
        origin: Origin::TypedFish,
        trim: "47".into(),
        ..line("", "")
    };
    let reading = Phone::of([("plate", dish(vec![typed]))]).read("plate");
    let list = order(&reading.preparation, 24, Decimal::ZERO).unwrap();
    assert_eq!(list.groups[0].1[0].chance, None);
}
