//! One fish from the box to the pan: what is left at each weighing, and what each cut took away.
//!
//! A loss is found by deduction, never weighed: a gram or two always stays on the board.

use rust_decimal::Decimal;
use serde::{Deserialize, Serialize};

use super::mass::Mass;
use super::refusals::NoBreakdown;
use crate::base::refusal::Refusal;

/// The state a fish is bought in. A yield is only comparable with one from the same form.
#[derive(
    Clone, Copy, Debug, Default, PartialEq, Eq, Hash, Serialize, Deserialize, PartialOrd, Ord,
)]
#[serde(rename_all = "snake_case")]
pub enum DeliveryForm {
    /// As caught: head, guts and scales on.
    #[default]
    Whole,
    /// Guts out, head and scales on.
    Gutted,
    /// Guts out and scaled, head on.
    GuttedScaled,
    /// Head and guts off.
    HeadedGutted,
}

impl DeliveryForm {
    /// Every form, in the order a picker shows them.
    pub const ALL: [Self; 4] = [
        Self::Whole,
        Self::Gutted,
        Self::GuttedScaled,
        Self::HeadedGutted,
    ];

    /// The name a cook knows it by.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::Whole => "whole",
            Self::Gutted => "gutted",
            Self::GuttedScaled => "gutted and scaled",
            Self::HeadedGutted => "headed and gutted",
        }
    }

    /// What leaves the fish between delivery and the fillets coming off the bone.
    #[must_use]
    pub fn off_the_bone(self) -> &'static str {
        match self {
            Self::Whole => "head, guts, bones and trimmings",
            Self::Gutted | Self::GuttedScaled => "head, bones and trimmings",
            Self::HeadedGutted => "bones and trimmings",
        }
    }
}

/// The readings of one fish, all raw.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Weights {
    /// As delivered (as purchased).
    pub delivered: Mass,
    /// The fillets as they come off the bone, when they were weighed then.
    #[serde(default)]
    pub off_bone: Option<Mass>,
    /// The fillets ready to cook (edible portion), skin on, trimmed and dry.
    pub ready: Mass,
}

/// Readings that can belong to one fish.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Breakdown {
    weights: Weights,
}

/// What one stage took away.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Loss {
    /// What it was.
    pub name: &'static str,
    /// Its mass, by deduction; zero when the stage took nothing.
    pub mass: Mass,
    /// Its share of the delivered mass, 0 to 1, to 28 digits.
    pub share: Decimal,
}

impl Breakdown {
    /// Takes the readings of one fish.
    ///
    /// # Errors
    /// A sentence when a reading is zero or less, the fish is over [`Mass::HEAVIEST`], or a later
    /// reading is heavier than an earlier one.
    pub fn of(weights: Weights) -> Result<Self, Refusal> {
        let Weights {
            delivered,
            off_bone,
            ready,
        } = weights;
        if delivered <= Mass::ZERO {
            return Err(NoBreakdown::NotDelivered.into());
        }
        if delivered > Mass::HEAVIEST {
            return Err(NoBreakdown::TooHeavy.into());
        }
        if ready <= Mass::ZERO {
            return Err(NoBreakdown::NotReady.into());
        }
        if off_bone.is_some_and(|mass| mass <= Mass::ZERO) {
            return Err(NoBreakdown::NothingOffBone.into());
        }
        if off_bone.is_some_and(|mass| mass > delivered) {
            return Err(NoBreakdown::OffBoneOverDelivered.into());
        }
        if ready > delivered {
            return Err(NoBreakdown::ReadyOverDelivered.into());
        }
        if off_bone.is_some_and(|mass| ready > mass) {
            return Err(NoBreakdown::ReadyOverOffBone.into());
        }
        Ok(Self { weights })
    }

    /// The readings.
    #[must_use]
    pub fn weights(&self) -> Weights {
        self.weights
    }

    /// The mass as delivered.
    #[must_use]
    pub fn delivered(&self) -> Mass {
        self.weights.delivered
    }

    /// The mass ready to cook.
    #[must_use]
    pub fn ready(&self) -> Mass {
        self.weights.ready
    }

