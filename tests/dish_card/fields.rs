//! Each field that can't be taken has one sentence of its own; what was typed stays.

use scaleside::cards::ingredient::{Ingredient, Origin, PricedBy};
use scaleside::cards::larder::{CardField, LineField};
use scaleside::cards::recipe::Recipe;
use scaleside::trade::breakdown::DeliveryForm;
use scaleside::trade::plate::units::QuantityUnit;

use crate::phone::{Phone, dish, leek, part, uses};

#[test]
fn each_field_has_a_sentence_of_its_own_and_keeps_what_was_typed() {
    type Spoil = fn(&mut Ingredient);
    let cases: [(Spoil, LineField, &str); 23] = [
        (
            |line| line.name.clear(),
            LineField::Name,
            "Name the ingredient",
        ),
        (
            |line| line.quantity.clear(),
            LineField::Quantity,
            "how much",
        ),
        (
            |line| line.quantity = "0".into(),
            LineField::Quantity,
            "is zero",
        ),
        (
            |line| line.quantity = "-2".into(),
            LineField::Quantity,
            "below zero",
        ),
        (
            |line| line.trim = "0".into(),
            LineField::Trim,
            "nothing would be left",
        ),
        (
            |line| line.trim = "-4".into(),
            LineField::Trim,
            "below zero",
        ),
        (
            |line| line.trim = "101".into(),
            LineField::Trim,
            "over 100 %",
        ),
        (
            |line| line.trim = "most".into(),
            LineField::Trim,
            "in digits",
        ),
        (
            |line| line.price.clear(),
            LineField::Price,
            "Type the price",
        ),
        (
            |line| line.per = None,
            LineField::Price,
            "what the price is for",
        ),
        (
            |line| line.per = Some(PricedBy::Pack),
            LineField::Pack,
            "in one pack",
        ),
        (
            |line| line.per = Some(PricedBy::Litre),
            LineField::Density,
            "what 100 ml of it weighs",
        ),
        (
            |line| line.unit = QuantityUnit::Millilitre,
            LineField::Density,
            "A volume meets a price by weight",
        ),
        (
            |line| line.unit = QuantityUnit::Piece,
            LineField::Piece,
            "what one piece weighs",
        ),
        (
            |line| (line.unit, line.per) = (QuantityUnit::Piece, Some(PricedBy::Litre)),
            LineField::Quantity,
            "in pieces and the price is by volume",
        ),
        (
            |line| (line.unit, line.density) = (QuantityUnit::Millilitre, "0".into()),
            LineField::Density,
            "is zero",
        ),
        (
            |line| line.origin = Origin::OwnFish("gone".into()),
            LineField::Origin,
            "no longer on this phone",
        ),
        (
            |line| line.origin = Origin::PublishedFish("mahi_mahi".into(), DeliveryForm::Whole),
            LineField::Origin,
            "No yield is published",
        ),
        (
            |line| line.origin = Origin::PublishedFish(String::new(), DeliveryForm::Whole),
            LineField::Origin,
            "Choose which fish",
        ),
        (
            |line| (line.origin, line.unit) = (Origin::TypedFish, QuantityUnit::Piece),
            LineField::Quantity,
            "A fish is portioned by weight",
        ),
        (
            |line| (line.origin, line.trim) = (Origin::TypedFish, String::new()),
            LineField::Trim,
            "Type the yield",
        ),
        (
            |line| line.origin = Origin::Part(String::new()),
            LineField::Origin,
            "Choose which part",
        ),
        (
            |line| line.origin = Origin::Part("gone".into()),
            LineField::Origin,
            "no longer on this phone",
        ),
    ];
    for (spoil, field, said) in cases {
        let mut line = leek();
        spoil(&mut line);
        let phone = Phone::of([("plate", dish(vec![leek(), line.clone()]))]);
        let reading = phone.read("plate");
        let fields: Vec<CardField> = reading.faults.iter().map(|(field, _)| *field).collect();
        assert_eq!(fields, [CardField::Line(1, field)], "{line:?}");
        let sentence = reading.said(CardField::Line(1, field)).unwrap();
        assert!(sentence.contains(said), "{sentence}");
        assert_eq!(
            (reading.places, reading.preparation.lines.len()),
            (vec![0], 1)
        );
    }
}

#[test]
fn what_the_whole_card_says_is_read_too() {
    for (covers, share, field, said) in [
        ("0", "", CardField::Makes, "at least one cover"),
        ("two", "", CardField::Makes, "whole number"),
        ("2", "-1", CardField::Share, "below zero"),
        ("2", "51", CardField::Share, "over 50 %"),
    ] {
        let card = Recipe {
            covers: covers.into(),
            share: share.into(),
            ..dish(vec![leek()])
        };
        let reading = Phone::of([("plate", card)]).read("plate");
        assert!(reading.said(field).unwrap().contains(said));
    }
    let unfinished = Phone::of([
        ("sauce", part("", vec![leek()])),
        ("plate", dish(vec![uses("sauce", "9")])),
    ]);
    let said = unfinished.read("sauce").said(CardField::Makes).unwrap();
    assert!(said.contains("how much these lines make"));
    let said = unfinished
        .read("plate")
        .said(CardField::Line(0, LineField::Origin))
        .unwrap();
    assert!(said.contains("“Sauce” is not finished"), "{said}");
}
