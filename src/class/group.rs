//! The class in groups: fish of one species and form, and these parted by how they were filleted, or by a piece of kit.

use std::collections::BTreeSet;

use super::filleted::{NOT_TOLD, of_kit};
use super::result::ClassResult;
use super::spread::Spread;
use crate::base::filleted::{FilletAnswer, FilletQuestion};
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
    /// By what the students said of their filleting; those who did not say stand apart.
    Filleted(FilletQuestion),
}

impl ClassSplit {
    /// What it parts by, in a picker.
    #[must_use]
    pub fn name(self) -> String {
        match self {
            Self::SpeciesAndForm => "nothing: all together".to_owned(),
            Self::Kit(kit) => format!("with and without {}", kit.name()),
            Self::Filleted(question) => format!("{}, as told", question.name()),
        }
    }

    /// The name of the group a result belongs to.
    #[must_use]
    pub fn label(self, result: &ClassResult) -> String {
        let sheet = &result.sheet;
        match self {
            Self::SpeciesAndForm => format!("{}, {}", result.species(), sheet.form.name()),
            Self::Kit(kit) if sheet.missing.contains(&kit) => format!("without {}", kit.name()),
            Self::Kit(kit) => format!("with {}", kit.name()),
            Self::Filleted(question) => match result.filleted(question) {
                Some(answer) => answer.name().to_owned(),
                None => format!("{} {NOT_TOLD}", question.name()),
            },
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
            Self::Filleted(question) => match result.filleted(question) {
                Some(answer) => (0, answer as usize),
                None => (1, 0),
            },
        }
    }
}

/// What parts some results of one species and form: what was told differently of the filleting; and kit that moves a yield
/// and that some had and some had not, as long as nobody told what it was used for.
#[must_use]
pub fn splits<'a>(results: impl IntoIterator<Item = &'a ClassResult>) -> Vec<ClassSplit> {
    let results: Vec<&ClassResult> = results.into_iter().collect();
    let told = |question| {
        let told = results.iter().filter_map(|one| one.filleted(question));
        told.collect::<BTreeSet<FilletAnswer>>()
    };
    let questions = FilletQuestion::ALL.into_iter();
    let questions = questions
        .filter(|question| told(*question).len() > 1)
        .map(ClassSplit::Filleted);
    let differs = |kit: &Kit| {
        let lacks = results.iter().filter(|one| one.sheet.missing.contains(kit));
        let is_told = of_kit(*kit).is_some_and(|question| !told(question).is_empty());
        !is_told && (1..results.len()).contains(&lacks.count())
    };
    let kit = [Kit::Pliers, Kit::FlexibleKnife].into_iter();
    questions
        .chain(kit.filter(differs).map(ClassSplit::Kit))
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
