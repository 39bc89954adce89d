//! A pan as it is kept: what the first builds stored of it, and under which names.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::indexing_slicing,
    clippy::panic,
    missing_docs
)]

use scaleside::base::instant::Instant;
use scaleside::cards::pan::{KeptPan, MOST_COOKED, PanTap};
use scaleside::fish::heat_card::{Flame, HeatCard};
use scaleside::fish::pan_reading::PanReading;
use scaleside::heat::pan::{Material, Surface};
use scaleside::heat::safety::Rule;
use scaleside::store::entry::Entry;
use scaleside::store::envelope::open;
use serde_json::{Value, json};

const NOW: Instant = Instant(1_773_099_000_000);

/// What the first builds kept as figures is read, learnt from beside what is typed, and the first to go.
#[test]
fn a_pan_of_the_first_builds_goes_on_learning() {
    let sample = include_str!("vectors/stored_format_1/pan.with_readings.json");
    let mut body: Value = serde_json::from_str(open(sample).unwrap().body).unwrap();
    body["card"]["contact"] = 431.7.into();
    body["fitted"] = json!([
        {"surface": "bare_oiled", "conductance": 431.7, "factor": 1.526, "readings": 1}
    ]);
    let mut pan: KeptPan = serde_json::from_value(body.clone()).unwrap();
    assert_eq!(pan.card.contact_w_per_m2_k, Some(432));
    let contact = pan.contact(Surface::BareOiled).unwrap();
    assert_eq!(
        (contact.conductance_w_per_m2_k, contact.factor_percent),
        (432, 153)
    );
    // What is written again is what the first builds read too.
    let again = serde_json::to_value(&pan).unwrap();
    assert_eq!(again["cooked"], body["cooked"]);
    assert_eq!(again["fitted"][0]["factor"], 1.53);
    assert_eq!(again["card"]["contact"], 432);
    let [(fillet, _, reading)] = &pan.cooked_on(Surface::BareOiled)[..] else {
        panic!("one reading")
    };
    let exactly = |figure: f64, wanted: f64| assert!((figure - wanted).abs() < 1e-9, "{figure}");
    exactly(fillet.mass_g, 306.5);
    exactly(reading.core_c, 41.5);
    let typed = PanReading {
        species: "gilthead_bream".into(),
        panful_mg: 300_000,
        card: HeatCard {
            thickness: "19".into(),
            surface: Some(Surface::BareOiled),
            ..HeatCard::default()
        },
        read_secs: 220,
        turned_secs: None,
        lifted_secs: None,
        shown: "12,5".into(),
    };
    for kept in 1..=MOST_COOKED {
        pan = pan
            .apply(&PanTap::Cooked(Box::new(typed.clone())), NOW)
            .unwrap();
        let readings = pan.cooked_on(Surface::BareOiled);
        assert_eq!(readings.len(), (kept + 1).min(MOST_COOKED));
        exactly(readings.last().unwrap().2.core_c, 12.5);
    }
    exactly(pan.cooked_on(Surface::BareOiled)[0].2.core_c, 12.5);
    assert_eq!(serde_json::to_value(&pan).unwrap()["cooked"], json!([]));
    // One that can't be read teaches nothing, and keeps no pan from opening.
    body["cooked"] = json!([7]);
    let pan: KeptPan = serde_json::from_value(body).unwrap();
    assert_eq!(pan.cooked_on(Surface::BareOiled), []);
}

/// What a card holds is stored under these names for ever.
#[test]
fn the_names_on_a_card_are_stored_as_they_always_were() {
    fn stored<T: serde::Serialize>(all: &[T]) -> String {
        let names: Vec<String> = (all.iter())
            .map(|one| serde_json::to_string(one).unwrap().replace('"', ""))
            .collect();
        names.join(" ")
    }
    assert_eq!(
        stored(&Material::ALL),
        "steel cast_iron aluminium non_stick_aluminium"
    );
    assert_eq!(stored(&Surface::ALL), "bare_oiled non_stick baking_paper");
    assert_eq!(stored(&Flame::ALL), "low medium medium_high high");
    assert_eq!(stored(&Rule::ALL), "fda_intact uk_fsa preference");
}
