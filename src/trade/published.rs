//! Published yields by species and form, each with its source, and the range one result is set against.
//!
//! The figures stand in `published.csv`, which `build.rs` makes rows of. They disagree, since authors do not mean the same by "fillet"
//! or "edible portion"; so a range is shown with its rows, never one "correct" yield.

use rust_decimal::Decimal;

use super::breakdown::DeliveryForm;
use super::rounding::percent;

/// What the published mass was of.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Product {
    /// Fillet with its skin.
    SkinOnFillet,
    /// Fillet without its skin.
    SkinlessFillet,
    /// Fillet; the source does not say whether with skin.
    Fillet,
    /// Edible portion, as the source defines it.
    EdiblePortion,
    /// Flesh or meat, as the source defines it.
    Flesh,
    /// The fish with its guts out.
    Gutted,
    /// The fish with head and guts off.
    HeadedGutted,
}

impl Product {
    /// What a cook calls it.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::SkinOnFillet => "skin-on fillet",
            Self::SkinlessFillet => "skinless fillet",
            Self::Fillet => "fillet",
            Self::EdiblePortion => "edible portion",
            Self::Flesh => "flesh",
            Self::Gutted => "gutted fish",
            Self::HeadedGutted => "headed and gutted fish",
        }
    }

    /// Whether a skin-on fillet can fairly be set beside it.
    fn beside_a_skin_on_fillet(self) -> bool {
        matches!(
            self,
            Self::SkinOnFillet | Self::Fillet | Self::EdiblePortion | Self::Flesh
        )
    }
}

/// One published figure.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PublishedRow {
    /// The species' key in [`super::species`].
    pub key: &'static str,
    /// The fish as the source names it.
    pub species: &'static str,
    /// Its scientific name; empty where the source speaks of a group of fish.
    pub scientific: &'static str,
    /// The form the figure starts from.
    pub form: DeliveryForm,
    /// What is left.
    pub product: Product,
    /// The least share left, in percent as printed.
    pub low_percent: Decimal,
    /// The greatest share left, in percent as printed.
    pub high_percent: Decimal,
    /// The mean or the single figure, in percent as printed, where there is one.
    pub central_percent: Option<Decimal>,
    /// Where it is printed.
    pub source: &'static str,
    /// How it was come by: `S` read in the source, `S2` read in a copy or quotation,
    /// `D of S` and `D of S2` worked out from such a figure by the sum in the note.
    pub mark: &'static str,
    /// The sum, the size of the fish, or a warning.
    pub note: &'static str,
}

/// What is published for one species and form.
#[derive(Clone, Debug, PartialEq)]
pub struct PublishedRange {
    /// The least published yield, as a share of the form asked for, 0 to 1.
    pub low: Decimal,
    /// The greatest published yield, as a share of the form asked for, 0 to 1.
    pub high: Decimal,
    /// The rows it rests on, in their own form.
    pub rows: Vec<&'static PublishedRow>,
    /// The sum, in words, when the rows start from a whole fish and the form asked for is another.
    pub derived: Option<String>,
}

static ROWS: &[PublishedRow] = include!(concat!(env!("OUT_DIR"), "/published.rs"));

/// Every published figure.
#[must_use]
pub fn rows() -> &'static [PublishedRow] {
    ROWS
}

