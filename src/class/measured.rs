//! The figures of one result as numbers for sorting, spreading and drawing: worked out once, when its code is
//! opened, since a board asks for them again and again.

use rust_decimal::Decimal;
use rust_decimal::prelude::ToPrimitive;

use super::group::Measure;
use super::result::Figures;
use crate::base::refusal::Refusal;
use crate::code::sheet::Sheet;
use crate::trade::money::{Currency, Money};

/// The figures of one result; `None` where it has none.
#[derive(Clone, Copy, Debug)]
pub struct Measured {
    yield_share: Option<f64>,
    off_the_bone: Option<f64>,
    kept_in_trimming: Option<f64>,
    currency: Option<Currency>,
    per_kilo: Option<f64>,
    per_portion: Option<f64>,
    price: Option<f64>,
}

impl Measured {
    /// The figures of the readings in `sheet`.
    #[must_use]
    pub fn of(sheet: &Sheet, figures: &Result<Figures, Refusal>) -> Self {
        let figures = figures.as_ref().ok();
        let number = |share: Decimal| share.to_f64();
        let money = |money: Money| money.amount.to_f64();
        let cost = figures.and_then(|figures| figures.cost);
        let off_the_bone = figures.and_then(|figures| match figures.losses.as_slice() {
            [to_the_bone, _] => number(to_the_bone.share),
            _ => None,
        });
        let kept = figures.and_then(|figures| {
            let weights = figures.breakdown.weights();
            let off_bone = weights.off_bone?.in_kilos();
            number(weights.ready.in_kilos().checked_div(off_bone)?)
        });
        Self {
            yield_share: figures.and_then(|figures| number(figures.yield_ratio)),
            off_the_bone,
            kept_in_trimming: kept,
            currency: sheet.price.map(|price| price.currency()),
            per_kilo: cost.and_then(|cost| money(cost.per_kilo)),
            per_portion: cost.and_then(|cost| money(cost.per_portion?)),
            price: sheet.price.and_then(|price| number(price.per_kilo())),
        }
    }

    /// One of them.
    #[must_use]
    pub fn get(&self, measure: Measure) -> Option<f64> {
        let (paid_in, value) = match measure {
            Measure::Yield => return self.yield_share,
            Measure::OffTheBone => return self.off_the_bone,
            Measure::KeptInTrimming => return self.kept_in_trimming,
            Measure::CostPerKilo(currency) => (currency, self.per_kilo),
            Measure::CostPerPortion(currency) => (currency, self.per_portion),
            Measure::Price(currency) => (currency, self.price),
        };
        value.filter(|_| self.currency == Some(paid_in))
    }
}
