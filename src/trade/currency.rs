//! The currencies a fish is bought in, by their ISO 4217 codes.

use serde::{Deserialize, Serialize};

/// A currency by its ISO 4217 code, which is also how it is stored.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "UPPERCASE")]
#[expect(
    missing_docs,
    reason = "each variant is its ISO 4217 code; name() says the rest"
)]
pub enum Currency {
    Aud,
    Brl,
    Cad,
    Chf,
    Czk,
    Dkk,
    #[default]
    Eur,
    Gbp,
    Hkd,
    Huf,
    Inr,
    Isk,
    Jpy,
    Krw,
    Mxn,
    Nok,
    Nzd,
    Pln,
    Sek,
    Sgd,
    Thb,
    Try,
    Usd,
    Vnd,
    Zar,
}

impl Currency {
    /// Every currency, by code.
    pub const ALL: [Self; 25] = [
        Self::Aud,
        Self::Brl,
        Self::Cad,
        Self::Chf,
        Self::Czk,
        Self::Dkk,
        Self::Eur,
        Self::Gbp,
        Self::Hkd,
        Self::Huf,
        Self::Inr,
        Self::Isk,
        Self::Jpy,
        Self::Krw,
        Self::Mxn,
        Self::Nok,
        Self::Nzd,
        Self::Pln,
        Self::Sek,
        Self::Sgd,
        Self::Thb,
        Self::Try,
        Self::Usd,
        Self::Vnd,
        Self::Zar,
    ];

    /// Code, name, digits of the minor unit (ISO 4217) and the symbol; the code where several
    /// countries share a symbol.
    fn facts(self) -> (&'static str, &'static str, u32, &'static str) {
        match self {
            Self::Aud => ("AUD", "Australian dollar", 2, "A$"),
            Self::Brl => ("BRL", "Brazilian real", 2, "R$"),
            Self::Cad => ("CAD", "Canadian dollar", 2, "C$"),
            Self::Chf => ("CHF", "Swiss franc", 2, "CHF"),
            Self::Czk => ("CZK", "Czech koruna", 2, "Kč"),
            Self::Dkk => ("DKK", "Danish krone", 2, "DKK"),
            Self::Eur => ("EUR", "euro", 2, "€"),
            Self::Gbp => ("GBP", "pound sterling", 2, "£"),
            Self::Hkd => ("HKD", "Hong Kong dollar", 2, "HK$"),
            Self::Huf => ("HUF", "Hungarian forint", 2, "Ft"),
            Self::Inr => ("INR", "Indian rupee", 2, "₹"),
            Self::Isk => ("ISK", "Icelandic króna", 0, "ISK"),
            Self::Jpy => ("JPY", "Japanese yen", 0, "¥"),
            Self::Krw => ("KRW", "South Korean won", 0, "₩"),
            Self::Mxn => ("MXN", "Mexican peso", 2, "MX$"),
            Self::Nok => ("NOK", "Norwegian krone", 2, "NOK"),
            Self::Nzd => ("NZD", "New Zealand dollar", 2, "NZ$"),
            Self::Pln => ("PLN", "Polish złoty", 2, "zł"),
            Self::Sek => ("SEK", "Swedish krona", 2, "SEK"),
            Self::Sgd => ("SGD", "Singapore dollar", 2, "S$"),
            Self::Thb => ("THB", "Thai baht", 2, "THB"),
            Self::Try => ("TRY", "Turkish lira", 2, "₺"),
            Self::Usd => ("USD", "US dollar", 2, "$"),
            Self::Vnd => ("VND", "Vietnamese đồng", 0, "₫"),
            Self::Zar => ("ZAR", "South African rand", 2, "R"),
        }
    }

    /// The ISO 4217 code.
    #[must_use]
    pub fn code(self) -> &'static str {
        self.facts().0
    }

    /// The currency's name.
    #[must_use]
    pub fn name(self) -> &'static str {
        self.facts().1
    }

    /// How many decimals its smallest coin in the standard has.
    #[must_use]
    pub fn minor_digits(self) -> u32 {
        self.facts().2
    }

    /// What is written before an amount.
    #[must_use]
    pub fn symbol(self) -> &'static str {
        self.facts().3
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_currency_is_stored_by_its_code() {
        for currency in Currency::ALL {
            let stored = serde_json::to_string(&currency).unwrap();
            assert_eq!(stored, format!("\"{}\"", currency.code()));
        }
    }
}