    /// Yield: ready to cook over as delivered, above 0 and at most 1.
    #[must_use]
    pub fn yield_ratio(&self) -> Decimal {
        self.share_of_delivered(self.ready())
    }

    /// All that was lost between delivery and the pan.
    #[must_use]
    pub fn total_loss(&self) -> Mass {
        less(self.delivered(), self.ready())
    }

    /// The loss stage by stage for a fish delivered in `form`: two when the fillets were weighed off the
    /// bone, else one. With the mass ready to cook they make the delivered mass to the milligram.
    #[must_use]
    pub fn losses(&self, form: DeliveryForm) -> Vec<Loss> {
        let loss = |name, mass| Loss {
            name,
            mass,
            share: self.share_of_delivered(mass),
        };
        match self.weights.off_bone {
            Some(off_bone) => vec![
                loss(form.off_the_bone(), less(self.delivered(), off_bone)),
                loss("rib bones, pin bones, edges", less(off_bone, self.ready())),
            ],
            None => vec![loss("all trimmings together", self.total_loss())],
        }
    }

    fn share_of_delivered(&self, mass: Mass) -> Decimal {
        // `of` lets no breakdown through without a delivered mass above zero.
        mass.in_kilos() / self.delivered().in_kilos()
    }
}

/// `of` has checked that each reading is positive and no heavier than the one before, so it fits.
fn less(before: Mass, after: Mass) -> Mass {
    before.checked_sub(after).unwrap_or_default()
}

/// A fish of whole grams for the tests of this folder.
#[cfg(test)]
pub(super) fn fish(delivered_g: i64, ready_g: i64) -> Breakdown {
    Breakdown::of(Weights {
        delivered: Mass::from_mg(delivered_g * 1000),
        off_bone: None,
        ready: Mass::from_mg(ready_g * 1000),
    })
    .unwrap()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn weights(delivered: i64, off_bone: Option<i64>, ready: i64) -> Weights {
        Weights {
            delivered: Mass::from_mg(delivered * 1000),
            off_bone: off_bone.map(|g| Mass::from_mg(g * 1000)),
            ready: Mass::from_mg(ready * 1000),
        }
    }

    #[test]
    fn each_loss_is_what_the_stage_took() {
        let fish = Breakdown::of(weights(1000, Some(520), 480)).unwrap();
        let losses: Vec<_> = fish
            .losses(DeliveryForm::Whole)
            .into_iter()
            .map(|loss| (loss.name, loss.mass.mg() / 1000, loss.share.to_string()))
            .collect();
        assert_eq!(
            losses,
            [
                ("head, guts, bones and trimmings", 480, "0.48".into()),
                ("rib bones, pin bones, edges", 40, "0.04".into()),
            ]
        );
        assert_eq!(fish.yield_ratio(), Decimal::new(48, 2));
    }

    #[test]
    fn without_a_weight_off_the_bone_there_is_one_loss() {
        let fish = Breakdown::of(weights(1000, None, 480)).unwrap();
        let losses = fish.losses(DeliveryForm::HeadedGutted);
        assert_eq!(losses.len(), 1);
        assert_eq!(losses[0].mass, Mass::from_mg(520_000));
    }

    #[test]
    fn weights_that_are_not_of_one_fish_are_refused() {
        for (fish, said) in [
            (weights(0, None, 0), "as delivered first"),
            (weights(100_001, None, 1), "more than 100 kg"),
            (weights(500, None, 0), "ready to cook: their weight is zero"),
            (
                weights(500, None, -1),
                "ready to cook: their weight is zero",
            ),
            (weights(500, Some(0), 200), "off the bone weigh zero"),
            (weights(500, Some(501), 200), "off the bone weigh more"),
            (weights(500, None, 501), "ready to cook weigh more"),
            (weights(500, Some(250), 251), "more ready to cook than"),
        ] {
            let refusal = Breakdown::of(fish).unwrap_err().to_string();
            assert!(refusal.contains(said), "{fish:?}: {refusal}");
        }
    }

    #[test]
    fn a_record_without_a_weight_off_the_bone_is_read() {
        let read: Weights = serde_json::from_str(r#"{"delivered":500000,"ready":200000}"#).unwrap();
        assert_eq!(read, weights(500, None, 200));
    }
}
