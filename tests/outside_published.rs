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

/// Every row of national factors against `vectors/conversion_factors.csv`: FAO Fisheries Circular 847 rev. 1, and the annexes
/// of Regulation (EU) No 404/2011, by species and presentation. None is left out but those that the note names.
#[test]
fn national_factors_are_those_of_their_table() {
    let table = include_str!("vectors/conversion_factors.csv");
    let table: Vec<csv::StringRecord> = (csv::Reader::from_reader(table.as_bytes()).records())
        .map(Result::unwrap)
        .collect();
    let mut factors = 0;
    for row in published::rows() {
        if row.factors.is_empty() {
            continue;
        }
        let presentation = match row.product {
            Product::Fillet => "filleted",
            Product::SkinlessFillet if row.note.is_empty() => "filleted, skinned",
            Product::SkinlessFillet => "filleted, skinned, with pinbone on",
            Product::SkinOnFillet => "filleted, with skin and bones on",
            Product::Gutted => "gutted",
            Product::HeadedGutted => "gutted and headed",
            other => panic!("{other:?}"),
        };
        let printed = table
            .iter()
            .find(|record| record[0] == *row.scientific && record[1] == *presentation)
            .unwrap_or_else(|| panic!("{row:?}"));
        let mut wanted: Vec<(Decimal, String)> = printed[6]
            .split("; ")
            .map(|one| {
                let (factor, of) = one.split_once(' ').unwrap();
                (decimal(factor), of.replace("FAO847r1", "FAO"))
            })
            .filter(|(factor, of)| {
                let country = of.rsplit_once(' ').unwrap().0;
                !(row.note.starts_with("left out")
                    && row
                        .note
                        .contains(&format!("{} {country}", factor.normalize())))
            })
            .collect();
        let mut have: Vec<(Decimal, String)> = (row.factors.iter())
            .map(|one| (one.factor, format!("{} {}", one.country, one.by)))
            .collect();
        wanted.sort();
        have.sort();
        assert_eq!(have, wanted, "{row:?}");
        // The least factor is the greatest share.
        let shares = row.figures();
        assert_eq!(shares.iter().min(), Some(&row.low_percent), "{row:?}");
        assert_eq!(shares.iter().max(), Some(&row.high_percent), "{row:?}");
        factors += have.len();
    }
    assert!(factors >= 500, "{factors}");
}

/// What is left of a species in the table of FAO Fisheries Technical Paper 309 (`vectors/flesh_fao309.csv`): flesh of a fish,
/// meat of a shellfish.
#[test]
fn flesh_and_meat_are_those_of_fao_309() {
    let table = include_str!("vectors/flesh_fao309.csv");
    let table: Vec<csv::StringRecord> = (csv::Reader::from_reader(table.as_bytes()).records())
        .map(Result::unwrap)
        .collect();
    let rows = published::rows().iter();
    let of = rows.filter(|row| row.source.starts_with("FAO Fisheries Technical Paper 309"));
    let mut count = 0;
    for row in of {
        let printed = table.iter().find(|record| record[0] == *row.scientific);
        let printed = printed.unwrap_or_else(|| panic!("{row:?}"));
        let what = if row.product == Product::Meat {
            "Meat"
        } else {
            "Flesh"
        };
        assert!(printed[1].starts_with(what), "{row:?}");
        assert_eq!(decimal(&printed[2]), row.low_percent, "{row:?}");
        assert_eq!(row.low_percent, row.high_percent, "{row:?}");
        count += 1;
    }
    assert!(count >= 35, "{count}");
}

