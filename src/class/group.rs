//! The class in groups: by species, by form, by kit, by technique, each with its spread.

use super::result::ClassResult;
use super::roll::RollRow;
use super::spread::Spread;
use crate::base::kit::Kit;
use crate::trade::breakdown::{Breakdown, DeliveryForm};
use crate::trade::money::Currency;
use crate::trade::pooled::Pooled;

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
    /// The species.
    Species,
    /// The state the fish was bought in.
    Form,
    /// Species and form together: the only yields that compare.
    SpeciesAndForm,
    /// With and without a piece of kit.
    Kit(Kit),
    /// Skin left on or not.
    Skin,
    /// Pin bones pulled or cut out.
    PinBones,
}

impl ClassSplit {
    /// The name of the group a result belongs to.
    #[must_use]
    pub fn label(self, result: &ClassResult) -> String {
        let sheet = &result.sheet;
        match self {
            Self::Species => result.species().to_owned(),
            Self::Form => sheet.form.name().to_owned(),
            Self::SpeciesAndForm => format!("{}, {}", result.species(), sheet.form.name()),
            Self::Kit(kit) if sheet.missing.contains(&kit) => format!("without {}", kit.name()),
            Self::Kit(kit) => format!("with {}", kit.name()),
            Self::Skin if sheet.technique.skin_on => "skin on".to_owned(),
            Self::Skin => "skin off".to_owned(),
            Self::PinBones if sheet.technique.pin_bones_cut => "pin bones cut out".to_owned(),
            Self::PinBones => "pin bones pulled".to_owned(),
        }
    }

    /// What sorts the groups.
    fn key(self, result: &ClassResult) -> (u8, usize) {
        let sheet = &result.sheet;
        let form = DeliveryForm::ALL
            .iter()
            .position(|form| *form == sheet.form);
        let form = form.unwrap_or_default();
        match self {
            Self::Species => (sheet.fish.number(), 0),
            Self::Form => (0, form),
            Self::SpeciesAndForm => (sheet.fish.number(), form),
            Self::Kit(kit) => (0, usize::from(sheet.missing.contains(&kit))),
            Self::Skin => (0, usize::from(!sheet.technique.skin_on)),
            Self::PinBones => (0, usize::from(sheet.technique.pin_bones_cut)),
        }
    }
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

/// The rows in groups: species by number (those not in the list first), forms in the order of the slip, with
/// before without.
#[must_use]
pub fn groups(rows: &[RollRow], by: ClassSplit) -> Vec<ClassGroup<'_>> {
    let mut keyed: Vec<((u8, usize), &ClassResult)> = rows
        .iter()
        .map(|row| (by.key(&row.result), &row.result))
        .collect();
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
