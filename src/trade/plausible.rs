//! Whether a yield can be true at all, and what usually explains one that is not.
//!
//! The window is that of the published skin-on fillets from most whole fish, 34 to 62 %; below 25 % or
//! above 65 % a slip is likelier than a fish. It is wider for a fish of which more is published: salmon gives up to 72 %.
//! A true exception exists (a big-headed sleeper fish at 18.7 %), so the verdict asks and never refuses.

use rust_decimal::Decimal;

use super::breakdown::DeliveryForm;
use super::published::PublishedRange;
use super::species;

/// A yield against the window for its form.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum YieldVerdict {
    /// So low that a slip is likely.
    FarTooLow,
    /// Under what is published for most fish.
    Low,
    /// Within what is published.
    Usual,
    /// Over what is published for most fish.
    High,
    /// So high that a slip is likely.
    FarTooHigh,
}

impl YieldVerdict {
    /// What to do with the next fish, in one sentence: common practice, no source.
    #[must_use]
    pub fn next_time(self) -> &'static str {
        match self {
            Self::FarTooLow => {
                "Before the next one, check these weights: a slip is likelier than such a fish."
            }
            Self::Low => "Next time keep the knife flat on the bones, and take less off the edges.",
            Self::Usual => "As such fish usually give: cut the next one the same way.",
            Self::High => "Next time trim and dry the fillets before they go on the scale.",
            Self::FarTooHigh => "Before you rely on it, check these weights: a slip is likely.",
        }
    }

    /// What usually explains it: common practice, no source.
    #[must_use]
    pub fn sentence(self) -> &'static str {
        match self {
            Self::FarTooLow => {
                "So low that a slip is likely: check both weights and their units, that the scale was at zero each time, and that both fillets were weighed."
            }
            Self::Low => {
                "Low: usually flesh left on the bones, edges trimmed too far, pin bones cut out in a V for want of pliers, a scale that was not at zero, fillets weighed after cooking, or a start weight from another form than the one chosen."
            }
            Self::Usual => "Within what is published for most fish.",
            Self::High => {
                "High: usually fillets weighed wet or before the rib bones and edges came off, or a start weight taken after gutting."
            }
            Self::FarTooHigh => {
                "So high that a slip is likely: check both weights and their units, that the start weight is from the form chosen, and that the fillets were dry and trimmed."
            }
        }
    }
}

/// Judges a yield of a fish, by its key where it is listed, beside the published range for its own kind, where there is
/// one that says anything: inside it nothing is to be asked, whatever most fish give, and outside it the same as always.
#[must_use]
pub fn beside(
    key: &str,
    form: DeliveryForm,
    yield_ratio: Decimal,
    range: Option<&PublishedRange>,
) -> YieldVerdict {
    let general = plausible(key, form, yield_ratio);
    let is_far = matches!(general, YieldVerdict::FarTooLow | YieldVerdict::FarTooHigh);
    match range.filter(|range| range.judges() && !is_far) {
        None => general,
        Some(range) if yield_ratio < range.low => YieldVerdict::Low,
        Some(range) if yield_ratio > range.high => YieldVerdict::High,
        Some(_) => YieldVerdict::Usual,
    }
}

/// What one kilo of fish delivered in `form` weighed whole: the median of the FAO factors for gutted
/// fish (nine) and for headed and gutted fish (eight), FAO/CWP *Handbook of Fishery Statistics*,
/// as quoted in text copies.
pub(crate) fn whole_for(form: DeliveryForm) -> Decimal {
    match form {
        DeliveryForm::Whole => Decimal::ONE,
        DeliveryForm::Gutted | DeliveryForm::GuttedScaled => Decimal::new(114, 2),
        DeliveryForm::HeadedGutted => Decimal::new(151, 2),
    }
}

/// The least of the same factors. A fish that gives the most flesh has the least head and guts, so the
/// upper ends of the window rise by no more than this.
pub(super) fn least_whole_for(form: DeliveryForm) -> Decimal {
    match form {
        DeliveryForm::Whole => Decimal::ONE,
        DeliveryForm::Gutted | DeliveryForm::GuttedScaled => Decimal::new(110, 2),
        DeliveryForm::HeadedGutted => Decimal::new(130, 2),
    }
}

/// Under so much, in percent of the whole fish, a slip is likelier than a fish (our choice).
pub const SLIP_UNDER: i64 = 25;
/// The least that most fish give, in percent of the whole fish: the lower end of what is published.
pub const USUAL_LEAST: i64 = 34;
/// The most that most fish give, in percent of the whole fish: the upper end of what is published.
pub const USUAL_MOST: i64 = 62;
/// So many points over the most a slip is likelier than a fish (our choice).
pub const SLIP_BEYOND: i64 = 3;

