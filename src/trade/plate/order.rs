//! What to buy for a number of covers: whole fish, whole packs, kilos as purchased, and what will be left over.

use rust_decimal::Decimal;
use rust_decimal::prelude::ToPrimitive;

use super::chance::OrderChance;
use super::invoice::{Per, Price};
use super::line::{Bought, LineGroup, PlateLine, Preparation, Source};
use super::percentage::parse_percent;
use super::refusals::NoSum;
use super::scaled::MOST_COVERS;
use super::units::{Dimension, Quantity, QuantityUnit};
use crate::base::refusal::Refusal;
use crate::base::text::caseless;
use crate::trade::money::{Currency, Money};
use crate::trade::rounding;

/// The largest margin of an order, in percent.
const MOST_MARGIN: u32 = 100;

/// A shopping list.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PurchaseOrder {
    /// The covers asked for.
    pub covers: u32,
    /// The covers it is enough for: those and the margin, whole covers.
    pub planned: u32,
    /// What to buy, by who sells it.
    pub groups: Vec<(LineGroup, Vec<OrderLine>)>,
    /// What all of it costs.
    pub cost: Money,
}

/// One line of a shopping list.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct OrderLine {
    /// The ingredient.
    pub name: String,
    /// The unit it is spoken of in.
    pub unit: QuantityUnit,
    /// How much is needed as purchased, exactly.
    pub need: Quantity,
    /// What to buy: never less than the need.
    pub buy: Buy,
    /// How much more that is than the need, as purchased.
    pub left: Quantity,
    /// What it costs, in whole units of the currency.
    pub cost: Decimal,
    /// Why so much, for an apprentice.
    pub why: String,
    /// What the published yield behind it leaves to chance; `None` where it rests on no such.
    pub chance: Option<OrderChance>,
}

/// What to buy.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Buy {
    /// Whole fish, each of this size.
    Fish(u64, Quantity),
    /// Whole packs, each with this in it.
    Packs(u64, Quantity),
    /// So much, loose.
    Loose(Quantity),
}

impl Buy {
    /// How much it is in all, as purchased.
    #[must_use]
    pub fn amount(&self) -> Decimal {
        match self {
            Self::Fish(count, each) | Self::Packs(count, each) => {
                Decimal::from(*count) * each.amount
            }
            Self::Loose(quantity) => quantity.amount,
        }
    }

    /// As on a list: `12 fish of 648 g`, `3 packs of 250 g`, `1.45 kg`.
    #[must_use]
    pub fn show(&self, unit: QuantityUnit) -> String {
        match self {
            Self::Fish(count, each) => format!("{count} fish of {}", each.show(unit)),
            Self::Packs(1, each) => format!("1 pack of {}", each.show(unit)),
            Self::Packs(count, each) => format!("{count} packs of {}", each.show(unit)),
            Self::Loose(quantity) => quantity.show(unit),
        }
    }
}

/// Reads the margin of an order in percent of the covers; none when nothing is typed.
///
/// # Errors
/// One sentence when it is no percentage.
pub fn parse_margin(text: &str) -> Result<Decimal, Refusal> {
    match text.trim() {
        "" => Ok(Decimal::ZERO),
        text => parse_percent(text, "The margin", MOST_MARGIN),
    }
}

/// What is needed of one thing, before it is rounded up to what is sold.
struct Need<'a> {
    line: &'a PlateLine,
    bought: &'a Bought,
    amount: Quantity,
    /// Ready to use, for one cover; only of a fish that goes on the plate as it is.
    portion: Option<Quantity>,
}

impl Need<'_> {
    /// The more careful yield that it is ordered by, and why.
    fn careful(&self) -> Option<&(Decimal, String)> {
        self.bought.careful()
    }

    /// The yield that it is ordered by.
    fn trim(&self) -> Decimal {
        self.careful().map_or(self.bought.trim, |(trim, _)| *trim)
    }
}