/// Group figures are 100 less the refuse that FAO prints for the group as purchased: 50 for fat-rich fish, 55 for cod and its
/// kin and for others, 53 for all, 63 for crustaceans and 75 for molluscs in the shell (*Food composition tables for
/// international use*, fish and shellfish table).
#[test]
fn group_figures_are_what_the_refuse_leaves() {
    let mut count = 0;
    for row in published::rows() {
        if !row.source.starts_with("FAO, Food composition tables") {
            continue;
        }
        let (refuse, group) = row.note.split_once(" refuse; group figure: ").unwrap();
        let refuse = refuse.strip_prefix("100 - ").unwrap();
        let printed = match group.split([' ', ':', ',', ';']).next().unwrap() {
            "fat-rich" => "50",
            "cod" | "cod," | "other" => "55",
            "all" => "53",
            "lobster" => "63",
            "oysters" => "75",
            other => panic!("{other}"),
        };
        assert_eq!(refuse, printed, "{row:?}");
        assert_eq!(
            Decimal::ONE_HUNDRED - decimal(refuse),
            row.low_percent,
            "{row:?}"
        );
        count += 1;
    }
    assert!(count >= 30, "{count}");
}

/// Shellfish, by what is published of their meat: FAO 309; mussels of Sinop 17.43 to 26.69 % over a year; Atwater, 39.77 % of
/// three lobsters edible. None says anything of a filleted fish.
#[test]
fn shellfish_have_a_meaning_of_yield_of_their_own() {
    for (key, product, low, high) in [
        ("mussel", Product::Meat, "0.1743", "0.2669"),
        ("oyster", Product::Meat, "0.1", "0.1"),
        ("scallop", Product::Meat, "0.105", "0.105"),
        ("squid", Product::Meat, "0.67", "0.67"),
        ("cuttlefish", Product::Meat, "0.63", "0.63"),
        ("octopus", Product::Meat, "0.79", "0.79"),
        ("prawn", Product::Meat, "0.36", "0.57"),
        ("lobster", Product::Meat, "0.2", "0.25"),
        ("crab", Product::Meat, "0.333", "0.333"),
        ("langoustine", Product::EdiblePortion, "0.37", "0.37"),
    ] {
        let range = published::range_for(key, DeliveryForm::Whole).unwrap();
        assert_eq!(range.product, product, "{key}");
        assert_eq!(
            (range.low, range.high),
            (decimal(low), decimal(high)),
            "{key}"
        );
        assert!(!range.judges(), "{key}");
        assert!(
            published::range_for(key, DeliveryForm::Gutted).is_none(),
            "{key}"
        );
    }
}

/// What no fish can give is left out of its range and said: a haddock "filleted" of 74.1 % (Iceland, the same factor as
/// headed) is more than nine tenths of the greatest share without head and guts, 72.5 % (France and Portugal, 1.38).
#[test]
fn what_can_not_be_is_left_out_and_said() {
    let haddock = published::range_for("haddock", DeliveryForm::Whole).unwrap();
    assert_eq!(haddock.high, decimal("0.588"));
    let said = haddock.left_out.unwrap();
    assert!(
        said.contains("74.1 %") && said.contains("At most 65.2 %"),
        "{said}"
    );
    let salmon = published::range_for("salmon", DeliveryForm::Whole).unwrap();
    assert_eq!(
        (salmon.low, salmon.high),
        (decimal("0.357"), decimal("0.719"))
    );
    assert_eq!(salmon.left_out, None);
    for species in scaleside::trade::species::species_list() {
        for form in DeliveryForm::ALL {
            let Some(range) = published::range_for(species.key, form) else {
                continue;
            };
            let points = range.points();
            assert!(
                points
                    .iter()
                    .all(|point| *point <= range.high + decimal("0.001")),
                "{}",
                species.key
            );
            assert!(!points.is_empty(), "{}", species.key);
        }
    }
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
            "anchovy",
            "sprat",
            "spanish_mackerel",
            "amberjack",
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
    assert!((beside.low - plaice.yield_ratio()).abs() < decimal("0.001"));
    // And within what is published of plaice.
    let of_plaice = published::range_for("plaice", DeliveryForm::Whole).unwrap();
    assert_eq!(of_plaice.product, Product::Fillet);
    assert!((plaice.yield_ratio() - of_plaice.high).abs() < decimal("0.02"));
    // The factor for sole puts it close by.
    let sole = decimal("1").checked_div(decimal("2.5")).unwrap();
    assert!((sole - plaice.yield_ratio()).abs() < decimal("0.01"));
}