/// Judges a skin-on fillet yield (a share, 0 to 1) from a fish delivered in `form`, by its key where it is listed.
#[must_use]
pub fn plausible(key: &str, form: DeliveryForm, yield_ratio: Decimal) -> YieldVerdict {
    let own = species::species(key).map_or(0, |listed| i64::from(listed.most_percent));
    let most = own.max(USUAL_MOST);
    let at_least = |percent| yield_ratio >= Decimal::new(percent, 2) * whole_for(form);
    let over = |percent| yield_ratio > Decimal::new(percent, 2) * least_whole_for(form);
    if !at_least(SLIP_UNDER) {
        YieldVerdict::FarTooLow
    } else if !at_least(USUAL_LEAST) {
        YieldVerdict::Low
    } else if !over(most) {
        YieldVerdict::Usual
    } else if !over(most + SLIP_BEYOND) {
        YieldVerdict::High
    } else {
        YieldVerdict::FarTooHigh
    }
}

#[cfg(test)]
mod tests {
    use super::super::published::{self, Product};
    use super::*;

    #[test]
    fn the_window_moves_with_the_form() {
        for (form, per_mille, wanted) in [
            (DeliveryForm::Whole, 249, YieldVerdict::FarTooLow),
            (DeliveryForm::Whole, 250, YieldVerdict::Low),
            (DeliveryForm::Whole, 340, YieldVerdict::Usual),
            (DeliveryForm::Whole, 620, YieldVerdict::Usual),
            (DeliveryForm::Whole, 621, YieldVerdict::High),
            (DeliveryForm::Whole, 651, YieldVerdict::FarTooHigh),
            (DeliveryForm::Gutted, 340, YieldVerdict::Low),
            (DeliveryForm::GuttedScaled, 466, YieldVerdict::Usual),
            (DeliveryForm::Gutted, 683, YieldVerdict::High),
            (DeliveryForm::Gutted, 716, YieldVerdict::FarTooHigh),
            (DeliveryForm::HeadedGutted, 500, YieldVerdict::Low),
            (DeliveryForm::HeadedGutted, 700, YieldVerdict::Usual),
            (DeliveryForm::HeadedGutted, 846, YieldVerdict::FarTooHigh),
        ] {
            let verdict = plausible("", form, Decimal::new(per_mille, 3));
            assert_eq!(verdict, wanted, "{form:?} {per_mille}");
        }
    }

    /// The factors are those of the table, so that a row added to it shows here.
    #[test]
    fn the_factors_are_those_of_the_table() {
        for (form, product) in [
            (DeliveryForm::Gutted, Product::Gutted),
            (DeliveryForm::HeadedGutted, Product::HeadedGutted),
        ] {
            let mut shares: Vec<Decimal> = published::rows()
                .iter()
                .filter(|row| row.product == product && row.source.starts_with("FAO/CWP"))
                .map(|row| row.high_percent)
                .collect();
            shares.sort();
            let (upper, lower) = (shares[shares.len() / 2], shares[(shares.len() - 1) / 2]);
            let median =
                (Decimal::ONE_HUNDRED / upper + Decimal::ONE_HUNDRED / lower) / Decimal::TWO;
            let least = Decimal::ONE_HUNDRED / shares[shares.len() - 1];
            assert_eq!(median.round_dp(2), whole_for(form).normalize(), "{form:?}");
            assert_eq!(least.round_dp(2), least_whole_for(form), "{form:?}");
        }
    }

    /// A salmon of 74.5 % from gutted: national factors for its fillets span 35.7 to 71.9 % of the live fish (Sweden and
    /// Finland; FAO Fisheries Circular 847 rev. 1 and the annexes to Regulation (EU) No 404/2011), so it is no slip.
    #[test]
    fn what_is_published_for_a_fish_is_no_slip_of_it() {
        let ratio = Decimal::new(745, 3);
        let range = published::range_for("salmon", DeliveryForm::Gutted).unwrap();
        let judged = |key| beside(key, DeliveryForm::Gutted, ratio, Some(&range));
        assert_eq!(judged("salmon"), YieldVerdict::Usual);
        assert_eq!(
            plausible("sea_bass", DeliveryForm::Gutted, ratio),
            YieldVerdict::FarTooHigh
        );
        for species in species::species_list() {
            for form in DeliveryForm::ALL {
                let Some(range) = published::range_for(species.key, form) else {
                    continue;
                };
                if range.judges() && range.derived.is_none() {
                    for end in [range.low, range.high] {
                        let verdict = beside(species.key, form, end, Some(&range));
                        assert_eq!(verdict, YieldVerdict::Usual, "{} {end}", species.key);
                    }
                }
            }
        }
    }

    /// A single figure is no range: a trout that gives less than the one figure for its kind is asked nothing.
    #[test]
    fn one_figure_gives_no_verdict() {
        let range = published::range_for("brook_trout", DeliveryForm::Whole).unwrap();
        for per_mille in [400, 470, 540] {
            let ratio = Decimal::new(per_mille, 3);
            let verdict = beside("brook_trout", DeliveryForm::Whole, ratio, Some(&range));
            assert_eq!(verdict, YieldVerdict::Usual, "{ratio}");
        }
    }
}
