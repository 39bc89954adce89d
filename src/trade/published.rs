//! Published yields by species and form, each with its source, and the range one result is set against.
//!
//! The figures stand in `published.csv`, which `build.rs` makes rows of. They disagree, since authors do not mean the same by "fillet"
//! or "edible portion"; so a range is shown with its rows, never one "correct" yield.

use rust_decimal::Decimal;

use super::breakdown::DeliveryForm;
use super::rounding::percent;
use super::species::MOST_OF_HEADED;

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

    /// Whether it is what a cook weighs: fillets with their skin, or fillets of which the source says no more.
    fn is_weighed_alike(self) -> bool {
        matches!(self, Self::SkinOnFillet | Self::Fillet)
    }
}

/// What a skin-on fillet is set beside, the nearest first; what is not alike is never taken together.
const NEAREST: [fn(Product) -> bool; 3] = [
    Product::is_weighed_alike,
    |product| product == Product::EdiblePortion,
    |product| product == Product::Flesh,
];

/// How far apart the ends of a range lie at least, as a share, before anything is said of a fish outside it: six points,
/// since two authors differ by as much over the same fish. Our choice.
const FEWEST_POINTS: Decimal = Decimal::from_parts(6, 0, 0, false, 2);

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

impl PublishedRow {
    /// Its figure, or its ends, in percent as printed: `47` or `34.5 to 58.8`.
    #[must_use]
    pub fn percents(&self) -> String {
        let (low, high) = (self.low_percent.normalize(), self.high_percent.normalize());
        if low == high {
            low.to_string()
        } else {
            format!("{low} to {high}")
        }
    }
}

/// What is published for one species and form.
#[derive(Clone, Debug, PartialEq)]
pub struct PublishedRange {
    /// The least published yield, as a share of the form asked for, 0 to 1.
    pub low: Decimal,
    /// The greatest published yield, as a share of the form asked for, 0 to 1.
    pub high: Decimal,
    /// What was published; of fillets with their skin and fillets told no nearer, the latter.
    pub product: Product,
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

impl PublishedRange {
    /// Whether it is more than a figure or two that happen to agree.
    #[must_use]
    pub fn is_wide(&self) -> bool {
        self.high - self.low >= FEWEST_POINTS
    }

    /// Each figure it rests on, as a share of the form asked for: the mean where one is printed, else both ends.
    #[must_use]
    pub fn points(&self) -> Vec<Decimal> {
        let lowest = self.rows.iter().map(|row| row.low_percent).min();
        // A derived range is of another form than its rows: by this they are brought to it.
        let to_form = lowest.and_then(|lowest| self.low.checked_div(lowest));
        let figures = self.rows.iter().flat_map(|row| match row.central_percent {
            Some(central) => vec![central],
            None => vec![row.low_percent, row.high_percent],
        });
        let to_form = to_form.unwrap_or_default();
        let mut points: Vec<Decimal> = figures.map(|figure| figure * to_form).collect();
        points.sort();
        points.dedup();
        points
    }

    /// Whether it says anything for or against fillets with their skin: it is of such fillets, and a range.
    #[must_use]
    pub fn judges(&self) -> bool {
        self.is_wide() && self.product.is_weighed_alike()
    }
}

/// The published range of skin-on fillets, or of what comes nearest to them, for the species with this key delivered in
/// `form`.
///
/// The nearest that is published as a range is taken, else the nearest with any figure. For a form without figures of its
/// own the whole-fish figures are divided by the share of the fish that form keeps, and `derived` says so; no more than
/// can be left of a fish once its frame is out. `None` when nothing is published, or no share to divide by.
#[must_use]
pub fn range_for(species_key: &str, form: DeliveryForm) -> Option<PublishedRange> {
    if let Some(own) = nearest(species_key, form) {
        return Some(own);
    }
    let whole = nearest(species_key, DeliveryForm::Whole)?;
    let (kept, kept_row) = share_kept(species_key, form)?;
    let form_kept = kept_row.product.name();
    let headed = share_kept(species_key, DeliveryForm::HeadedGutted).map(|(share, _)| share);
    let at_most = (headed.unwrap_or(kept) * MOST_OF_HEADED).checked_div(kept)?;
    let of_form = |share: Decimal| share.checked_div(kept).map(|share| share.min(at_most));
    let (low, high) = (of_form(whole.low)?, of_form(whole.high)?);
    let scales = if form == DeliveryForm::GuttedScaled {
        " The scales are not counted: no figure is published."
    } else {
        ""
    };
    let capped = if high == at_most {
        " More can't be left of it once the bones are out (common practice, no source)."
    } else {
        ""
    };
    let derived = format!(
        "Derived from whole-fish figures: {} to {} of the whole fish, divided by the {} of it that a {} keeps, makes {} to {} (share kept: {}).{capped}{scales}",
        percent(whole.low, 1),
        percent(whole.high, 1),
        percent(kept, 1),
        form_kept,
        percent(low, 1),
        percent(high, 1),
        kept_row.source,
    );
    Some(PublishedRange {
        low,
        high,
        derived: Some(derived),
        ..whole
    })
}

/// What is published of that form itself, of the nearest product; of skinless fillets only where there is nothing else.
fn nearest(species_key: &str, form: DeliveryForm) -> Option<PublishedRange> {
    let of = |is_alike: fn(Product) -> bool| {
        let alike = (rows().iter())
            .filter(|row| row.key == species_key && row.form == form && is_alike(row.product));
        spread(alike.collect())
    };
    let mut with_skin: Vec<_> = NEAREST.into_iter().filter_map(of).collect();
    let at = with_skin.iter().position(PublishedRange::is_wide);
    if with_skin.is_empty() {
        return of(|product| product == Product::SkinlessFillet);
    }
    Some(with_skin.swap_remove(at.unwrap_or(0)))
}

fn spread(rows: Vec<&'static PublishedRow>) -> Option<PublishedRange> {
    let product = rows.iter().map(|row| row.product);
    Some(PublishedRange {
        low: rows.iter().map(|row| row.low_percent).min()? / Decimal::ONE_HUNDRED,
        high: rows.iter().map(|row| row.high_percent).max()? / Decimal::ONE_HUNDRED,
        product: product.reduce(|one, other| if one == other { one } else { Product::Fillet })?,
        rows,
        derived: None,
    })
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
                Some(("40.3 %", "78.2 %")),
                true,
            ),
            (
                "brook_trout",
                DeliveryForm::Whole,
                Some(("47.0 %", "47.0 %")),
                false,
            ),
            ("barramundi", DeliveryForm::Gutted, None, false),
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
            ("flatfish", Product::Fillet, false, false),
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
        for species in super::super::species::species_list() {
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
}
