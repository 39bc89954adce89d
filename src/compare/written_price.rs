//! A price as people write it in a table: with a sign of money before or after it, and what it is for.

use crate::trade::money::{Currency, PriceUnit};

/// A price taken apart.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct WrittenPrice {
    /// The figure alone, as written.
    pub(super) figure: String,
    /// What it is paid in, where a sign says so.
    pub(super) currency: Option<Currency>,
    /// What it is for, where it says so.
    pub(super) per: Option<PriceUnit>,
}

/// Takes a price apart. A sign that several currencies share is that of `usual` where it is one of them.
pub(super) fn taken_apart(text: &str, usual: Currency) -> WrittenPrice {
    let text = text.trim();
    let (text, per) = match text.split_once('/') {
        Some((price, unit)) => match unit.trim().to_lowercase().as_str() {
            "kg" | "kilo" => (price, Some(PriceUnit::Kilo)),
            "lb" | "pound" => (price, Some(PriceUnit::Pound)),
            _ => (text, None),
        },
        None => (text, None),
    };
    let is_figure = |c: char| c.is_ascii_digit() || matches!(c, '.' | ',' | '-' | '\u{2212}');
    let text = text.trim();
    let start = text.find(is_figure).unwrap_or(0);
    let end = text.rfind(is_figure).map_or(text.len(), |at| {
        at.saturating_add(
            text.get(at..)
                .and_then(|t| t.chars().next())
                .map_or(1, char::len_utf8),
        )
    });
    let (before, after) = (text.get(..start), text.get(end..));
    let sign = match (before.map(str::trim), after.map(str::trim)) {
        (Some(sign), Some("")) | (Some(""), Some(sign)) => sign,
        _ => "?",
    };
    match currency(sign, usual) {
        _ if sign.is_empty() => WrittenPrice {
            figure: text.to_owned(),
            currency: None,
            per,
        },
        Some(currency) => WrittenPrice {
            figure: text.get(start..end).unwrap_or(text).to_owned(),
            currency: Some(currency),
            per,
        },
        // What can't be read stays as it was written, for the sentence about it.
        None => WrittenPrice {
            figure: text.to_owned(),
            currency: None,
            per,
        },
    }
}

fn currency(sign: &str, usual: Currency) -> Option<Currency> {
    let shared = |end: &str| usual.symbol().ends_with(end) || usual.code().ends_with(end);
    let is = |of: &Currency| of.symbol() == sign || of.code().eq_ignore_ascii_case(sign);
    match sign {
        "$" if shared("$") => Some(usual),
        "kr" | "kr." | "Kr" if shared("K") => Some(usual),
        _ => Currency::ALL.into_iter().find(is),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn signs_of_money_are_read_before_and_after() {
        use Currency::{Aud, Eur, Gbp, Nok, Usd};
        let cases = [
            ("15,40", Eur, "15,40", None, None),
            ("€15.40", Eur, "15.40", Some(Eur), None),
            ("15,40 €", Usd, "15,40", Some(Eur), None),
            ("EUR 15.40", Usd, "15.40", Some(Eur), None),
            ("£ 12", Eur, "12", Some(Gbp), None),
            ("$9.50/lb", Eur, "9.50", Some(Usd), Some(PriceUnit::Pound)),
            ("$9.50", Aud, "9.50", Some(Aud), None),
            ("120 kr", Nok, "120", Some(Nok), None),
            (
                "1 234,50 €/kg",
                Eur,
                "1 234,50",
                Some(Eur),
                Some(PriceUnit::Kilo),
            ),
            ("dear", Eur, "dear", None, None),
            ("", Eur, "", None, None),
            ("about 12 €", Eur, "about 12 €", None, None),
        ];
        for (text, usual, figure, currency, per) in cases {
            let wanted = WrittenPrice {
                figure: figure.to_owned(),
                currency,
                per,
            };
            assert_eq!(taken_apart(text, usual), wanted, "{text}");
        }
    }
}
