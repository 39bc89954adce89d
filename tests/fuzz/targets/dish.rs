//! Any text brought in as a dish, and any card on the shelf: what is read can be costed, ordered and given out.
#![no_main]

use libfuzzer_sys::fuzz_target;
use rust_decimal::Decimal;
use scaleside::base::instant::Instant;
use scaleside::cards::larder;
use scaleside::cards::larder::Larder;
use scaleside::trade::plate::allergens::AllergenList;
use scaleside::cards::recipe::Recipe;
use scaleside::cards::exchange::{read, write};
use scaleside::fish::settings::Settings;
use scaleside::trade::plate::order::order;
use scaleside::trade::plate::plate::Plate;

const NOW: Instant = Instant(1_800_000_000_000);

fn work_out(card: &Recipe, other: &dyn Fn(&str) -> Option<Recipe>) {
    let larder = Larder {
        fish: &|_| None,
        card: other,
        careful: &|_| None,
            list: AllergenList::default(),
    };
    let preparation = larder::read("k3f9", card, larder).preparation;
    let _ = Plate::of(&preparation);
    let _ = order(&preparation, 24, Decimal::new(5, 2));
    let text = write("k3f9", card, larder);
    assert!(
        read(&text, NOW, &Settings::default()).is_ok(),
        "what is given out can be brought in"
    );
}

fuzz_target!(|text: &str| {
    match read(text, NOW, &Settings::default()) {
        Ok(imported) => {
            let other = |mark: &str| {
                let found = imported.cards.iter().find(|(known, _)| known == mark);
                found.map(|(_, card)| card.clone())
            };
            for (_, card) in &imported.cards {
                work_out(card, &other);
            }
        }
        Err(refusal) => assert!(!refusal.to_string().is_empty()),
    }
    if let Ok(card) = serde_json::from_str::<Recipe>(text) {
        // A card that is a part of itself, too.
        work_out(&card, &|_| Some(card.clone()));
    }
});