/// The shopping list of a dish for `covers` and a `margin` of them on top.
///
/// # Errors
/// A sentence for a line that can't be costed, or past the range of a decimal.
pub fn order(dish: &Preparation, covers: u32, margin: Decimal) -> Result<PurchaseOrder, Refusal> {
    let planned = Decimal::from(covers.min(MOST_COVERS))
        .checked_mul(Decimal::ONE.checked_add(margin).ok_or(NoSum::TooFar)?)
        .map(|planned| planned.ceil());
    let planned = planned
        .and_then(|planned| planned.to_u32())
        .ok_or(NoSum::TooFar)?;
    let factor = Decimal::from(planned) / Decimal::from(dish.covers());
    let mut needs = Vec::new();
    gather(dish, factor, Some(dish.covers()), &mut needs)?;
    let mut groups: Vec<(LineGroup, Vec<OrderLine>)> = Vec::new();
    let mut cost = Decimal::ZERO;
    for group in LineGroup::ALL {
        let lines = needs
            .iter()
            .filter(|need| need.bought.group == group)
            .map(|need| order_line(need, planned))
            .collect::<Result<Vec<_>, _>>()?;
        for line in &lines {
            cost = cost.checked_add(line.cost).ok_or(NoSum::TooFar)?;
        }
        if !lines.is_empty() {
            groups.push((group, lines));
        }
    }
    Ok(PurchaseOrder {
        covers,
        planned,
        groups,
        cost: Money {
            amount: cost,
            currency: dish.currency,
        },
    })
}

/// The same thing wanted in two places is bought once.
fn gather<'a>(
    preparation: &'a Preparation,
    factor: Decimal,
    on_the_plate: Option<u32>,
    needs: &mut Vec<Need<'a>>,
) -> Result<(), Refusal> {
    for line in &preparation.lines {
        let quantity = line.quantity.times(factor)?;
        match &line.source {
            Source::Part(part) => {
                let batches = line
                    .batches(part)?
                    .checked_mul(factor)
                    .ok_or(NoSum::TooFar)?;
                gather(part, batches, None, needs)?;
            }
            Source::Bought(bought) => {
                let trim = bought.careful().map_or(bought.trim, |(trim, _)| *trim);
                let amount = bought.purchase_at(quantity, trim)?;
                let same = needs.iter_mut().find(|need| {
                    need.bought.fish.is_none()
                        && bought.fish.is_none()
                        && need.bought.price == bought.price
                        && need.bought.group == bought.group
                        && same_name(&need.line.name, &line.name)
                });
                if let Some(need) = same {
                    let together = need.amount.amount.checked_add(amount.amount);
                    need.amount.amount = together.ok_or(NoSum::TooFar)?;
                    continue;
                }
                let portion = match on_the_plate.filter(|_| bought.fish.is_some()) {
                    Some(covers) => {
                        Some(line.quantity.times(Decimal::ONE / Decimal::from(covers))?)
                    }
                    None => None,
                };
                needs.push(Need {
                    line,
                    bought,
                    amount,
                    portion,
                });
            }
        }
    }
    Ok(())
}

fn same_name(a: &str, b: &str) -> bool {
    caseless(a) == caseless(b)
}

fn order_line(need: &Need, planned: u32) -> Result<OrderLine, Refusal> {
    let unit = need.line.unit;
    let (buy, why) = bought(need, need.amount, need.trim(), planned)?;
    let left = (buy.amount() - need.amount.amount).max(Decimal::ZERO);
    Ok(OrderLine {
        name: need.line.name.clone(),
        unit,
        need: need.amount,
        cost: need.bought.price.cost_of(buy.amount())?,
        left: Quantity::new(need.amount.kind, left),
        chance: chance(need, &buy, planned)?,
        buy,
        why,
    })
}

/// What to buy for an amount as purchased, where a fish gives `trim` of itself; and why so much.
fn bought(
    need: &Need,
    amount: Quantity,
    trim: Decimal,
    planned: u32,
) -> Result<(Buy, String), Refusal> {
    match (&need.bought.fish, need.bought.price.per) {
        (Some(fish), _) if fish.size.is_some() && amount.kind == Dimension::Mass => {
            let size = fish.size.unwrap_or(Decimal::ONE);
            whole_fish(need, amount, (size, trim), planned)
        }
        (_, Per::Pack(content)) => Ok((
            Buy::Packs(up(amount.amount, content.amount)?, content),
            "whole packs".to_owned(),
        )),
        _ => loose(need.bought.price, amount, need.line.unit),
    }
}

