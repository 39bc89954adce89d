//! Published yields by species and form, each with its source, and the range one result is set against.
//!
//! The figures stand in `published.csv`, which `build.rs` makes rows of. They disagree, since authors do not mean the same by "fillet"
//! or "edible portion"; so a range is shown with its rows, never one "correct" yield.

use rust_decimal::Decimal;

use super::breakdown::DeliveryForm;
use super::rounding::{half_away, percent};
use super::species::{self, HEADED_PERCENT, MOST_OF_HEADED};

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
    /// Flesh, as the source defines it.
    Flesh,
    /// The meat of a shellfish, out of its shell or cleaned.
    Meat,
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
            Self::Meat => "meat",
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
const NEAREST: [fn(Product) -> bool; 4] = [
    Product::is_weighed_alike,
    |product| product == Product::Meat,
    |product| product == Product::EdiblePortion,
    |product| product == Product::Flesh,
];

/// How far apart the ends of a range lie at least, as a share, before anything is said of a fish outside it: six points,
/// since two authors differ by as much over the same fish. Our choice.
pub const FEWEST_POINTS: Decimal = Decimal::from_parts(6, 0, 0, false, 2);

/// What the division of a derived range may round by.
const ROUNDED: Decimal = Decimal::from_parts(1, 0, 0, false, 9);

/// What a country divides by to come from a landed product to the live fish.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct NationalFactor {
    /// Live mass over the mass of the product.
    pub factor: Decimal,
    /// Whose it is.
    pub country: &'static str,
    /// Who printed it: `FAO` or `EU`.
    pub by: &'static str,
}

impl NationalFactor {
    /// What is left, in percent of the live fish, to one decimal.
    #[must_use]
    pub fn percent(&self) -> Decimal {
        let percent = Decimal::ONE_HUNDRED.checked_div(self.factor);
        half_away(percent.unwrap_or_default(), 1)
    }
}

/// One published figure, or several of one source.
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
    /// The factors of each country, where it rests on such; the least first.
    pub factors: &'static [NationalFactor],
}

impl PublishedRow {
    /// Each figure of it, in percent: those of its countries, else the mean where one is printed, else both ends.
    #[must_use]
    pub fn figures(&self) -> Vec<Decimal> {
        if !self.factors.is_empty() {
            return self.factors.iter().map(NationalFactor::percent).collect();
        }
        vec![self.low_percent, self.high_percent]
    }

    /// What stands for its figures in a picture, in percent.
    fn points(&self) -> Vec<Decimal> {
        match self.central_percent {
            Some(central) if self.factors.is_empty() => vec![central],
            _ => self.figures(),
        }
    }

    /// The factors in words, each with its country and share: `Iceland 2.25 (44.4 %)`; empty where there are none.
    #[must_use]
    pub fn countries(&self) -> String {
        let each = self.factors.iter().map(|one| {
            format!(
                "{} {} ({} %, {})",
                one.country,
                one.factor,
                one.percent(),
                one.by
            )
        });
        each.collect::<Vec<_>>().join(", ")
    }

    /// What it says and where it is printed, in a line: fish, product, figures, source, note, countries.
    #[must_use]
    pub fn told(&self) -> String {
        let mut told = format!(
            "{}, {}: {} %. {}",
            self.species,
            self.product.name(),
            self.percents(),
            self.source
        );
        if !self.note.is_empty() {
            told += &format!(" ({})", self.note);
        }
        if !self.factors.is_empty() {
            told += &format!(": {}", self.countries());
        }
        told
    }

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
    /// What a whole fish weighs for each unit of the form asked for: 1 where the rows are of that form.
    per_whole: Decimal,
    /// The sum, in words, when the rows start from a whole fish and the form asked for is another.
    pub derived: Option<String>,
    /// What is left out, in words, since no fish can give it.
    pub left_out: Option<String>,
}

/// The most that can be left of a whole fish with its frame out, in percent: nine tenths (common practice, no source) of
/// the greatest published share without head and guts.
#[must_use]
pub fn at_most(species_key: &str) -> Decimal {
    let listed = species::species(species_key);
    let headed = listed.and_then(|listed| listed.headed_percent);
    headed.unwrap_or(HEADED_PERCENT) * MOST_OF_HEADED
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

    /// What is published, and of what: `Published for flesh: 51.8 % to 59.2 %`; a single figure stands alone.
    #[must_use]
    pub fn told(&self) -> String {
        let low = percent(self.low, 1);
        let figures = if self.low == self.high {
            low
        } else {
            format!("{low} to {}", percent(self.high, 1))
        };
        format!("Published for {}: {figures}", self.product.name())
    }

    /// Each figure it rests on, as a share of the form asked for: the mean where one is printed, else both ends, or that of
    /// each country.
    #[must_use]
    pub fn points(&self) -> Vec<Decimal> {
        // A derived range is of another form than its rows: by this they are brought to it.
        let to_form = self.per_whole / Decimal::ONE_HUNDRED;
        let figures = self.rows.iter().flat_map(|row| row.points());
        let shares = figures.map(|figure| figure * to_form);
        let mut points: Vec<Decimal> = shares
            .filter(|share| *share <= self.high + ROUNDED)
            .collect();
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
    let at_most = (at_most(species_key) / Decimal::ONE_HUNDRED).checked_div(kept)?;
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
        per_whole: Decimal::ONE.checked_div(kept)?,
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
    let product = product.reduce(|one, other| if one == other { one } else { Product::Fillet })?;
    // A source that tells more of a fillet than can be left of the fish has weighed something else.
    let most = match rows.first() {
        Some(row) if row.form == DeliveryForm::Whole && product.is_weighed_alike() => {
            at_most(row.key)
        }
        _ => Decimal::ONE_HUNDRED,
    };
    let figures: Vec<Decimal> = rows.iter().flat_map(|row| row.figures()).collect();
    let over: Vec<&Decimal> = figures.iter().filter(|figure| **figure > most).collect();
    let kept = figures.iter().filter(|figure| **figure <= most);
    let left_out = (!over.is_empty()).then(|| {
        let over: Vec<String> = over.iter().map(|figure| format!("{} %", figure.normalize())).collect();
        format!(
            "Left out: {}. At most {} % can be left once head, guts and bones are out (nine tenths of the greatest published without head and guts: common practice, no source).",
            over.join(", "),
            most.round_dp(1).normalize(),
        )
    });
    Some(PublishedRange {
        low: kept.clone().min()? / Decimal::ONE_HUNDRED,
        high: kept.max()? / Decimal::ONE_HUNDRED,
        product,
        per_whole: Decimal::ONE,
        rows,
        derived: None,
        left_out,
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
mod tests;
