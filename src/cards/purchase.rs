//! A line of a card that is bought: its yield, its price, and what brings the two together.

use rust_decimal::prelude::FromPrimitive;
use rust_decimal::{Decimal, RoundingStrategy};

use super::ingredient::{Ingredient, Origin, PricedBy};
use super::larder::{Larder, LineFaults, LineField, keep};
use super::refusals::{NoCardPrice, NoYield};
use crate::base::refusal::Refusal;
use crate::trade::money::{self, Currency, MassPrice, Money, PriceUnit};
use crate::trade::outlook::{Confidence, Outlook};
use crate::trade::plate::invoice::{Per, Price};
use crate::trade::plate::line::{Bought, WholeFish};
use crate::trade::plate::percentage::parse_percent;
use crate::trade::plate::units::{self, Dimension, Quantity, QuantityUnit};
use crate::trade::published;
use crate::trade::rounding::percent;
use crate::trade::yields::YieldTest;

pub(super) fn read_bought(
    written: &Ingredient,
    currency: Currency,
    larder: Larder,
    faults: &mut LineFaults,
) -> Option<Bought> {
    let yields = read_yield(written, larder, faults);
    let own_price = yields.as_ref().and_then(|yields| yields.price);
    let price = match own_price.filter(|_| written.price.trim().is_empty()) {
        Some(price) if price.currency == currency => Some(price),
        Some(price) => {
            let why = NoCardPrice::OtherCurrency {
                paid: price.currency,
                card: currency,
            };
            faults.push((LineField::Price, why.into()));
            None
        }
        None => read_price(written, currency, faults),
    };
    let density = read_grams(&written.density, faults, LineField::Density)
        .map(|grams| grams / Decimal::ONE_HUNDRED);
    let piece = read_grams(&written.piece, faults, LineField::Piece)
        .map(|grams| grams / Decimal::ONE_THOUSAND);
    let Yields {
        trim, fish, credit, ..
    } = yields?;
    let credit = credit.filter(|credit| credit.currency == currency);
    let fish = fish.map(|fish| WholeFish {
        size: piece.or(fish.size),
        credit: credit.map_or(Decimal::ZERO, |credit| credit.amount),
        ..fish
    });
    Some(Bought {
        trim,
        price: price?,
        density,
        piece: piece.or(fish.as_ref().and_then(|fish| fish.size)),
        group: written.group(),
        fish,
    })
}

/// What is left of what is bought, and what comes with it.
struct Yields {
    trim: Decimal,
    price: Option<Price>,
    /// What the parts kept of one kilogram as bought are worth.
    credit: Option<Money>,
    fish: Option<WholeFish>,
}

fn read_yield(written: &Ingredient, larder: Larder, faults: &mut LineFaults) -> Option<Yields> {
    match &written.origin {
        Origin::Bought | Origin::Part(_) => {
            let trim = match written.trim.trim() {
                // Pieces are counted as bought: there is nothing to type, and nothing to be wrong.
                _ if written.unit.kind() == Dimension::Pieces => Ok(Decimal::ONE),
                "" => Ok(Decimal::ONE),
                text => parse_trim(text, "The trim yield"),
            };
            let trim = keep(faults, LineField::Trim, trim)?;
            Some(Yields {
                trim,
                price: None,
                credit: None,
                fish: None,
            })
        }
        Origin::TypedFish => {
            let trim = match written.trim.trim() {
                "" => Err(NoYield::NotTyped.into()),
                text => parse_trim(text, "The yield"),
            };
            let trim = keep(faults, LineField::Trim, trim)?;
            Some(Yields::fish(trim, None, "as typed".to_owned()))
        }
        Origin::PublishedFish(key, form) => {
            let unknown = if key.is_empty() {
                NoYield::NoFish
            } else {
                NoYield::Unpublished
            };
            let range = published::range_for(key, *form).ok_or(unknown);
            let range = keep(faults, LineField::Origin, range.map_err(Refusal::from))?;
            let middle = (range.low + range.high) / Decimal::TWO;
            let from = format!(
                "the middle of the published {} to {}",
                percent(range.low, 1),
                percent(range.high, 1)
            );
            let mut yields = Yields::fish(middle, None, from);
            if let Some(fish) = &mut yields.fish {
                fish.range = Some((range.low, range.high));
            }
            Some(yields)
        }
        Origin::OwnFish(id) => {
            let own = (larder.fish)(id).ok_or(NoYield::FishGone);
            let own = keep(faults, LineField::Origin, own.map_err(Refusal::from))?;
            let weights = own.breakdown();
            let weights = weights.unwrap_or_else(|| Err(NoYield::FishUnweighed.into()));
            let weights = keep(faults, LineField::Origin, weights)?;
            let price = own.slip.read_price().ok().map(by_weight);
            let mut yields = Yields::fish(
                weights.yield_ratio(),
                price,
                format!("your {}", own.name().to_lowercase()),
            );
            yields.credit = own.yield_test().and_then(Result::ok).map(credit_a_kilo);
            if let Some(fish) = &mut yields.fish {
                let count = Decimal::from(own.slip.read_count().unwrap_or(1).max(1));
                fish.size = Some(weights.delivered().in_kilos() / count);
                let careful = (larder.careful)(&own);
                fish.careful = careful.filter(|(low, _)| *low < weights.yield_ratio());
            }
            Some(yields)
        }
    }
}

