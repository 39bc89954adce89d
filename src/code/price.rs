//! A price as the numbers of a code: a whole number, a power of ten, and a currency by its ISO 4217 number.

use rust_decimal::Decimal;
use rust_decimal::prelude::ToPrimitive;

use crate::trade::money::{Currency, MassPrice, PriceUnit};

/// Largest figure: 17 bits.
const MOST: u32 = (1 << 17) - 1;

/// Hundredths, tenths, units, hundreds: the number of each is its place here.
const POWERS: [Decimal; 4] = [
    Decimal::from_parts(1, 0, 0, false, 2),
    Decimal::from_parts(1, 0, 0, false, 1),
    Decimal::ONE,
    Decimal::ONE_HUNDRED,
];

/// Currencies in the order of their short numbers. Only ever added to, at the end.
const NUMBERED: [Currency; 25] = [
    Currency::Aud,
    Currency::Brl,
    Currency::Cad,
    Currency::Chf,
    Currency::Czk,
    Currency::Dkk,
    Currency::Eur,
    Currency::Gbp,
    Currency::Hkd,
    Currency::Huf,
    Currency::Inr,
    Currency::Isk,
    Currency::Jpy,
    Currency::Krw,
    Currency::Mxn,
    Currency::Nok,
    Currency::Nzd,
    Currency::Pln,
    Currency::Sek,
    Currency::Sgd,
    Currency::Thb,
    Currency::Try,
    Currency::Usd,
    Currency::Vnd,
    Currency::Zar,
];

/// A price in numbers.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Priced {
    pub(super) figure: u32,
    pub(super) power: u8,
    pub(super) per_pound: bool,
    pub(super) currency: Currency,
}

/// The price in the finest power that holds it exactly; `None` when none does.
pub(super) fn priced(price: MassPrice) -> Option<Priced> {
    let amount = price.amount();
    let (power, figure) = (0u8..).zip(POWERS).find_map(|(number, power)| {
        let figure = amount.checked_div(power)?;
        let figure = figure.is_integer().then_some(figure)?.to_u32()?;
        (figure <= MOST).then_some((number, figure))
    })?;
    Some(Priced {
        figure,
        power,
        per_pound: price.per() == PriceUnit::Pound,
        currency: price.currency(),
    })
}

/// The price behind the numbers; `None` when there is no such price.
pub(super) fn price(priced: Priced) -> Option<MassPrice> {
    let power = POWERS.get(usize::from(priced.power))?;
    let amount = Decimal::from(priced.figure).checked_mul(*power)?;
    let per = if priced.per_pound {
        PriceUnit::Pound
    } else {
        PriceUnit::Kilo
    };
    MassPrice::new(amount, priced.currency, per).ok()
}

/// The currency with this ISO 4217 number, if the app knows it.
pub(super) fn currency(numeric_code: u16) -> Option<Currency> {
    Currency::ALL
        .into_iter()
        .find(|currency| numeric(*currency) == numeric_code)
}

/// The short number of a currency.
pub(super) fn short(currency: Currency) -> Option<u32> {
    let mut numbered = (0..).zip(NUMBERED);
    let number = numbered.find(|(_, known)| *known == currency);
    number.map(|(number, _)| number)
}

/// The currency with this short number, if the app knows it.
pub(super) fn of_short(number: u32) -> Option<Currency> {
    NUMBERED.get(usize::try_from(number).ok()?).copied()
}

/// The three-digit number of a currency in ISO 4217.
#[must_use]
pub fn numeric(currency: Currency) -> u16 {
    match currency {
        Currency::Aud => 36,
        Currency::Brl => 986,
        Currency::Cad => 124,
        Currency::Chf => 756,
        Currency::Czk => 203,
        Currency::Dkk => 208,
        Currency::Eur => 978,
        Currency::Gbp => 826,
        Currency::Hkd => 344,
        Currency::Huf => 348,
        Currency::Inr => 356,
        Currency::Isk => 352,
        Currency::Jpy => 392,
        Currency::Krw => 410,
        Currency::Mxn => 484,
        Currency::Nok => 578,
        Currency::Nzd => 554,
        Currency::Pln => 985,
        Currency::Sek => 752,
        Currency::Sgd => 702,
        Currency::Thb => 764,
        Currency::Try => 949,
        Currency::Usd => 840,
        Currency::Vnd => 704,
        Currency::Zar => 710,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_price_is_carried_exactly_or_not_at_all() {
        for (amount, expected) in [
            ("15.40", Some((1_540, 0))),
            ("15.4", Some((1_540, 0))),
            ("0.01", Some((1, 0))),
            ("1310.71", Some((131_071, 0))),
            ("1310.80", Some((13_108, 1))),
            ("1310.72", None),
            ("13108", Some((13_108, 2))),
            ("250000", Some((2_500, 3))),
            ("10000000", Some((100_000, 3))),
            ("250010", None),
            ("12.345", None),
        ] {
            let given =
                MassPrice::new(amount.parse().unwrap(), Currency::Vnd, PriceUnit::Pound).unwrap();
            let priced = priced(given);
            assert_eq!(priced.map(|p| (p.figure, p.power)), expected, "{amount}");
            if let Some(priced) = priced {
                assert_eq!(priced.currency, Currency::Vnd);
                assert_eq!(price(priced), Some(given));
            }
        }
    }

    #[test]
    fn every_currency_has_both_numbers() {
        for known in Currency::ALL {
            assert_eq!(currency(numeric(known)), Some(known));
            assert_eq!(short(known).and_then(of_short), Some(known));
        }
        assert_eq!(of_short(25), None);
    }
}