/// What the published yield behind a line leaves to chance: the same order again, at the least that is published.
fn chance(need: &Need, buy: &Buy, planned: u32) -> Result<Option<OrderChance>, Refusal> {
    let Some((low, high)) = need.bought.fish.as_ref().and_then(|fish| fish.range) else {
        return Ok(None);
    };
    if low == high {
        return Ok(Some(OrderChance::NoRange(low)));
    }
    // What is needed ready to use stays as it is.
    let ready = need.amount.amount.checked_mul(need.trim());
    let at_low = ready.and_then(|ready| ready.checked_div(low));
    let at_low = Quantity::new(need.amount.kind, at_low.ok_or(NoSum::TooFar)?);
    let (at_low, _) = bought(need, at_low, low, planned)?;
    let more = (at_low.amount() - buy.amount()).max(Decimal::ZERO);
    Ok(Some(OrderChance::Low {
        low,
        buy: at_low,
        more: Quantity::new(need.amount.kind, more),
    }))
}

/// Fish enough by weight, and enough by whole portions: half a portion of one and half of another make no cover.
fn whole_fish(
    need: &Need,
    amount: Quantity,
    (size, trim): (Decimal, Decimal),
    planned: u32,
) -> Result<(Buy, String), Refusal> {
    let by_weight = up(amount.amount, size)?;
    let ready = size.checked_mul(trim).ok_or(NoSum::TooFar)?;
    let portions = need.portion.and_then(|portion| {
        let portions = rounding::half_away(ready.checked_div(portion.amount)?, 15).floor();
        portions.to_u64().filter(|portions| *portions > 0)
    });
    let each = Quantity::new(Dimension::Mass, size);
    let show = |amount| Quantity::new(Dimension::Mass, amount).show(need.line.unit);
    let mut why = format!(
        "one fish of {} gives {} ready to cook at {}",
        show(size),
        show(ready),
        rounding::percent(trim, 1)
    );
    let mut count = by_weight;
    if let (Some(portions), Some(portion)) = (portions, need.portion) {
        count = count.max(u64::from(planned).div_ceil(portions));
        why.push_str(&format!(
            ", {portions} {} of {}",
            if portions == 1 {
                "whole portion"
            } else {
                "whole portions"
            },
            portion.show(need.line.unit)
        ));
    }
    if let Some((_, reason)) = need.careful() {
        why.push_str(&format!("; {reason}"));
    }
    Ok((Buy::Fish(count, each), why))
}

/// Loose goods, rounded up to what a supplier weighs out: under 100 g or ml five, under a kilo or litre ten, under
/// ten of them fifty, then a hundred; whole ounces where the price is by the pound; whole pieces (common
/// practice, no source).
fn loose(price: Price, need: Quantity, unit: QuantityUnit) -> Result<(Buy, String), Refusal> {
    let step = match need.kind {
        Dimension::Pieces => Decimal::ONE,
        Dimension::Mass if price.per == Per::Pound => QuantityUnit::Ounce.in_base(),
        Dimension::Mass | Dimension::Volume => {
            let steps = [(1, 5), (10, 10), (100, 50)];
            let step = steps
                .into_iter()
                .find(|(under, _)| need.amount < Decimal::new(*under, 1));
            Decimal::new(step.map_or(100, |(_, step)| step), 3)
        }
    };
    let amount = Decimal::from(up(need.amount, step)?)
        .checked_mul(step)
        .ok_or(NoSum::TooFar)?;
    let buy = Buy::Loose(Quantity::new(need.kind, amount.normalize()));
    let exact = need.show(unit);
    let why = if exact == buy.show(unit) {
        String::new()
    } else {
        format!("{exact} rounded up")
    };
    Ok((buy, why))
}

/// How many steps cover an amount. Dust of a division, under 10^-15, is no step of its own.
fn up(amount: Decimal, step: Decimal) -> Result<u64, Refusal> {
    let steps = amount.checked_div(step).ok_or(NoSum::TooFar)?;
    rounding::half_away(steps, 15)
        .ceil()
        .to_u64()
        .map(|steps| steps.max(1))
        .ok_or_else(|| NoSum::TooFar.into())
}

impl PurchaseOrder {
    /// The currency of every figure in it.
    #[must_use]
    pub fn currency(&self) -> Currency {
        self.cost.currency
    }
}
