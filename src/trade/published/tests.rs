//! The rows, and the range that one result is set against.

use std::collections::HashSet;

use super::super::species::{species, species_list};
use super::*;

#[test]
fn every_line_is_a_row_of_a_fish_in_the_picker() {
    let rows = rows();
    assert_eq!(
        rows.len(),
        include_str!("../published.csv").lines().count() - 1
    );
    for row in rows {
        assert!(species(row.key).is_some(), "{}", row.key);
        assert!(Decimal::ZERO < row.low_percent, "{row:?}");
        assert!(row.low_percent <= row.high_percent, "{row:?}");
        assert!(row.high_percent <= Decimal::ONE_HUNDRED, "{row:?}");
        let central = row.central_percent.unwrap_or(row.low_percent);
        assert!(
            (row.low_percent..=row.high_percent).contains(&central),
            "{row:?}"
        );
        assert!(
            ["S", "S2", "D of S", "D of S2"].contains(&row.mark),
            "{row:?}"
        );
        assert!(!row.source.is_empty(), "{row:?}");
    }
    let pairs: HashSet<_> = rows
        .iter()
        .map(|row| (row.key, row.form, row.product.name()))
        .collect();
    assert!(pairs.len() >= 25, "{}", pairs.len());
}

#[test]
fn a_range_is_of_the_form_asked_for_and_says_when_it_is_derived() {
    for (key, form, wanted, derived) in [
        (
            "rainbow_trout",
            DeliveryForm::Whole,
            Some(("53.4 %", "60.0 %")),
            false,
        ),
        (
            "gilthead_bream",
            DeliveryForm::Whole,
            Some(("47.1 %", "53.8 %")),
            false,
        ),
        (
            "gilthead_bream",
            DeliveryForm::Gutted,
            Some(("51.8 %", "59.2 %")),
            true,
        ),
        (
            "gilthead_bream",
            DeliveryForm::GuttedScaled,
            Some(("51.8 %", "59.2 %")),
            true,
        ),
        (
            "sea_bass",
            DeliveryForm::HeadedGutted,
            Some(("72.3 %", "90.0 %")),
            true,
        ),
        (
            "salmon",
            DeliveryForm::Gutted,
            Some(("40.3 %", "81.2 %")),
            true,
        ),
        (
            "brook_trout",
            DeliveryForm::Whole,
            Some(("47.0 %", "47.0 %")),
            false,
        ),
        (
            "barramundi",
            DeliveryForm::Gutted,
            Some(("50.6 %", "55.0 %")),
            true,
        ),
        ("mahi_mahi", DeliveryForm::Whole, None, false),
        ("no such fish", DeliveryForm::Whole, None, false),
    ] {
        let range = range_for(key, form);
        let shown = range
            .as_ref()
            .map(|range| (percent(range.low, 1), percent(range.high, 1)));
        let wanted = wanted.map(|(low, high)| (low.to_owned(), high.to_owned()));
        assert_eq!(shown, wanted, "{key} {form:?}");
        let says = range.and_then(|range| range.derived);
        assert_eq!(says.is_some(), derived, "{key} {form:?}: {says:?}");
    }
}

#[test]
fn a_derived_range_shows_its_sum() {
    let range = range_for("gilthead_bream", DeliveryForm::GuttedScaled).unwrap();
    let said = range.derived.unwrap();
    for part in [
        "47.1 %",
        "90.9 %",
        "51.8 %",
        "FAO",
        "scales are not counted",
    ] {
        assert!(said.contains(part), "{part}: {said}");
    }
}

/// Two authors over the same bream differ by six points, so a figure alone, or a few that agree, say nothing; nor does
/// flesh scraped off the bones say anything of fillets.
#[test]
fn only_a_range_of_such_fillets_judges() {
    for (key, product, is_wide, judges) in [
        ("salmon", Product::Fillet, true, true),
        ("cod", Product::Fillet, true, true),
        ("rainbow_trout", Product::Fillet, true, true),
        ("gilthead_bream", Product::Flesh, true, false),
        ("brook_trout", Product::SkinlessFillet, false, false),
        ("flatfish", Product::SkinOnFillet, false, false),
        ("snapper", Product::SkinOnFillet, false, false),
    ] {
        let range = range_for(key, DeliveryForm::Whole).unwrap();
        assert_eq!(
            (range.product, range.is_wide(), range.judges()),
            (product, is_wide, judges),
            "{key}"
        );
    }
}

#[test]
fn every_figure_of_a_range_lies_in_it() {
    for species in species_list() {
        for form in DeliveryForm::ALL {
            let Some(range) = range_for(species.key, form) else {
                continue;
            };
            assert!(
                Decimal::ZERO < range.low && range.low <= range.high,
                "{species:?}"
            );
            assert!(range.high < Decimal::ONE, "{species:?} {form:?}");
            let bound = Decimal::new(1, 6);
            for point in range.points() {
                assert!(range.low - bound <= point, "{species:?} {form:?} {point}");
            }
        }
    }
}

#[test]
fn a_range_is_told_with_what_it_is_of() {
    for (key, form, told) in [
        (
            "cod",
            DeliveryForm::Whole,
            "Published for fillet: 33.9 % to 44.4 %",
        ),
        (
            "gilthead_bream",
            DeliveryForm::Gutted,
            "Published for flesh: 51.8 % to 59.2 %",
        ),
        (
            "brook_trout",
            DeliveryForm::Whole,
            "Published for skinless fillet: 47.0 %",
        ),
    ] {
        assert_eq!(range_for(key, form).unwrap().told(), told);
    }
}
