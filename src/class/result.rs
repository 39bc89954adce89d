//! One student's result on the board: the readings of a code, and everything worked out from them again.

use rust_decimal::Decimal;

use super::measured::Measured;
use crate::base::refusal::Refusal;
use crate::code::letters::Code;
use crate::code::opening::OpenedCode;
use crate::code::sheet::Sheet;
use crate::trade::breakdown::{Breakdown, Loss};
use crate::trade::mass::Unit;
use crate::trade::money::Money;
use crate::trade::plausible::{self, YieldVerdict};
use crate::trade::published;
use crate::trade::reading::YieldReading;
use crate::trade::species;
use crate::trade::yield_sheet::{Figure, Portioning, YieldSheet};
use crate::trade::yields::YieldTest;

/// A result on the board.
#[derive(Clone, Debug)]
pub struct ClassResult {
    /// The code, as it should have been typed.
    pub code: Code,
    /// The readings in it.
    pub sheet: Sheet,
    /// Places in the code, from 0, of letters that were put right.
    pub mended: Vec<usize>,
    /// What the readings come to, or why they can't belong to one fish.
    pub figures: Result<Figures, Refusal>,
    /// The figures as numbers, for a board.
    pub measured: Measured,
}

/// What the readings of one result come to.
#[derive(Clone, Debug)]
pub struct Figures {
    /// The weights, in an order that can be.
    pub breakdown: Breakdown,
    /// Ready to cook over as delivered, above 0 and at most 1.
    pub yield_ratio: Decimal,
    /// The doubt that the scale leaves in the yield.
    pub reading: YieldReading,
    /// What each stage took away.
    pub losses: Vec<Loss>,
    /// Whether the yield can be true for the form it was delivered in.
    pub verdict: YieldVerdict,
    /// Where the yield lies against what is published for the species and form, if anything is.
    pub published: Option<Beside>,
    /// What it cost, if the code carries a price.
    pub cost: Option<ResultCost>,
    /// The yield test told line by line, as the cook's own screen tells it.
    pub sheet: YieldSheet,
    /// The equal portions wanted, as the cook's own screen tells them.
    pub portions: Vec<Figure>,
}

/// A yield beside the published range for its species and form.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Beside {
    /// The least published share, 0 to 1.
    pub low: Decimal,
    /// The greatest published share, 0 to 1.
    pub high: Decimal,
    /// Below, within or above them.
    pub standing: ClassStanding,
}

/// Where a yield lies against a range.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ClassStanding {
    /// Under the least.
    Below,
    /// From the least to the greatest.
    Within,
    /// Over the greatest.
    Above,
}

/// What a fish cost.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct ResultCost {
    /// One usable kilogram.
    pub per_kilo: Money,
    /// Cost per usable kilogram over the price as purchased.
    pub factor: Decimal,
    /// One of the equal portions wanted, if the code says how many.
    pub per_portion: Option<Money>,
}

impl ClassResult {
    /// The result of an opened code.
    #[must_use]
    pub fn of(opened: OpenedCode) -> Self {
        let figures = Figures::of(&opened.sheet);
        Self {
            measured: Measured::of(&opened.sheet, &figures),
            figures,
            code: opened.code,
            sheet: opened.sheet,
            mended: opened.mended,
        }
    }

    /// The name of the species.
    #[must_use]
    pub fn species(&self) -> &'static str {
        self.sheet
            .fish
            .key()
            .and_then(species::species)
            .map_or("Other fish", |species| species.name)
    }

    /// Whose it is and which test, as `TERN 1`; a dash where the code says nothing.
    #[must_use]
    pub fn student(&self) -> String {
        self.sheet.student.map_or_else(
            || String::from("—"),
            |student| format!("{} {}", student.nickname, student.test),
        )
    }
}

