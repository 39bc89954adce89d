//! A figure as a cook types it: a point or a comma for the decimals, a space between thousands.

use rust_decimal::Decimal;

/// Why a text is no figure. Each field says it in its own words.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum NoFigure {
    /// Nothing was typed.
    Empty,
    /// It starts with a minus sign.
    Negative,
    /// Something in it is neither a digit, a decimal mark nor a space.
    Letters,
    /// More than one decimal mark.
    Marks,
    /// A space that does not separate thousands.
    Spaces,
    /// More decimals than the field takes.
    Decimals,
    /// Too many digits for any weight or price.
    Large,
}

/// Reads a figure of zero or more with at most `decimals` digits after the mark, exactly.
pub(crate) fn read(text: &str, decimals: usize) -> Result<Decimal, NoFigure> {
    let text = text.trim();
    if text.is_empty() {
        return Err(NoFigure::Empty);
    }
    if text.starts_with(['-', '\u{2212}']) {
        return Err(NoFigure::Negative);
    }
    let is_mark = |c: char| matches!(c, '.' | ',');
    if !text
        .chars()
        .all(|c| c.is_ascii_digit() || is_mark(c) || c.is_whitespace())
        || !text.contains(|c: char| c.is_ascii_digit())
    {
        return Err(NoFigure::Letters);
    }
    let (whole, fraction) = text.split_once(is_mark).unwrap_or((text, ""));
    if fraction.contains(is_mark) {
        return Err(NoFigure::Marks);
    }
    if fraction.contains(char::is_whitespace) || !spaced_in_thousands(whole) {
        return Err(NoFigure::Spaces);
    }
    if fraction.len() > decimals {
        return Err(NoFigure::Decimals);
    }
    let digits: String = whole
        .chars()
        .filter(char::is_ascii_digit)
        .chain(fraction.chars())
        .collect();
    let digits: i64 = digits.parse().map_err(|_| NoFigure::Large)?;
    let scale = u32::try_from(fraction.len()).map_err(|_| NoFigure::Decimals)?;
    Decimal::try_new(digits, scale).map_err(|_| NoFigure::Decimals)
}

/// `1 250` and `12 500` are spaced in thousands; `1 6` may be two figures and is not read as one.
fn spaced_in_thousands(whole: &str) -> bool {
    if whole.ends_with(char::is_whitespace) {
        return false;
    }
    let mut groups = whole.split_whitespace();
    let first = groups.next().unwrap_or_default();
    let mut rest = groups.peekable();
    rest.peek().is_none() || (first.len() <= 3 && rest.all(|group| group.len() == 3))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn figures_are_read_as_they_are_typed() {
        for (text, wanted) in [
            ("648", Ok("648")),
            (" 648 ", Ok("648")),
            ("0.648", Ok("0.648")),
            ("0,648", Ok("0.648")),
            (".5", Ok("0.5")),
            ("5.", Ok("5")),
            ("1 250", Ok("1250")),
            ("1\u{a0}250,5", Ok("1250.5")),
            ("0", Ok("0")),
            ("", Err(NoFigure::Empty)),
            ("  ", Err(NoFigure::Empty)),
            ("-5", Err(NoFigure::Negative)),
            ("\u{2212}5", Err(NoFigure::Negative)),
            ("five", Err(NoFigure::Letters)),
            ("٣", Err(NoFigure::Letters)),
            ("1e3", Err(NoFigure::Letters)),
            (",", Err(NoFigure::Letters)),
            ("1,234.5", Err(NoFigure::Marks)),
            ("1 6", Err(NoFigure::Spaces)),
            ("1 .5", Err(NoFigure::Spaces)),
            ("1. 5", Err(NoFigure::Spaces)),
            ("1.2345", Err(NoFigure::Decimals)),
            ("99999999999999999999", Err(NoFigure::Large)),
        ] {
            let wanted = wanted.map(|text: &str| text.parse::<Decimal>().unwrap());
            assert_eq!(read(text, 3), wanted, "{text:?}");
        }
    }
}
