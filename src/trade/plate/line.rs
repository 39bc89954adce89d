//! One line of a dish: what is on the plate, where it comes from, and how much of it must be bought.

use rust_decimal::Decimal;
use serde::{Deserialize, Serialize};

use super::invoice::Price;
use super::refusals::NoSum;
use super::units::{Dimension, Quantity, QuantityUnit};
use crate::base::refusal::Refusal;
use crate::trade::money::{Currency, Money};
use crate::trade::rounding;

/// Who sells it: the heading it stands under on a shopping list.
#[derive(
    Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize,
)]
#[serde(rename_all = "snake_case")]
pub enum LineGroup {
    /// Fish and shellfish.
    Fish,
    /// Vegetables, herbs and fruit.
    Vegetables,
    /// Meat and poultry.
    Meat,
    /// Milk, cream, butter, cheese, eggs.
    Dairy,
    /// Oil, vinegar, flour, jars and tins.
    #[default]
    DryStore,
    /// Anything else.
    Other,
}

impl LineGroup {
    /// Every group, in the order of a list.
    pub const ALL: [Self; 6] = [
        Self::Fish,
        Self::Vegetables,
        Self::Meat,
        Self::Dairy,
        Self::DryStore,
        Self::Other,
    ];

    /// Its heading.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::Fish => "Fishmonger",
            Self::Vegetables => "Vegetables, herbs, fruit",
            Self::Meat => "Butcher",
            Self::Dairy => "Dairy and eggs",
            Self::DryStore => "Dry store",
            Self::Other => "Other",
        }
    }
}

/// What a dish or a part made ahead comes to.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Makes {
    /// So many covers, one at least.
    Covers(u32),
    /// So much of a part made ahead, above zero.
    Amount(Quantity),
}

/// A dish or a part made ahead, every figure of it read.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Preparation {
    /// Its name.
    pub name: String,
    /// What its lines are for.
    pub makes: Makes,
    /// The currency of every price in it.
    pub currency: Currency,
    /// What is added for what is never measured, as a share of the measured cost.
    pub share: Decimal,
    /// What goes into it.
    pub lines: Vec<PlateLine>,
}

/// One line, every figure of it read.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PlateLine {
    /// The ingredient.
    pub name: String,
    /// How much of it, ready to use, in all covers together.
    pub quantity: Quantity,
    /// The unit it is spoken of in.
    pub unit: QuantityUnit,
    /// Where it comes from.
    pub source: Source,
}

/// Where a line comes from.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Source {
    /// It is bought.
    Bought(Bought),
    /// It is made ahead, by its own lines.
    Part(Preparation),
}

/// What is known of something bought.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Bought {
    /// What is left after trimming, as a share of what was bought, above 0 and at most 1.
    pub trim: Decimal,
    /// The price as bought.
    pub price: Price,
    /// Kilograms in a litre, where a volume meets a price by weight or the other way round.
    pub density: Option<Decimal>,
    /// Kilograms of one piece as bought, where pieces meet a weight.
    pub piece: Option<Decimal>,
    /// Who sells it.
    pub group: LineGroup,
    /// What is known of a whole fish.
    pub fish: Option<WholeFish>,
}

/// A fish that is bought whole and filleted here.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct WholeFish {
    /// Kilograms of one fish as bought; without it the order is in kilos.
    pub size: Option<Decimal>,
    /// The least and the greatest yield, where the yield stands for a range.
    pub range: Option<(Decimal, Decimal)>,
    /// Where the yield is from, in a few words.
    pub from: String,
    /// The yield an order is made for, and why, where it is a more careful one than the mean.
    pub careful: Option<(Decimal, String)>,
    /// What the parts kept of one kilogram as bought are worth, in the currency of the price.
    pub credit: Decimal,
}

impl Bought {
    /// How much to buy for `quantity` ready to use.
    ///
    /// A weight or a volume is divided by the trim yield (portions × portion size ÷ yield: Dittmer & Keefe,
    /// *Principles of Food, Beverage and Labor Cost Controls*, 9th ed., ch. 6, as quoted in study notes).
    /// Pieces are counted as bought, so nothing is trimmed off their number.
    ///
    /// # Errors
    /// A sentence when the quantity and the price are of kinds that nothing known brings together.
    pub fn purchase(&self, quantity: Quantity) -> Result<Quantity, Refusal> {
        self.purchase_at(quantity, self.trim)
    }

    /// As [`Bought::purchase`], at another trim yield.
    ///
    /// # Errors
    /// As there.
    pub fn purchase_at(&self, quantity: Quantity, trim: Decimal) -> Result<Quantity, Refusal> {
        let Quantity { kind, amount } = quantity;
        let bought = if kind == Dimension::Pieces {
            Some(amount)
        } else {
            amount.checked_div(trim)
        };
        let bought = bought.ok_or(NoSum::TooFar)?;
        let priced = self.price.kind();
        let amount = match (kind, priced) {
            _ if kind == priced => Some(bought),
            (Dimension::Volume, Dimension::Mass) => bought.checked_mul(self.read_density()?),
            (Dimension::Mass, Dimension::Volume) => bought.checked_div(self.read_density()?),
            (Dimension::Pieces, Dimension::Mass) => bought.checked_mul(self.read_piece()?),
            (Dimension::Mass, Dimension::Pieces) => bought.checked_div(self.read_piece()?),
            _ => {
                return Err(NoSum::KindsApart {
                    quantity: kind,
                    price: priced,
                }
                .into());
            }
        };
        Ok(Quantity::new(priced, amount.ok_or(NoSum::TooFar)?))
    }

