//! A dish goes to another kitchen and comes back; what comes from elsewhere is taken as far as it goes.

use std::collections::BTreeMap;

use rust_decimal::Decimal;
use scaleside::cards::exchange;
use scaleside::cards::exchange::Imported;
use scaleside::cards::ingredient::{Ingredient, Origin};
use scaleside::fish::settings::Settings;
use scaleside::trade::plate::line::{PlateLine, Source};
use scaleside::trade::plate::units::QuantityUnit;

use crate::phone::{NOW, Phone, bream, demo_phone};

/// Keeps what came in, as the screen does.
fn keep(imported: &Imported) -> Phone {
    let mut phone = Phone::default();
    let mut identities = BTreeMap::new();
    for (nth, (mark, card)) in imported.cards.iter().enumerate() {
        let id = format!("new{nth}");
        phone
            .cards
            .insert(id.clone(), Imported::with_identities(card, &identities));
        identities.insert(mark.clone(), id);
    }
    phone
}

#[test]
fn a_dish_comes_back_as_it_went_with_its_parts_and_its_cost() {
    let mut phone = demo_phone();
    let own = Ingredient {
        quantity: "10.5".into(),
        unit: QuantityUnit::Ounce,
        origin: Origin::OwnFish("f".into()),
        ..Ingredient::default()
    };
    phone.fish.insert("f".into(), bream("f"));
    phone.cards.get_mut("plate").unwrap().lines.push(own);
    let text = phone.with(|larder| exchange::write("plate", &phone.cards["plate"], larder));
    let imported = exchange::read(&text, NOW, &Settings::default()).unwrap();
    assert_eq!(imported.left, [""; 0]);
    let back = keep(&imported);
    assert_eq!(back.cards.len(), 2);
    let (was, is) = (
        phone.read("plate").preparation,
        back.read("new1").preparation,
    );
    assert_eq!(
        (is.name, is.makes, is.currency),
        (was.name, was.makes, was.currency)
    );
    let groups = |lines: &[PlateLine]| {
        lines
            .iter()
            .map(|line| match &line.source {
                Source::Bought(bought) => (line.name.clone(), line.quantity, Some(bought.group)),
                Source::Part(_) => (line.name.clone(), line.quantity, None),
            })
            .collect::<Vec<_>>()
    };
    assert_eq!(groups(&is.lines), groups(&was.lines));
    assert_eq!(back.cards["new1"].method, phone.cards["plate"].method);
    // A yield travels to the thousandth of a percent.
    let (was, is) = (phone.cost_of_a_cover("plate"), back.cost_of_a_cover("new1"));
    assert!((was - is).abs() < Decimal::new(1, 4), "{was} {is}");
}

#[test]
fn what_other_kitchens_write_is_taken_as_far_as_it_goes() {
    let text = r#"{"@context":"http://schema.org","@graph":[{"@type":"WebPage"},{"@type":["Recipe","Thing"],
        "name":"Bouillon","author":{"name":"nobody"},"recipeYield":["4","4 servings"],
        "recipeIngredient":["1,5 kg fish frames","2 leeks","1 cup wine","salt"],
        "recipeInstructions":[{"@type":"HowToSection","itemListElement":[{"@type":"HowToStep","text":"Rinse.\nDrain."}]},"Simmer."]}]}"#;
    let imported = exchange::read(text, NOW, &Settings::default()).unwrap();
    let card = imported.dish().unwrap();
    assert_eq!(
        (card.name.as_str(), card.covers.as_str()),
        ("Bouillon", "4")
    );
    assert_eq!(card.method, "Rinse.\nDrain.\nSimmer.");
    let lines: Vec<(&str, &str, &str)> = card
        .lines
        .iter()
        .map(|line| {
            (
                line.name.as_str(),
                line.quantity.as_str(),
                line.came_as.as_str(),
            )
        })
        .collect();
    assert_eq!(
        lines,
        [
            ("fish frames", "1.5", ""),
            ("leeks", "2", ""),
            ("1 cup wine", "", "1 cup wine"),
            ("salt", "", "salt"),
        ]
    );
    let left = imported.left.join(" ");
    assert!(
        left.contains("2 lines was not understood") && left.contains("author"),
        "{left}"
    );
}

#[test]
fn what_is_no_dish_is_refused_with_its_own_sentence() {
    let long = format!("\"{}\"", "x".repeat(1_000_001));
    let deep = format!("{}{}", "[".repeat(5_000), "]".repeat(5_000));
    for (text, said) in [
        ("", "Paste a dish"),
        ("hello", "no JSON-LD"),
        ("{\"@type\":\"Recipe\"", "line 1"),
        ("{\"@type\":\"Person\"}", "no dish in it"),
        ("[1,null,\"Recipe\"]", "no dish in it"),
        (&long, "too long"),
        (&deep, "no JSON-LD"),
    ] {
        let refusal = exchange::read(text, NOW, &Settings::default())
            .unwrap_err()
            .to_string();
        assert!(refusal.contains(said), "{refusal}");
    }
    // Next to nothing, parts that name one another, and values of the wrong kind still make a card to finish.
    for text in [
        r#"{"@type":"Recipe"}"#,
        r#"{"@type":"https://schema.org/Recipe","name":7,"recipeYield":{},"recipeIngredient":{"a":1},"supply":"x"}"#,
        r##"{"@type":"Recipe","recipeIngredient":["1 g x"],"supply":[{"name":"x","requiredQuantity":{"value":1,"unitCode":"GRM"},
            "item":{"@type":"Recipe","@id":"#x"}}],"hasPart":[{"@type":"Recipe","@id":"#x","recipeIngredient":["1 g x"],
            "supply":[{"name":"x","requiredQuantity":{"value":1,"unitCode":"GRM"},"item":{"@type":"Recipe","@id":"#x"}}]}]}"##,
    ] {
        let imported = exchange::read(text, NOW, &Settings::default()).unwrap();
        let phone = keep(&imported);
        let last = format!("new{}", phone.cards.len() - 1);
        assert!(!phone.read(&last).faults.is_empty());
    }
}
