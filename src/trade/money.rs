//! Money and prices by mass, exact until shown.
//!
//! A price by volume or by piece will stand beside [`MassPrice`], with its own unit.

use rust_decimal::Decimal;
use serde::{Deserialize, Serialize};

pub use super::currency::Currency;
use super::figure;
use super::mass::Mass;
use super::refusals::NoPrice;
use super::rounding;
use crate::base::refusal::Refusal;

/// The international avoirdupois pound in kilograms, exactly.
const KILOS_PER_POUND: Decimal = Decimal::from_parts(45_359_237, 0, 0, false, 8);

/// The signs of money: a symbol that ends otherwise is a word, and stands apart from its figure. Whether a letter is one
/// is asked of tables that the page would bring along for this alone.
const SIGNS: [char; 8] = ['$', '£', '¥', '₩', '₫', '€', '₹', '₺'];

/// The dearest price taken in, in any currency: past any fish, and small enough for exact arithmetic.
const DEAREST: Decimal = Decimal::from_parts(10_000_000, 0, 0, false, 0);

/// The most decimals of a price, kept or read from a stored one.
const PRICE_SCALE: u32 = 4;

/// The digits past the smallest coin that a mass in whole milligrams bears out.
const NOISE_DIGITS: u32 = 4;

/// An amount of money, exact: a rate may hold many more digits than a purse.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Money {
    /// The amount in whole units of the currency, unrounded.
    pub amount: Decimal,
    /// The currency it is in.
    pub currency: Currency,
}

impl Money {
    /// The amount to the smallest coin: `€6.87`. Rounded here and nowhere before.
    #[must_use]
    pub fn show(self) -> String {
        self.with_digits(self.currency.minor_digits())
    }

    /// As [`Money::show`], with two digits more for an amount under ten of the smallest coin,
    /// such as the cost of one gram.
    #[must_use]
    pub fn show_fine(self) -> String {
        let minor = self.currency.minor_digits();
        let small = self.amount.abs() < Decimal::TEN / Decimal::from(10_u32.pow(minor));
        self.with_digits(if small { minor + 2 } else { minor })
    }

    fn with_digits(self, digits: u32) -> String {
        // A mass in ounces is kept in whole milligrams, so an amount may lie some hundred-millionths beside
        // the true one: a half of the smallest coin must not tip over for that.
        let amount = rounding::half_away(self.amount, digits + NOISE_DIGITS);
        let rounded = rounding::half_away(amount, digits);
        let sign = if rounded < Decimal::ZERO {
            "\u{2212}"
        } else {
            ""
        };
        let symbol = self.currency.symbol();
        let gap = if symbol.ends_with(SIGNS) { "" } else { " " };
        format!(
            "{sign}{symbol}{gap}{}",
            rounding::written(rounded.abs(), digits)
        )
    }
}

/// The mass a price is for.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum PriceUnit {
    /// One kilogram.
    #[default]
    Kilo,
    /// One avoirdupois pound.
    Pound,
}

impl PriceUnit {
    /// Both, in the order a picker shows them.
    pub const ALL: [Self; 2] = [Self::Kilo, Self::Pound];

    /// The name a cook knows it by.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::Kilo => "kilo",
            Self::Pound => "pound",
        }
    }

    /// Its symbol.
    #[must_use]
    pub fn symbol(self) -> &'static str {
        match self {
            Self::Kilo => "kg",
            Self::Pound => "lb",
        }
    }
}

/// A price by mass. Always above zero, at most ten million, with at most four decimals; a stored
/// price outside these limits is not read.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(try_from = "WrittenPrice")]
pub struct MassPrice {
    amount: Decimal,
    currency: Currency,
    per: PriceUnit,
}

/// A price as stored, before its limits are checked.
#[derive(Deserialize)]
struct WrittenPrice {
    amount: Decimal,
    currency: Currency,
    per: PriceUnit,
}

impl TryFrom<WrittenPrice> for MassPrice {
    type Error = Refusal;

    fn try_from(price: WrittenPrice) -> Result<Self, Refusal> {
        Self::new(price.amount, price.currency, price.per)
    }
}

impl MassPrice {
    /// `amount` of `currency` for each `per`.
    ///
    /// # Errors
    /// A sentence when the amount is zero or less, over ten million, or has more than four decimals.
    pub fn new(amount: Decimal, currency: Currency, per: PriceUnit) -> Result<Self, Refusal> {
        within_limits(amount)?;
        if amount.normalize().scale() > PRICE_SCALE {
            return Err(NoPrice::TooFine.into());
        }
        Ok(Self {
            amount,
            currency,
            per,
        })
    }

    /// The amount as given, for each [`MassPrice::per`].
    #[must_use]
    pub fn amount(self) -> Decimal {
        self.amount
    }

    /// The currency it is in.
    #[must_use]
    pub fn currency(self) -> Currency {
        self.currency
    }

    /// The mass it is for.
    #[must_use]
    pub fn per(self) -> PriceUnit {
        self.per
    }

    /// The amount for one kilogram: exact for a price by the kilo, to 28 digits for one by the pound.
    #[must_use]
    pub fn per_kilo(self) -> Decimal {
        match self.per {
            PriceUnit::Kilo => self.amount,
            PriceUnit::Pound => self.amount / KILOS_PER_POUND,
        }
    }

