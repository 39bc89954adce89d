//! The class in groups: fish of one species and form, and these with and without a piece of kit.

use super::result::ClassResult;
use super::spread::Spread;
use crate::base::kit::Kit;
use crate::trade::breakdown::{Breakdown, DeliveryForm};
use crate::trade::money::Currency;
use crate::trade::pooled::Pooled;

/// Results below which a group shows no spread: of two, a median and quartiles say nothing that both don't.
pub const FEWEST_SPREAD: usize = 3;

/// What is measured.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Measure {
    /// Yield as a share of the delivered weight, 0 to 1.
    Yield,
    /// What came off up to the bone, as a share of the delivered weight; only where it was weighed.
    OffTheBone,
    /// What the fillets off the bone kept through trimming, as a share of them; only where they were weighed.
    KeptInTrimming,
    /// Cost of a usable kilogram in a currency.
    CostPerKilo(Currency),
    /// Cost of a portion in a currency.
    CostPerPortion(Currency),
    /// Price as purchased per kilogram in a currency.
    Price(Currency),
}

impl Measure {
    /// The value of one result; `None` where it has none.
    #[must_use]
    pub fn of(self, result: &ClassResult) -> Option<f64> {
        result.measured.get(self)
    }

    /// The spread of the results that have a value; `None` when none has.
    #[must_use]
    pub fn spread<'a>(self, results: impl IntoIterator<Item = &'a ClassResult>) -> Option<Spread> {
        let values: Vec<f64> = results
            .into_iter()
            .filter_map(|result| self.of(result))
            .collect();
        Spread::of(&values)
    }
}

/// What the class is parted by.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ClassSplit {
    /// Species and form together: the only yields that compare.
    SpeciesAndForm,
    /// With and without a piece of kit.
    Kit(Kit),
}

impl ClassSplit {
    /// The name of the group a result belongs to.
    #[must_use]
    pub fn label(self, result: &ClassResult) -> String {
        let sheet = &result.sheet;
        match self {
            Self::SpeciesAndForm => format!("{}, {}", result.species(), sheet.form.name()),
            Self::Kit(kit) if sheet.missing.contains(&kit) => format!("without {}", kit.name()),
            Self::Kit(kit) => format!("with {}", kit.name()),
        }
    }

    /// What sorts the groups.
    #[must_use]
    pub fn key(self, result: &ClassResult) -> (u8, usize) {
        let sheet = &result.sheet;
        match self {
            Self::SpeciesAndForm => {
                let forms = &mut DeliveryForm::ALL.iter();
                let form = forms.position(|form| *form == sheet.form);
                (sheet.fish.number(), form.unwrap_or_default())
            }
            Self::Kit(kit) => (0, usize::from(sheet.missing.contains(&kit))),
        }
    }
}

/// The kit that moves a yield and that some of these had and some had not: only there does it compare anything.
#[must_use]
pub fn kit_that_differs<'a>(results: impl IntoIterator<Item = &'a ClassResult>) -> Vec<Kit> {
    let missing: Vec<_> = results.into_iter().map(|one| &one.sheet.missing).collect();
    let differs = |kit: &Kit| {
        let without = missing
            .iter()
            .filter(|missing| missing.contains(kit))
            .count();
        (1..missing.len()).contains(&without)
    };
    [Kit::Pliers, Kit::FlexibleKnife]
        .into_iter()
        .filter(differs)
        .collect()
}

/// Some results that belong together.
#[derive(Clone, Debug)]
pub struct ClassGroup<'a> {
    /// Its name.
    pub label: String,
    /// Its results, in the order of the roll.
    pub results: Vec<&'a ClassResult>,
}

impl ClassGroup<'_> {
    /// The spread of a measure over the group; `None` when no result has a value.
    #[must_use]
    pub fn spread(&self, measure: Measure) -> Option<Spread> {
        measure.spread(self.results.iter().copied())
    }

    /// The group as one: totals over totals. `None` when no result has weights that can be.
    #[must_use]
    pub fn pooled(&self) -> Option<Pooled> {
        let fish: Vec<Breakdown> = self
            .results
            .iter()
            .filter_map(|result| result.figures.as_ref().ok())
            .map(|figures| figures.breakdown)
            .collect();
        Pooled::of(&fish)
    }
}

/// The results in groups: species by number (those not in the list first), forms in the order of the slip, with
/// before without.
#[must_use]
pub fn groups<'a>(
    results: impl IntoIterator<Item = &'a ClassResult>,
    by: ClassSplit,
) -> Vec<ClassGroup<'a>> {
    let results = results.into_iter();
    let mut keyed: Vec<((u8, usize), &ClassResult)> =
        results.map(|result| (by.key(result), result)).collect();
    keyed.sort_by_key(|(key, _)| *key);
    keyed
        .chunk_by(|(a, _), (b, _)| a == b)
        .map(|chunk| ClassGroup {
            label: chunk
                .first()
                .map_or_else(String::new, |(_, result)| by.label(result)),
            results: chunk.iter().map(|(_, result)| *result).collect(),
        })
        .collect()
}
