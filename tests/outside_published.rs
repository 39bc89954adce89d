//! Published yields against the sources they were read in.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::indexing_slicing,
    clippy::panic,
    missing_docs
)]

use rust_decimal::Decimal;
use scaleside::trade::breakdown::{Breakdown, DeliveryForm, Weights};
use scaleside::trade::mass::{self, Unit};
use scaleside::trade::published::{self, Product};
use scaleside::trade::rounding::{percent, written};

fn decimal(text: &str) -> Decimal {
    text.parse().unwrap()
}

/// Shares worked out from a conversion factor are 100 over that factor, as printed in the note.
#[test]
fn derived_rows_follow_from_their_factors() {
    let mut checked = 0;
    for row in published::rows() {
        let Some(sum) = row
            .note
            .split(';')
            .next()
            .and_then(|sum| sum.strip_prefix("100 / "))
        else {
            continue;
        };
        let share = Decimal::ONE_HUNDRED / decimal(sum);
        assert_eq!(written(share, 1), written(row.low_percent, 1), "{row:?}");
        assert!(row.mark.starts_with("D of"), "{row:?}");
        checked += 1;
    }
    assert!(checked > 40, "{checked}");
}

/// National factors, each named with its country, give the ends of their row: the least factor is the greatest share.
#[test]
fn national_factors_give_the_ends_of_their_rows() {
    let mut factors = 0;
    for row in published::rows() {
        let Some(named) = row.note.strip_prefix("factors: ") else {
            continue;
        };
        let each: Vec<Decimal> = (named.split(", "))
            .map(|one| decimal(one.split(' ').next().unwrap()))
            .collect();
        let share = |factor: Decimal| written(Decimal::ONE_HUNDRED / factor, 1);
        assert_eq!(
            share(*each.iter().min().unwrap()),
            written(row.high_percent, 1),
            "{row:?}"
        );
        assert_eq!(
            share(*each.iter().max().unwrap()),
            written(row.low_percent, 1),
            "{row:?}"
        );
        factors += each.len();
    }
    assert!(factors >= 80, "{factors}");
}

/// A few rows word for word, so that a slip of a column shows. Sources as in the rows.
#[test]
fn published_rows_are_those_of_their_sources() {
    for (key, product, source, low, high) in [
        (
            "rainbow_trout",
            Product::SkinOnFillet,
            "Abdollahi & Rezaei 2014",
            "53.43",
            "59.95",
        ),
        (
            "barramundi",
            Product::Flesh,
            "Nguyen Phuoc Minh 2014",
            "46",
            "50",
        ),
        (
            "cod",
            Product::Fillet,
            "Commission Implementing Regulation (EU)",
            "38.5",
            "38.5",
        ),
        (
            "cod",
            Product::SkinOnFillet,
            "FAO/CWP Handbook",
            "40.8",
            "40.8",
        ),
        (
            "snapper",
            Product::Gutted,
            "FAO/CWP Handbook",
            "87.7",
            "87.7",
        ),
        (
            "herring",
            Product::EdiblePortion,
            "FAO, Food composition tables",
            "50",
            "50",
        ),
    ] {
        let found = published::rows()
            .iter()
            .find(|row| row.key == key && row.product == product && row.source.starts_with(source));
        let found = found.map(|row| (row.low_percent, row.high_percent));
        assert_eq!(found, Some((decimal(low), decimal(high))), "{key} {source}");
    }
}

/// Regulation (EC) No 2073/2005 as amended, families as quoted by seafish.org: mackerel, tuna, herring,
/// sardine and mahi-mahi are in them; snapper, sea bass, bream, barramundi, salmonids and gadoids are not. The jacks
/// (horse mackerel) by Food Standards Australia New Zealand, imported food risk statement on histamine in fish.
/// Reef fish by UF/IFAS Monroe County: snapper, grouper.
#[test]
fn the_fish_that_need_the_cold_most_are_marked() {
    for species in scaleside::trade::species::species_list() {
        let histamine = [
            "mackerel",
            "tuna",
            "herring",
            "sardine",
            "mahi_mahi",
            "horse_mackerel",
        ];
        let reef = ["snapper", "grouper", "red_lionfish"];
        let key = species.key;
        assert_eq!(
            species.histamine_family(),
            histamine.contains(&key),
            "{key}"
        );
        assert_eq!(species.reef, reef.contains(&key), "{key}");
    }
}

/// Flat fish: FAO Fisheries Circular 847 as quoted in the CWP *Handbook of Fishery Statistics*, "Indicative factors for
/// converting product weight to live weight", fillets: 2.48 with the skin, 2.61 without. The EU's and the UK's factor for
/// sole, filleted, is 2.5 (Regulation (EU) No 404/2011, Annex XIII, as quoted in the FAO tables of national factors).
#[test]
fn a_flat_fish_yields_what_fao_publishes() {
    let share = |factor: &str| {
        decimal("100")
            .checked_div(decimal(factor))
            .unwrap()
            .round_dp(1)
    };
    let of = |product| {
        let mut rows = published::rows().iter();
        let row = rows.find(|row| row.key == "flatfish" && row.product == product);
        row.unwrap().central_percent.unwrap()
    };
    assert_eq!(of(Product::SkinOnFillet), share("2.48"));
    assert_eq!(of(Product::SkinlessFillet), share("2.61"));
    // Four fillets of a plaice of 620 g, 250 g together: 620 / 250 is the factor 2.48.
    let grams = |typed| mass::parse(typed, Unit::Gram).unwrap();
    let plaice = Breakdown::of(Weights {
        delivered: grams("620"),
        off_bone: None,
        ready: grams("250"),
    })
    .unwrap();
    assert_eq!(percent(plaice.yield_ratio(), 1), "40.3 %");
    let beside = published::range_for("flatfish", DeliveryForm::Whole).unwrap();
    assert!((beside.low..=beside.high).contains(&plaice.yield_ratio()));
    // The factor for sole puts it close by.
    let sole = decimal("1").checked_div(decimal("2.5")).unwrap();
    assert!((sole - plaice.yield_ratio()).abs() < decimal("0.01"));
}