    /// What `mass` costs at this price.
    #[must_use]
    pub fn cost_of(self, mass: Mass) -> Money {
        // Ten million times the widest mass stays far inside a decimal's 28 digits.
        let kilos = self.amount * mass.in_kilos();
        let amount = match self.per {
            PriceUnit::Kilo => kilos,
            PriceUnit::Pound => kilos / KILOS_PER_POUND,
        };
        Money {
            amount,
            currency: self.currency,
        }
    }

    /// The amount as it is typed: with the decimals of the smallest coin, or more where it has more.
    #[must_use]
    pub fn typed(self) -> String {
        let amount = self.amount.normalize();
        let digits = self.currency.minor_digits().max(amount.scale());
        rounding::written(amount, digits)
    }

    /// The price as on an invoice: `€15.40 per kg`.
    #[must_use]
    pub fn show(self) -> String {
        let money = Money {
            amount: self.amount,
            currency: self.currency,
        };
        format!("{} per {}", money.show_fine(), self.per.symbol())
    }
}

/// Reads the amount of a price as typed, with a point or a comma for the decimals.
///
/// # Errors
/// One sentence when the text is empty, zero, negative, no figure, has more than two decimals (so that
/// a mark between thousands is never taken for a decimal mark) or is over ten million.
pub fn parse_amount(text: &str) -> Result<Decimal, Refusal> {
    let amount = figure::read(text, 2).map_err(NoPrice::NoFigure)?;
    within_limits(amount)?;
    Ok(amount)
}

fn within_limits(amount: Decimal) -> Result<(), NoPrice> {
    if amount <= Decimal::ZERO {
        Err(NoPrice::NotAboveZero)
    } else if amount > DEAREST {
        Err(NoPrice::TooDear)
    } else {
        Ok(())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn money(amount: &str, currency: Currency) -> Money {
        Money {
            amount: amount.parse().unwrap(),
            currency,
        }
    }

    #[test]
    fn a_symbol_that_is_a_word_stands_apart() {
        for currency in Currency::ALL {
            let symbol = currency.symbol();
            let apart = money("1", currency).show().contains(' ');
            assert_eq!(apart, symbol.ends_with(char::is_alphabetic), "{symbol}");
        }
    }

    #[test]
    fn money_is_rounded_only_when_shown() {
        for (amount, currency, plain, fine) in [
            ("6.8727", Currency::Eur, "€6.87", "€6.87"),
            ("6.875", Currency::Eur, "€6.88", "€6.88"),
            ("0.042954", Currency::Gbp, "£0.04", "£0.0430"),
            ("-8", Currency::Usd, "\u{2212}$8.00", "\u{2212}$8.00"),
            ("-0.001", Currency::Usd, "$0.00", "\u{2212}$0.0010"),
            ("1249.5", Currency::Jpy, "¥1250", "¥1250"),
            ("2.345", Currency::Jpy, "¥2", "¥2.35"),
            ("0.7159", Currency::Eur, "€0.72", "€0.72"),
            ("118", Currency::Sek, "SEK 118.00", "SEK 118.00"),
            ("4.2", Currency::Pln, "zł 4.20", "zł 4.20"),
        ] {
            let money = money(amount, currency);
            assert_eq!(
                (money.show().as_str(), money.show_fine().as_str()),
                (plain, fine)
            );
        }
    }

    #[test]
    fn a_price_is_read_as_typed_or_refused_with_its_own_sentence() {
        for (text, wanted) in [
            ("15.40", Ok("15.40")),
            ("15,4", Ok("15.4")),
            ("450 000", Ok("450000")),
            ("", Err("Type the price")),
            ("0", Err("above zero")),
            ("0,00", Err("above zero")),
            ("-4", Err("below zero")),
            ("€4", Err("without the currency")),
            ("1,234.50", Err("two decimal marks")),
            ("1 5", Err("a gap inside")),
            ("1,234", Err("between thousands")),
            ("10000000.01", Err("over ten million")),
            ("99999999999999999999", Err("over ten million")),
        ] {
            match (parse_amount(text), wanted) {
                (Ok(amount), Ok(wanted)) => assert_eq!(amount.to_string(), wanted),
                (Err(refusal), Err(said)) => {
                    assert!(refusal.to_string().contains(said), "{text}: {refusal}");
                }
                (got, _) => panic!("{text}: {got:?}"),
            }
        }
    }

    #[test]
    fn a_price_by_the_pound_costs_a_pound_what_it_says() {
        let price = MassPrice::new(Decimal::new(130, 2), Currency::Usd, PriceUnit::Pound).unwrap();
        let cost = price.cost_of(Mass::from_mg(4_535_924)); // ten pounds, to the milligram
        assert_eq!(rounding::half_away(cost.amount, 5), Decimal::new(13, 0));
        assert_eq!(rounding::written(price.per_kilo(), 4), "2.8660");
        assert_eq!(price.show(), "$1.30 per lb");
    }

    #[test]
    fn a_stored_price_outside_the_limits_is_not_read() {
        let price = |amount: &str| {
            serde_json::from_str::<MassPrice>(&format!(
                r#"{{"amount":"{amount}","currency":"EUR","per":"kilo"}}"#
            ))
        };
        let kept = price("15.40").unwrap();
        assert_eq!(
            serde_json::to_string(&kept).unwrap(),
            r#"{"amount":"15.40","currency":"EUR","per":"kilo"}"#
        );
        for amount in ["0", "-1", "10000001", "0.00001", "many"] {
            assert!(price(amount).is_err(), "{amount}");
        }
    }
}