impl Figures {
    /// Works everything out from the readings.
    ///
    /// # Errors
    /// The sentence of [`Breakdown::of`] when the weights can't belong to one fish.
    pub fn of(sheet: &Sheet) -> Result<Self, Refusal> {
        let breakdown = Breakdown::of(sheet.weights)?;
        let yield_ratio = breakdown.yield_ratio();
        let test = match sheet.price {
            Some(price) => Some(YieldTest::of(breakdown, price, &[])?),
            None => None,
        };
        let portioning = sheet
            .portions
            .map(|count| Portioning::Equal(u32::from(count)));
        let portions = test.as_ref().zip(portioning);
        Ok(Self {
            breakdown,
            yield_ratio,
            reading: YieldReading::of(&breakdown, sheet.scale),
            losses: breakdown.losses(sheet.form),
            verdict: plausible::plausible(
                sheet.fish.key().unwrap_or_default(),
                sheet.form,
                yield_ratio,
            ),
            published: sheet.fish.key().and_then(|key| {
                let range = published::range_for(key, sheet.form)?;
                (range.judges()).then(|| Beside::of(yield_ratio, range.low, range.high))
            }),
            cost: test
                .as_ref()
                .map(|test| ResultCost::of(test, sheet.portions)),
            portions: portions.map_or_else(Vec::new, |(test, portioning)| {
                portioning.figures(test, Unit::Gram)
            }),
            sheet: YieldSheet::of(
                &breakdown,
                Some(sheet.form),
                sheet.scale,
                Unit::Gram,
                test.as_ref(),
            ),
        })
    }
}

impl Beside {
    fn of(yield_ratio: Decimal, low: Decimal, high: Decimal) -> Self {
        let standing = if yield_ratio < low {
            ClassStanding::Below
        } else if yield_ratio > high {
            ClassStanding::Above
        } else {
            ClassStanding::Within
        };
        Self {
            low,
            high,
            standing,
        }
    }
}

impl ResultCost {
    fn of(test: &YieldTest, portions: Option<u8>) -> Self {
        let equal = portions.and_then(|count| test.divided_into(u32::from(count)));
        Self {
            per_kilo: test.cost_per_kilo(),
            factor: test.cost_factor(),
            per_portion: equal.map(|portion| portion.cost),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::code::fish::SpeciesCode;
    use crate::code::opening::open;
    use crate::code::sheet::sample;
    use crate::trade::breakdown::DeliveryForm;
    use crate::trade::mass::Mass;
    use crate::trade::rounding::{percent, written};

    fn result(sheet: &Sheet) -> ClassResult {
        ClassResult::of(open(&Code::of(sheet).unwrap().to_string()).unwrap())
    }

    /// Whole cod: national factors for its fillets, 2.25 (Iceland) to 2.95 (Faroe Islands), are 33.9 to 44.4 %.
    #[test]
    fn a_range_of_fillets_is_stood_beside() {
        let mut sheet = sample::full();
        sheet.fish = SpeciesCode::of_key("cod");
        sheet.form = DeliveryForm::Whole;
        let beside = Figures::of(&sheet).unwrap().published.unwrap();
        assert_eq!(percent(beside.low, 1), "33.9 %");
        assert_eq!(percent(beside.high, 1), "44.4 %");
        assert_eq!(beside.standing, ClassStanding::Above);
    }

    #[test]
    fn the_tutor_s_figures_are_the_cook_s() {
        let result = result(&sample::full());
        assert_eq!(
            (result.student().as_str(), result.species()),
            ("TERN 1", "Gilthead bream")
        );
        let figures = result.figures.unwrap();
        assert_eq!(percent(figures.yield_ratio, 1), "46.6 %");
        assert_eq!(figures.verdict, YieldVerdict::Usual);
        // Of bream only flesh and edible portions are published, which are no fillets with their skin.
        assert_eq!(figures.published, None);
        assert_eq!(figures.losses.len(), 2);
        let cost = figures.cost.unwrap();
        assert_eq!(written(cost.factor, 4), "2.1457"); // 648 / 302
        assert_eq!(cost.per_portion.unwrap().show(), "€4.99"); // 0.648 × 15.40 / 2
    }

    #[test]
    fn readings_of_no_fish_are_kept_with_the_reason() {
        let mut sheet = sample::full();
        sheet.weights.ready = Mass::from_mg(700_000);
        let refusal = result(&sheet).figures.unwrap_err().to_string();
        assert!(refusal.contains("weigh more than the fish"), "{refusal}");
    }
}