    /// The more careful yield that an order for a fish is made by, and why, where there is one.
    #[must_use]
    pub fn careful(&self) -> Option<&(Decimal, String)> {
        self.fish.as_ref()?.careful.as_ref()
    }

    /// What `quantity` ready to use costs: what must be bought for it, less what is worth of the parts kept of that
    /// (Dittmer & Keefe, ch. 6, as quoted in a lecture summary). Kept parts never pay for more than the fish.
    fn cost(&self, quantity: Quantity) -> Result<Decimal, Refusal> {
        let paid = self.price.cost_of(self.purchase(quantity)?.amount)?;
        let credit = self.credit(quantity).ok_or(NoSum::TooFar)?;
        Ok((paid - credit).max(Decimal::ZERO))
    }

    /// What the parts kept are worth of the fish that `quantity` ready to use is of.
    fn credit(&self, quantity: Quantity) -> Option<Decimal> {
        match &self.fish {
            Some(fish) => quantity
                .amount
                .checked_div(self.trim)?
                .checked_mul(fish.credit),
            None => Some(Decimal::ZERO),
        }
    }

    fn read_density(&self) -> Result<Decimal, NoSum> {
        self.density.ok_or(NoSum::NoDensity)
    }

    fn read_piece(&self) -> Result<Decimal, NoSum> {
        self.piece.ok_or(NoSum::NoPieceWeight)
    }
}

impl PlateLine {
    /// What the line costs, in all covers together.
    ///
    /// # Errors
    /// A sentence when quantity and price don't fit together.
    pub fn cost(&self) -> Result<Decimal, Refusal> {
        match &self.source {
            Source::Bought(bought) => bought.cost(self.quantity),
            Source::Part(part) => {
                let times = self.batches(part)?;
                part.cost()?
                    .checked_mul(times)
                    .ok_or_else(|| NoSum::TooFar.into())
            }
        }
    }

    /// How many times the part is made to give this line's quantity.
    ///
    /// # Errors
    /// A sentence when the part is not made by what it is used by.
    pub fn batches(&self, part: &Preparation) -> Result<Decimal, Refusal> {
        match part.makes {
            Makes::Amount(made) if made.kind == self.quantity.kind => self
                .quantity
                .amount
                .checked_div(made.amount)
                .ok_or_else(|| NoSum::TooFar.into()),
            Makes::Amount(made) => Err(NoSum::PartMadeBy(part.name.clone(), made.kind).into()),
            Makes::Covers(_) => Err(NoSum::PartForCovers(part.name.clone()).into()),
        }
    }

    /// The sum behind the cost, in one line for an apprentice.
    #[must_use]
    pub fn sum(&self) -> String {
        let shown = self.quantity.show(self.unit);
        match &self.source {
            Source::Bought(bought) => {
                let Ok(purchase) = bought.purchase(self.quantity) else {
                    return shown;
                };
                let trimmed =
                    if bought.trim == Decimal::ONE || self.quantity.kind == Dimension::Pieces {
                        String::new()
                    } else {
                        let from = bought.fish.as_ref().map(|fish| format!(" ({})", fish.from));
                        format!(
                            " ÷ {}{}",
                            rounding::percent(bought.trim, 1),
                            from.unwrap_or_default()
                        )
                    };
                let to_buy = purchase.show(self.unit);
                let equals = if to_buy == shown {
                    String::new()
                } else {
                    format!(" = {to_buy} as purchased")
                };
                let less = match bought.credit(self.quantity) {
                    Some(amount) if amount > Decimal::ZERO => {
                        let currency = bought.price.currency;
                        format!(
                            ", less {} for parts kept",
                            Money { amount, currency }.show()
                        )
                    }
                    _ => String::new(),
                };
                format!("{shown}{trimmed}{equals}, at {}{less}", bought.price.show())
            }
            Source::Part(part) => match part.makes {
                Makes::Amount(made) => {
                    format!("{shown} of the {} made ahead", made.show(self.unit))
                }
                Makes::Covers(_) => shown,
            },
        }
    }
}

impl Preparation {
    /// What the measured lines and the share for the rest cost, in whole units of the currency.
    ///
    /// # Errors
    /// The sentence of the first line that can't be costed.
    pub fn cost(&self) -> Result<Decimal, Refusal> {
        let mut measured = Decimal::ZERO;
        for line in &self.lines {
            measured = measured.checked_add(line.cost()?).ok_or(NoSum::TooFar)?;
        }
        measured
            .checked_mul(Decimal::ONE.checked_add(self.share).ok_or(NoSum::TooFar)?)
            .ok_or_else(|| NoSum::TooFar.into())
    }

    /// How many covers it is for; one for a part.
    #[must_use]
    pub fn covers(&self) -> u32 {
        match self.makes {
            Makes::Covers(covers) => covers.max(1),
            Makes::Amount(_) => 1,
        }
    }
}
