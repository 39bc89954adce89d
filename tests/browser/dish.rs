//! A dish from an empty card to its cost, its order and another kitchen.

use std::process::Command;

use serde_json::{Value, json};

use crate::bench::{Bench, PHONE, Scheme, Size};
use crate::class::texts;

fn paste(bench: &Bench, text: &str) {
    let script = "const field = document.querySelector('#dish-text');
        field.value = arguments[0];
        field.dispatchEvent(new Event('input', { bubbles: true }))";
    bench.run(script, &[json!(text)]);
}

/// The address of the dish on the screen, such as `#/dish/k3f9`.
fn dish_place(bench: &Bench) -> String {
    let place = bench.run("return location.hash.split('/').slice(0, 3).join('/')", &[]);
    place.as_str().unwrap().to_owned()
}

/// A fish of 44 % at 18.90 a kilo, 160 g a cover: 6.8727. Leeks at the published 44 %, 100 g a cover at 3.30 a
/// kilo: 0.75. Five percent for the rest: 8.0039 a cover, all worked by hand.
pub fn write_a_dish(bench: &Bench) -> String {
    bench.tap("Dishes and orders");
    bench.see("Write down what goes on the plate");
    bench.is_sound();
    bench.tap("Write a dish");
    bench.fill("#dish-name", "Test plate");
    bench.fill("#dish-covers", "4");
    let place = dish_place(bench);
    bench.tap("Add a line");
    bench.see("Line 1");
    bench.tap("Done");
    for said in [
        "Name the ingredient.",
        "Say how much of it.",
        "Type the price from the invoice.",
    ] {
        bench.see(said);
    }
    bench.is_sound();
    bench.tap("Whole fish");
    bench.see("Type the yield of the fish");
    bench.fill("#line-name", "Bream");
    bench.fill("#line-trim", "440");
    bench.see("The yield can't be over 100 %.");
    bench.fill("#line-trim", "44");
    bench.fill("#line-quantity", "640");
    bench.fill("#line-price", "18.90");
    bench.see("Say what the price is for");
    bench.pick("#line-per", "kg");
    bench.fill("#line-piece", "2350");
    bench.see("€6.87 a cover");
    bench.see("640 g ÷ 44.0 % (as typed) = 1.455 kg as purchased, at €18.90 per kg");
    bench.is_sound();
    bench.tap("Done");
    bench.at(&place);
    bench.tap("Add a line");
    bench.fill("#line-name", "Leeks");
    bench.tap("Use 44 %");
    bench.see("In use.");
    bench.fill("#line-quantity", "400");
    bench.fill("#line-price", "3.30");
    bench.pick("#line-per", "kg");
    bench.see("€0.75 a cover");
    bench.tap("Done");
    bench.fill("#dish-share", "5");
    bench.is_sound();
    place
}

#[test]
fn a_dish_is_written_by_taps_and_read_as_a_plate() {
    let bench = Bench::open(PHONE, Scheme::Light);
    bench.started();
    let place = write_a_dish(&bench);
    bench.tap("Read the plate");
    bench.see("Food cost of a cover €8.00");
    assert_eq!(
        texts(&bench, ".costs tbody th"),
        ["Bream", "Leeks", "Never measured", "Together"]
    );
    bench.fill("#menu-price", "29.35");
    bench.fill("#menu-tax", "10");
    bench.see("Food-cost share at €29.35 30.0 %");
    bench.see("Margin on a cover €18.68");
    bench.see("Price at a share of 30.0 % €29.35");
    bench.see("€0.16 a cover €16.04 on a hundred covers");
    bench.is_sound();
    bench.reload();
    bench.see("Food cost of a cover €8.00");

    bench.tap("What to buy");
    bench.at(&format!("{place}/order"));
    bench.see("Say for how many covers");
    bench.fill("#dish-wanted", "24");
    bench.see("4 fish of 2.35 kg");
    bench.see("6 whole portions of 160 g");
    bench.see("5.5 kg");
    bench.fill("#dish-margin", "10");
    bench.see("Enough for 27 covers");
    bench.see("5 fish of 2.35 kg");
    bench.is_sound();
    bench.tap("Scale it");
    bench.at(&format!("{place}/scale"));
    bench.see("3.84 kg");
    bench.is_sound();
}

/// Two tools that know nothing of this app read the file: a linked-data processor, and the vocabulary of schema.org
/// as types.
#[test]
fn a_dish_goes_to_another_kitchen_and_comes_back() {
    let bench = Bench::open(PHONE, Scheme::Light);
    bench.started();
    let place = write_a_dish(&bench);
    bench.tap("Give it to another kitchen");
    bench.tap("Save as a file");
    let file = bench.saved("test-plate.jsonld");
    let script = concat!(
        env!("CARGO_MANIFEST_DIR"),
        "/tests/browser/scripts/recipe.js"
    );
    let read = Command::new("node")
        .arg(script)
        .arg(&file)
        .output()
        .unwrap();
    let said = String::from_utf8_lossy(&read.stderr);
    assert!(read.status.success(), "{said}");
    let found: Value = serde_json::from_slice(&read.stdout).unwrap();
    let wanted = json!({
        "types": ["https://schema.org/Recipe"],
        "more": 0,
        "name": "Test plate",
        "ingredients": ["640 g Bream", "400 g Leeks"],
        "supplies": [["Bream", "640", "GRM"], ["Leeks", "400", "GRM"], ["what is never measured", "5", "P1"]],
        "parts": [],
        "faults": [],
    });
    assert_eq!(found, wanted);

    bench.tap("Remove this card");
    bench.tap("Remove it");
    bench.at("#/dishes");
    bench.not_see("Test plate");
    bench.tap("Bring in a dish");
    bench.tap("Read it");
    bench.see("Paste a dish first");
    bench.is_sound();
    paste(&bench, &std::fs::read_to_string(&file).unwrap());
    bench.tap("Read it");
    bench.see("Test plate: 2 lines.");
    bench.is_sound();
    bench.tap("Keep this dish");
    bench.see("€6.87");
    assert_ne!(dish_place(&bench), place);
    bench.tap("Read the plate");
    bench.see("Food cost of a cover €8.00");
}

/// The demo on a phone in the dark and on a desk: every side of it, and of its sauce.
#[test]
fn every_side_of_the_demo_can_be_read() {
    for (size, scheme) in [
        (PHONE, Scheme::Dark),
        (PHONE, Scheme::Light),
        (Size(1280, 800), Scheme::Light),
    ] {
        let bench = Bench::open(size, scheme);
        bench.started();
        bench.go("#/dishes");
        bench.tap("Open the demo dish");
        bench.see("Demo: invented figures");
        let place = dish_place(&bench);
        for (side, seen) in [
            ("", "Add a line"),
            ("/line/1", "Its yield is that of"),
            ("/line/2", "90 g of the 180 g made ahead"),
            ("/line/4", "In one pack"),
            ("/plate", "€7.54"),
            ("/scale", "Sherry vinegar"),
            ("/order", "13 fish of 648 g"),
            ("/line/99", "This line is not on the card"),
        ] {
            bench.go(&format!("{place}{side}"));
            bench.see(seen);
            bench.is_sound();
        }
        bench.go("#/dishes");
        bench.tap("Green sauce");
        bench.tap("Read its cost");
        bench.see("€1.59 for 100 g");
        bench.is_sound();
        bench.go("#/dish/nowhere");
        bench.see("This dish is not here");
    }
}
