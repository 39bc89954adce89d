//! A price of fish that is most likely off by ten or by a hundred, to be asked about.
//!
//! Most fish cost between 2 and 100 euros a kilo: common practice, no source. What a euro is worth elsewhere is from
//! memory, not verified, and to one figure: it decides no cost, only whether a question is asked.

use rust_decimal::Decimal;

use super::money::{Currency, MassPrice};

/// The lower end of the window, in euros a kilo.
pub const CHEAPEST: Decimal = Decimal::TWO;
/// Its upper end.
pub const DEAREST: Decimal = Decimal::ONE_HUNDRED;

/// A price outside the window.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct OddPrice {
    pub(super) price: MassPrice,
    pub(super) is_dear: bool,
    likely: Option<MassPrice>,
}

impl OddPrice {
    /// The same figures with the decimal mark one or two places on, where that is a price of fish.
    #[must_use]
    pub fn likely(self) -> Option<MassPrice> {
        self.likely
    }
}

/// About how many units of a currency a euro is worth.
fn to_a_euro(currency: Currency) -> Decimal {
    Decimal::from(match currency {
        Currency::Chf | Currency::Eur | Currency::Gbp | Currency::Usd => 1,
        Currency::Aud | Currency::Cad | Currency::Nzd | Currency::Sgd => 2,
        Currency::Pln => 4,
        Currency::Brl => 6,
        Currency::Dkk => 7,
        Currency::Hkd => 9,
        Currency::Nok | Currency::Sek => 10,
        Currency::Mxn | Currency::Zar => 20,
        Currency::Czk => 25,
        Currency::Thb | Currency::Try => 40,
        Currency::Inr => 90,
        Currency::Isk | Currency::Jpy => 150,
        Currency::Huf => 400,
        Currency::Krw => 1500,
        Currency::Vnd => 30_000,
    })
}

/// Whether a price lies below the window, in it, or above.
fn side(price: MassPrice) -> std::cmp::Ordering {
    let euros = price.per_kilo() / to_a_euro(price.currency());
    if euros < CHEAPEST {
        std::cmp::Ordering::Less
    } else if euros > DEAREST {
        std::cmp::Ordering::Greater
    } else {
        std::cmp::Ordering::Equal
    }
}

/// What is to be asked about a price; `None` when there is nothing to ask.
#[must_use]
pub fn doubt(price: MassPrice) -> Option<OddPrice> {
    let is_dear = match side(price) {
        std::cmp::Ordering::Less => false,
        std::cmp::Ordering::Greater => true,
        std::cmp::Ordering::Equal => return None,
    };
    let shifts = [Decimal::TEN, Decimal::ONE_HUNDRED];
    let likely = shifts.into_iter().find_map(|by| {
        let amount = if is_dear {
            price.amount().checked_div(by)
        } else {
            price.amount().checked_mul(by)
        };
        MassPrice::new(amount?.normalize(), price.currency(), price.per())
            .ok()
            .filter(|shifted| side(*shifted).is_eq())
    });
    Some(OddPrice {
        price,
        is_dear,
        likely,
    })
}

#[cfg(test)]
mod tests {
    use super::super::money::PriceUnit;
    use super::*;

    /// The demonstration's 15.40 and the 18.90 of the worked example, each off by ten and by a hundred.
    #[test]
    fn a_price_off_by_ten_or_a_hundred_is_asked_about() {
        for (typed, currency, per, likely) in [
            ("15.40", Currency::Eur, PriceUnit::Kilo, None),
            ("154", Currency::Eur, PriceUnit::Kilo, Some("15.4")),
            ("1540", Currency::Eur, PriceUnit::Kilo, Some("15.4")),
            ("1.54", Currency::Eur, PriceUnit::Kilo, Some("15.4")),
            ("0.154", Currency::Eur, PriceUnit::Kilo, Some("15.4")),
            ("189.0", Currency::Usd, PriceUnit::Kilo, Some("18.9")),
            ("1890", Currency::Usd, PriceUnit::Kilo, Some("18.9")),
            ("7.00", Currency::Usd, PriceUnit::Pound, None),
            ("70.00", Currency::Usd, PriceUnit::Pound, Some("7")),
            ("0.70", Currency::Usd, PriceUnit::Pound, Some("7")),
            ("2400", Currency::Jpy, PriceUnit::Kilo, None),
            ("24", Currency::Jpy, PriceUnit::Kilo, Some("2400")),
            ("250000", Currency::Vnd, PriceUnit::Kilo, None),
        ] {
            let price = MassPrice::new(typed.parse().unwrap(), currency, per).unwrap();
            let asked = doubt(price).map(|odd| odd.likely().unwrap().amount().to_string());
            assert_eq!(asked.as_deref(), likely, "{typed} {currency:?}");
        }
    }

    #[test]
    fn a_price_that_no_shift_mends_is_asked_about_all_the_same() {
        let price = MassPrice::new(Decimal::from(9_000_000), Currency::Eur, PriceUnit::Kilo);
        let odd = doubt(price.unwrap()).unwrap();
        assert_eq!(odd.likely(), None);
        assert!(odd.to_string().contains("is a lot for fish"), "{odd}");
    }
}
