//! Which fish is the cheapest to eat: what a usable kilo costs at today's prices, species beside species.

use rust_decimal::Decimal;

use super::group::{TestSplit, groups};
use super::test::Test;
use crate::base::refusal::Refusal;
use crate::cards::quote::Quote;
use crate::fish::bought::SpeciesForm;
use crate::trade::mass::Mass;
use crate::trade::money::{Currency, MassPrice, Money};

/// What a yield rests on.
#[derive(Clone, Debug, PartialEq)]
pub enum Basis {
    /// So many tests of the cook's own, taken together: the pooled yield, as a share.
    Own {
        /// How many tests.
        tests: usize,
        /// Ready over delivered, all together.
        pooled: Decimal,
    },
    /// What is published, from low to high, as shares.
    Published {
        /// The least.
        low: Decimal,
        /// The greatest.
        high: Decimal,
    },
    /// Neither.
    Unknown,
}

impl Basis {
    /// The least and the greatest yield it leaves open; both the same for one's own.
    fn ends(&self) -> Option<(Decimal, Decimal)> {
        match self {
            Self::Own { pooled, .. } => Some((*pooled, *pooled)),
            Self::Published { low, high } => Some((*low, *high)),
            Self::Unknown => None,
        }
    }
}

/// The price a fish is judged by.
#[derive(Clone, Debug, PartialEq)]
pub enum AskingPrice {
    /// Typed on the market list.
    Typed(Result<MassPrice, Refusal>),
    /// What was paid for the latest test that has a price.
    LastPaid(MassPrice),
    /// No price is known.
    None,
}

impl AskingPrice {
    /// The price, where there is one.
    #[must_use]
    pub fn price(&self) -> Option<MassPrice> {
        match self {
            Self::Typed(Ok(price)) | Self::LastPaid(price) => Some(*price),
            Self::Typed(Err(_)) | Self::None => None,
        }
    }
}

/// One fish in one form on the market list.
#[derive(Clone, Debug, PartialEq)]
pub struct Offer {
    /// Which fish, in which form.
    pub bought: SpeciesForm,
    /// What its yield rests on.
    pub basis: Basis,
    /// Its price today.
    pub asked: AskingPrice,
}

/// What a usable kilo or a portion costs: the least and the most, the same for one's own yield.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct CostRange {
    /// At the greatest yield.
    pub least: Money,
    /// At the least yield.
    pub most: Money,
}

impl Offer {
    /// What one usable kilo costs: price per kilo as purchased over the yield (Traster, *Foundations of
    /// Cost Control*, ch. 4); `None` without a price or a yield.
    #[must_use]
    pub fn per_kilo(&self) -> Option<CostRange> {
        let price = self.asked.price()?;
        let (low, high) = self.basis.ends()?;
        let at = |share| {
            Some(Money {
                amount: price.per_kilo().checked_div(share)?,
                currency: price.currency(),
            })
        };
        Some(CostRange {
            least: at(high)?,
            most: at(low)?,
        })
    }

    /// What a portion of `mass` costs, every gram used.
    #[must_use]
    pub fn per_portion(&self, mass: Mass) -> Option<CostRange> {
        let kilo = self.per_kilo()?;
        let of = |money: Money| Money {
            amount: money.amount * mass.in_kilos(),
            ..money
        };
        Some(CostRange {
            least: of(kilo.least),
            most: of(kilo.most),
        })
    }

    /// What it is ranked by: the middle of what a usable kilo costs.
    fn rank(&self) -> Option<(&'static str, Decimal)> {
        let cost = self.per_kilo()?;
        let middle = (cost.least.amount + cost.most.amount) / Decimal::TWO;
        Some((cost.least.currency.code(), middle))
    }

    /// The currency of its price.
    #[must_use]
    pub fn currency(&self) -> Option<Currency> {
        Some(self.asked.price()?.currency())
    }
}

/// The market list: every bought that was tested or quoted, the cheapest to eat first, those of one currency
/// together, those that can't be worked out last.
#[must_use]
pub fn offers(tests: &[Test], quotes: &[Quote]) -> Vec<Offer> {
    let mut offers: Vec<Offer> = groups(tests, TestSplit::FishAndForm)
        .iter()
        .map(|group| {
            let pooled = group.pooled().map(|pooled| pooled.yield_ratio);
            let paid = group.tests.iter().find_map(|test| test.price);
            Offer {
                basis: pooled.map_or(Basis::Unknown, |pooled| Basis::Own {
                    tests: group.tests.len(),
                    pooled,
                }),
                asked: paid.map_or(AskingPrice::None, AskingPrice::LastPaid),
                bought: group.bought.clone(),
            }
        })
        .collect();
    for quote in quotes {
        let bought = quote.bought();
        let asked = match quote.price.trim() {
            "" => None,
            _ => Some(AskingPrice::Typed(quote.read_price())),
        };
        let known = offers
            .iter_mut()
            .find(|offer| offer.bought.key() == bought.key());
        match (known, asked) {
            // The latest quote stands first; an older one of the same fish says nothing more.
            (Some(known), Some(asked)) if !matches!(known.asked, AskingPrice::Typed(_)) => {
                known.asked = asked;
            }
            (Some(_), _) => {}
            (None, asked) => offers.push(Offer {
                basis: published(&bought),
                asked: asked.unwrap_or(AskingPrice::None),
                bought,
            }),
        }
    }
    let mut ranked: Vec<_> = offers
        .into_iter()
        .map(|offer| (offer.rank(), offer))
        .collect();
    ranked.sort_by(|(a, _), (b, _)| (a.is_none(), a).cmp(&(b.is_none(), b)));
    ranked.into_iter().map(|(_, offer)| offer).collect()
}

fn published(bought: &SpeciesForm) -> Basis {
    bought
        .published()
        .map_or(Basis::Unknown, |range| Basis::Published {
            low: range.low,
            high: range.high,
        })
}
