//! A share as a cook types it: in percent.

use rust_decimal::Decimal;

use super::refusals::NoPercentage;
use crate::base::refusal::Refusal;
use crate::trade::figure::{self, NoFigure};

/// Reads a share typed as a percentage, such as a trim yield.
///
/// `what` heads the sentence: "The trim yield".
///
/// # Errors
/// One sentence when it is no figure, zero, negative or over `most` percent.
pub fn parse_percent(text: &str, what: &str, most: u32) -> Result<Decimal, Refusal> {
    let text = text.trim();
    let text = text.strip_suffix('%').unwrap_or(text);
    let too_much = || NoPercentage::TooMuch(what.to_owned(), most);
    let figure = figure::read(text, 3).map_err(|fault| match fault {
        NoFigure::Large => too_much(),
        fault => NoPercentage::NoFigure(what.to_owned(), fault),
    })?;
    if figure > Decimal::from(most) {
        return Err(too_much().into());
    }
    Ok(figure / Decimal::ONE_HUNDRED)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_percentage_is_a_share_or_a_sentence() {
        for (text, wanted) in [
            ("44", Ok("0.44")),
            ("46,6 %", Ok("0.466")),
            ("100", Ok("1")),
            ("0", Ok("0")),
            ("100.1", Err("can't be over 100 %")),
            ("999999999999999999999", Err("can't be over 100 %")),
            ("-4", Err("can't be below zero")),
            ("most of it", Err("a percentage in digits")),
            ("", Err("a percentage in digits")),
            ("1.2345", Err("three decimals")),
        ] {
            match (parse_percent(text, "The trim yield", 100), wanted) {
                (Ok(share), Ok(wanted)) => assert_eq!(share, wanted.parse().unwrap(), "{text}"),
                (Err(refusal), Err(said)) => {
                    assert!(refusal.to_string().contains(said), "{text}: {refusal}");
                }
                (got, _) => panic!("{text}: {got:?}"),
            }
        }
    }
}
