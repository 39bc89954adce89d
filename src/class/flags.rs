//! What makes a tutor look twice at a result, each with its reason in a sentence.

use std::collections::HashMap;

use super::group::{ClassSplit, groups};
use super::limits::FEWEST;
use super::result::ClassResult;
use super::roll::RollRow;
use super::slips::{Standard, slips};
use crate::trade::breakdown::DeliveryForm;
use crate::trade::plausible::YieldVerdict;

/// A reason to look twice.
#[derive(Clone, Debug, PartialEq)]
pub enum Flag {
    /// The fillets weigh a little more ready to cook than off the bone.
    Gained {
        /// By how much, as shown.
        by: String,
        /// The yield if two weights were changed over, as shown.
        yield_then: Option<String>,
    },
    /// Two weights look changed over: the other way round they make the yield given, a share.
    Swapped {
        /// The yield the other way round, as shown.
        yield_then: String,
    },
    /// The weights can't belong to one fish; why, in a sentence.
    Impossible(String),
    /// About half of what the class gets.
    OneFillet {
        /// What it is of the class's, as shown.
        share: String,
    },
    /// The fillets look weighed after cooking.
    CookedLikely {
        /// What was kept beside what the class keeps, as shown.
        kept: String,
    },
    /// The fish weighs much more, or less, than the class's.
    SizeOff {
        /// How much, as shown.
        times: String,
        /// The slip it looks like.
        slip: Option<Slipped>,
    },
    /// The price is off the class's, as when a decimal mark slips or a pound is taken for a kilo.
    PriceOff(Slipped),
    /// A portion is of another size than the class's, and its cost with it.
    PortionsOff {
        /// How large it is, as shown.
        times: String,
    },
    /// All others bought another form, and this fish would lie among theirs.
    FormOff(DeliveryForm),
    /// A weight stands between two steps of the scale.
    FinerThanScale {
        /// The weight, as shown.
        weight: String,
        /// The scale's division, as shown.
        division: String,
    },
    /// A yield so far from anything published that a slip is likely.
    Implausible(YieldVerdict),
    /// The yield lies far from the rest of the class.
    Outlier {
        /// Robust deviations from the median, below it negative.
        distance: f64,
    },
}

/// A slip that changes a figure by a size of its own.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Slipped {
    /// About a hundredth of the class's.
    Hundredth,
    /// About a tenth.
    Tenth,
    /// About ten times.
    Ten,
    /// About a hundred times.
    Hundred,
    /// Ounces written down as grams.
    Ounces,
    /// 2.2 times: a price for a kilo given as one for a pound, or pounds written down as kilos.
    PoundForKilo,
    /// A pound's price given for a kilo, or kilos written down as pounds.
    KiloForPound,
}

/// Pounds in a kilogram: 1 lb is 0.453 592 37 kg by the international yard and pound agreement of 1959.
const POUNDS: f64 = 1.0 / 0.453_592_37;

impl Slipped {
    /// Every one.
    pub const ALL: [Self; 7] = [
        Self::Hundredth,
        Self::Tenth,
        Self::Ten,
        Self::Hundred,
        Self::Ounces,
        Self::PoundForKilo,
        Self::KiloForPound,
    ];

    /// How many times as much as it should be.
    #[must_use]
    pub fn times(self) -> f64 {
        match self {
            Self::Hundredth => 0.01,
            Self::Tenth => 0.1,
            Self::Ten => 10.0,
            Self::Hundred => 100.0,
            Self::Ounces => POUNDS * 16.0 / 1000.0,
            Self::PoundForKilo => POUNDS,
            Self::KiloForPound => 1.0 / POUNDS,
        }
    }

    /// Whether it is so large that no honest figure comes near.
    #[must_use]
    pub fn is_tenfold(self) -> bool {
        !matches!(self, Self::PoundForKilo | Self::KiloForPound)
    }

    fn words(self) -> &'static str {
        match self {
            Self::Hundredth => "a hundredth of",
            Self::Tenth => "a tenth of",
            Self::Ten => "ten times",
            Self::Hundred => "a hundred times",
            Self::Ounces => "1/28 of",
            Self::PoundForKilo => "2.2 times",
            Self::KiloForPound => "1/2.2 of",
        }
    }
}