/// The yield an order for a fish is made at, where one's own tests of its species and form tell how far the next may
/// lie off; and the words for it.
#[must_use]
pub fn careful_yield(outlook: &Outlook) -> Option<(Decimal, String)> {
    let sure = Confidence::default();
    let low = Decimal::from_f64(outlook.at_least(sure))?
        .round_dp_with_strategy(4, RoundingStrategy::ToZero);
    // Tests that lie too far apart leave no yield to order by.
    let low = (low > Decimal::ZERO).then_some(low)?;
    let whose = match outlook.deliveries {
        Some(days) => format!(
            "your {} fish of {days} days leaves for one of another day",
            outlook.fish
        ),
        None => format!(
            "your {} fish leaves for one more of the same delivery",
            outlook.fish
        ),
    };
    let goes = match outlook.trend {
        Some(trend) if trend.step > 0.0 => ", and they give more and more",
        Some(_) => ", and they give less and less",
        None => "",
    };
    let words = format!(
        "ordered at {}, the low end that the spread of {whose}, {} (Student's t){goes}",
        percent(low, 1),
        sure.name()
    );
    Some((low, words))
}

impl Yields {
    fn fish(trim: Decimal, price: Option<Price>, from: String) -> Self {
        Self {
            trim,
            price,
            credit: None,
            fish: Some(WholeFish {
                size: None,
                range: None,
                from,
                careful: None,
                credit: Decimal::ZERO,
            }),
        }
    }
}

fn parse_trim(text: &str, what: &'static str) -> Result<Decimal, Refusal> {
    let trim = parse_percent(text, what, 100)?;
    if trim.is_zero() {
        return Err(NoYield::Zero(what).into());
    }
    Ok(trim)
}

fn credit_a_kilo(test: YieldTest) -> Money {
    // `Breakdown::of` lets nothing through without a delivered mass above zero.
    let credit = test.credit();
    Money {
        amount: credit.amount / test.breakdown().delivered().in_kilos(),
        ..credit
    }
}

fn by_weight(price: MassPrice) -> Price {
    Price {
        amount: price.amount(),
        currency: price.currency(),
        per: match price.per() {
            PriceUnit::Kilo => Per::Kilo,
            PriceUnit::Pound => Per::Pound,
        },
    }
}

fn read_price(written: &Ingredient, currency: Currency, faults: &mut LineFaults) -> Option<Price> {
    let amount = keep(
        faults,
        LineField::Price,
        money::parse_amount(&written.price),
    );
    let Some(priced_by) = written.per else {
        // One sentence at a time: without an amount there is nothing to give a unit to.
        if amount.is_some() {
            faults.push((LineField::Price, NoCardPrice::ForNothing.into()));
        }
        return None;
    };
    let per = match priced_by {
        PricedBy::Kilo => Per::Kilo,
        PricedBy::Pound => Per::Pound,
        PricedBy::Litre => Per::Litre,
        PricedBy::Piece => Per::Piece,
        PricedBy::Pack => {
            let content = if written.pack.trim().is_empty() {
                Err(NoCardPrice::EmptyPack.into())
            } else {
                units::parse(&written.pack, written.pack_unit)
            };
            Per::Pack(keep(faults, LineField::Pack, content)?)
        }
    };
    Some(Price {
        amount: amount?,
        currency,
        per,
    })
}

fn read_grams(text: &str, faults: &mut LineFaults, field: LineField) -> Option<Decimal> {
    if text.trim().is_empty() {
        return None;
    }
    let grams = units::parse(text, QuantityUnit::Gram)
        .map(|Quantity { amount, .. }| amount * Decimal::ONE_THOUSAND);
    keep(faults, field, grams)
}
