//! What a dish costs, line by line, the largest first.

use rust_decimal::Decimal;

use super::line::{PlateLine, Preparation, Source};
use super::refusals::NoSum;
use super::units::{Quantity, QuantityUnit};
use crate::base::refusal::Refusal;
use crate::trade::money::{Currency, Money};

/// A dish or a part made ahead with its cost.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Plate {
    /// The currency of every figure in it.
    pub currency: Currency,
    /// For how many covers; one for a part.
    pub covers: u32,
    /// Its lines, the largest cost first.
    pub lines: Vec<CostedLine>,
    /// What is added for what is never measured, for all covers.
    pub unmeasured: Decimal,
    /// Everything together, for all covers.
    pub total: Decimal,
}

/// One line with its cost.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct CostedLine {
    /// Where it stands among the lines as written, from nought.
    pub at: usize,
    /// The ingredient.
    pub name: String,
    /// How much of it, for all covers.
    pub quantity: Quantity,
    /// The unit it is spoken of in.
    pub unit: QuantityUnit,
    /// Its cost for all covers.
    pub cost: Decimal,
    /// How it was worked out, for an apprentice.
    pub sum: String,
}

impl Plate {
    /// Costs a preparation.
    ///
    /// # Errors
    /// The sentence of the first line that can't be costed.
    pub fn of(preparation: &Preparation) -> Result<Self, Refusal> {
        let mut lines = Vec::with_capacity(preparation.lines.len());
        let mut measured = Decimal::ZERO;
        for (at, line) in preparation.lines.iter().enumerate() {
            let cost = line.cost()?;
            measured = measured.checked_add(cost).ok_or(NoSum::TooFar)?;
            lines.push(CostedLine {
                at,
                name: line.name.clone(),
                quantity: line.quantity,
                unit: line.unit,
                cost,
                sum: line.sum(),
            });
        }
        lines.sort_by(|a, b| b.cost.cmp(&a.cost).then(a.at.cmp(&b.at)));
        let unmeasured = measured
            .checked_mul(preparation.share)
            .ok_or(NoSum::TooFar)?;
        Ok(Self {
            currency: preparation.currency,
            covers: preparation.covers(),
            lines,
            unmeasured,
            total: measured.checked_add(unmeasured).ok_or(NoSum::TooFar)?,
        })
    }

    /// What one cover costs.
    #[must_use]
    pub fn per_cover(&self) -> Money {
        self.one(self.total)
    }

    /// One cover's part of an amount for all of them.
    #[must_use]
    pub fn one(&self, amount: Decimal) -> Money {
        Money {
            amount: amount / Decimal::from(self.covers.max(1)),
            currency: self.currency,
        }
    }

    /// What part of the whole cost an amount is; nothing for a dish that costs nothing.
    #[must_use]
    pub fn share_of(&self, amount: Decimal) -> Decimal {
        amount.checked_div(self.total).unwrap_or_default()
    }
}

/// What one cover costs less when every whole fish of the dish gives one percentage point more; `None`
/// without a fish, or where the yield is at its end already.
///
/// # Errors
/// The sentence of the first line that can't be costed.
pub fn worth_of_a_point(preparation: &Preparation) -> Result<Option<Money>, Refusal> {
    let point = Decimal::new(1, 2);
    let mut has_fish = false;
    let mut better = preparation.clone();
    for line in &mut better.lines {
        if let Source::Bought(bought) = &mut line.source
            && bought.fish.is_some()
        {
            has_fish = true;
            bought.trim = match bought.trim.checked_add(point) {
                Some(trim) if trim <= Decimal::ONE => trim,
                _ => return Ok(None),
            };
        }
    }
    if !has_fish {
        return Ok(None);
    }
    let saved = preparation.cost()?.checked_sub(better.cost()?);
    Ok(Some(Money {
        amount: saved.ok_or(NoSum::TooFar)? / Decimal::from(preparation.covers()),
        currency: preparation.currency,
    }))
}

/// What one cover costs at the ends of a published range: least first. `None` where no line stands for one.
///
/// # Errors
/// The sentence of the first line that can't be costed.
pub fn ends(preparation: &Preparation) -> Result<Option<(Money, Money)>, Refusal> {
    let at = |pick: fn((Decimal, Decimal)) -> Decimal| -> Result<Option<Money>, Refusal> {
        let mut end = preparation.clone();
        let mut has_range = false;
        for line in &mut end.lines {
            if let PlateLine {
                source: Source::Bought(bought),
                ..
            } = line
                && let Some(range) = bought.fish.as_ref().and_then(|fish| fish.range)
            {
                bought.trim = pick(range);
                has_range = true;
            }
        }
        let amount = end.cost()? / Decimal::from(end.covers());
        Ok(has_range.then_some(Money {
            amount,
            currency: end.currency,
        }))
    };
    let (least, most) = (at(|(_, high)| high)?, at(|(low, _)| low)?);
    Ok(least.zip(most))
}