impl Flag {
    /// The reason, as a sentence for the student.
    #[must_use]
    pub fn sentence(&self) -> String {
        match self {
            Self::Gained { by, .. } => format!(
                "The fillets weigh {by} more ready to cook than off the bone: they were wet, or the two weights are changed over."
            ),
            Self::Swapped { yield_then } => format!(
                "Two weights look changed over: the other way round they make a yield of {yield_then}."
            ),
            Self::Impossible(why) => why.clone(),
            Self::OneFillet { share } => {
                format!("The yield is {share} of the class's: were both fillets on the scale?")
            }
            Self::CookedLikely { kept } => format!(
                "The fillets look weighed after cooking: they kept {kept} of what the class keeps, and a pan takes about a fifth. Weigh them raw."
            ),
            Self::SizeOff {
                slip: Some(slip @ (Slipped::PoundForKilo | Slipped::KiloForPound)),
                ..
            } => format!(
                "The fish weighs {} what the class's weigh: were pounds and kilos changed over?",
                slip.words()
            ),
            Self::SizeOff {
                slip: Some(Slipped::Ounces),
                ..
            } => {
                "The fish weighs 1/28 of what the class's weigh: were ounces written down as grams?"
                    .to_owned()
            }
            Self::SizeOff {
                slip: Some(slip), ..
            } => format!(
                "The fish weighs about {} what the class's weigh: check the decimal mark and the unit.",
                slip.words()
            ),
            Self::SizeOff { times, slip: None } => format!(
                "The fish weighs {times} what the class's weigh: check the unit, and the fish chosen."
            ),
            Self::PriceOff(slip @ (Slipped::PoundForKilo | Slipped::KiloForPound)) => format!(
                "The price is {} what the class paid: was it for a pound, or for a kilo?",
                slip.words()
            ),
            Self::PriceOff(slip) => format!(
                "The price is about {} what the class paid: check the decimal mark.",
                slip.words()
            ),
            Self::PortionsOff { times } => format!(
                "A portion weighs, and costs, {times} what the class's does: check how many portions were wanted."
            ),
            Self::FormOff(form) => format!(
                "All others bought this fish {}, and yours would lie among theirs: check the form.",
                form.name()
            ),
            Self::FinerThanScale { weight, division } => format!(
                "A scale with a division of {division} can't show {weight}: check the weight, or the scale chosen."
            ),
            Self::Implausible(verdict) => verdict.sentence().to_owned(),
            Self::Outlier { distance } => {
                let side = if *distance < 0.0 { "below" } else { "above" };
                format!(
                    "The yield lies far {side} the rest of the class: weigh and work it through again."
                )
            }
        }
    }
}

/// The flags of every row, in the rows' order, the gravest first.
#[must_use]
pub fn flags(rows: &[RollRow]) -> Vec<Vec<Flag>> {
    let by = ClassSplit::SpeciesAndForm;
    let lots = groups(rows.iter().map(|row| &row.result), by);
    let standards: HashMap<(u8, usize), (usize, DeliveryForm, Standard)> = lots
        .into_iter()
        .filter_map(|lot| {
            let first = lot.results.first()?;
            let standard = Standard::of(&lot.results);
            let lot = (lot.results.len(), first.sheet.form, standard);
            Some((by.key(first), lot))
        })
        .collect();
    let alone_in_form = |result: &ClassResult| {
        let own = by.key(result);
        // Only where one stands against many of one form is there anything to say.
        let others = standards
            .iter()
            .filter(|((species, _), _)| *species == own.0);
        let mut others = others.filter(|(key, _)| **key != own);
        let (_, (many, form, standard)) = others.next()?;
        let is_one = standards.get(&own).is_some_and(|(count, ..)| *count == 1);
        let is_plain = is_one && *many >= FEWEST && others.next().is_none();
        (is_plain && standard.holds(result)).then_some(Flag::FormOff(*form))
    };
    rows.iter()
        .map(|row| {
            let standard = standards.get(&by.key(&row.result));
            let mut flags = slips(&row.result, standard.map(|(.., standard)| standard));
            flags.extend(alone_in_form(&row.result));
            flags
        })
        .collect()
}

#[cfg(test)]
mod tests;