/// The published range of skin-on fillets (or what comes nearest to them) for the species with this key
/// delivered in `form`.
///
/// Skinless fillets count only where nothing else is published. For a form without figures of its own
/// the whole-fish figures are divided by the share of the fish that form keeps, and `derived` says so.
/// `None` when nothing is published, or no share to divide by.
#[must_use]
pub fn range_for(species_key: &str, form: DeliveryForm) -> Option<PublishedRange> {
    let own = comparable(species_key, form);
    if let Some((low, high)) = ends(&own) {
        return Some(PublishedRange {
            low,
            high,
            rows: own,
            derived: None,
        });
    }
    let whole = comparable(species_key, DeliveryForm::Whole);
    let (low, high) = ends(&whole)?;
    let (kept, kept_row) = share_kept(species_key, form)?;
    let form_kept = kept_row.product.name();
    let of_form = |share: Decimal| share.checked_div(kept).map(|share| share.min(Decimal::ONE));
    let (form_low, form_high) = (of_form(low)?, of_form(high)?);
    let scales = if form == DeliveryForm::GuttedScaled {
        " The scales are not counted: no figure is published."
    } else {
        ""
    };
    Some(PublishedRange {
        low: form_low,
        high: form_high,
        rows: whole,
        derived: Some(format!(
            "Derived from whole-fish figures: {} to {} of the whole fish, divided by the {} of it that a {} keeps, makes {} to {} (share kept: {}).{scales}",
            percent(low, 1),
            percent(high, 1),
            percent(kept, 1),
            form_kept,
            percent(form_low, 1),
            percent(form_high, 1),
            kept_row.source,
        )),
    })
}

fn comparable(species_key: &str, form: DeliveryForm) -> Vec<&'static PublishedRow> {
    let with = |wanted: fn(Product) -> bool| -> Vec<_> {
        rows()
            .iter()
            .filter(|row| row.key == species_key && row.form == form && wanted(row.product))
            .collect()
    };
    let skin_on = with(Product::beside_a_skin_on_fillet);
    if skin_on.is_empty() {
        with(|product| product == Product::SkinlessFillet)
    } else {
        skin_on
    }
}

fn ends(rows: &[&PublishedRow]) -> Option<(Decimal, Decimal)> {
    let low = rows.iter().map(|row| row.low_percent).min()?;
    let high = rows.iter().map(|row| row.high_percent).max()?;
    Some((low / Decimal::ONE_HUNDRED, high / Decimal::ONE_HUNDRED))
}

/// The share of a whole fish of the species that `form` keeps, from the first row that tells it.
fn share_kept(species_key: &str, form: DeliveryForm) -> Option<(Decimal, &'static PublishedRow)> {
    let product = match form {
        DeliveryForm::Whole => return None,
        DeliveryForm::Gutted | DeliveryForm::GuttedScaled => Product::Gutted,
        DeliveryForm::HeadedGutted => Product::HeadedGutted,
    };
    rows()
        .iter()
        .filter(|row| row.key == species_key && row.product == product)
        .find_map(|row| Some((row.central_percent? / Decimal::ONE_HUNDRED, row)))
}

#[cfg(test)]
mod tests {
    use std::collections::HashSet;

    use super::super::species::species;
    use super::*;

    #[test]
    fn every_line_is_a_row_of_a_fish_in_the_picker() {
        let rows = rows();
        assert_eq!(
            rows.len(),
            include_str!("published.csv").lines().count() - 1
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
                Some(("50.0 %", "60.0 %")),
                false,
            ),
            (
                "gilthead_bream",
                DeliveryForm::Whole,
                Some(("45.0 %", "53.8 %")),
                false,
            ),
            (
                "gilthead_bream",
                DeliveryForm::Gutted,
                Some(("49.5 %", "59.2 %")),
                true,
            ),
            (
                "gilthead_bream",
                DeliveryForm::GuttedScaled,
                Some(("49.5 %", "59.2 %")),
                true,
            ),
            (
                "gilthead_bream",
                DeliveryForm::HeadedGutted,
                Some(("66.2 %", "79.1 %")),
                true,
            ),
            (
                "brook_trout",
                DeliveryForm::Whole,
                Some(("47.0 %", "47.0 %")),
                false,
            ),
            ("barramundi", DeliveryForm::Gutted, None, false),
            ("grouper", DeliveryForm::Whole, None, false),
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
            "45.0 %",
            "90.9 %",
            "49.5 %",
            "FAO",
            "scales are not counted",
        ] {
            assert!(said.contains(part), "{part}: {said}");
        }
    }
}
