//! Mass in whole milligrams, so that nothing is lost between the scale and the cost.

use rust_decimal::Decimal;
use rust_decimal::prelude::ToPrimitive;
use serde::{Deserialize, Serialize};

use super::figure;
use super::refusals::NoWeight;
use super::rounding;
pub use super::scale::Scale;
use crate::base::refusal::Refusal;

const MG_PER_GRAM: i64 = 1_000;
const MG_PER_KILO: i64 = 1_000_000;

/// The international avoirdupois pound in milligrams: 0.45359237 kg exactly.
const MG_PER_POUND: Decimal = Decimal::from_parts(45_359_237, 0, 0, false, 2);

/// The avoirdupois ounce in milligrams: a sixteenth of the pound, exactly.
pub(super) const MG_PER_OUNCE: Decimal = Decimal::from_parts(2_579_719_349, 6, 0, false, 6);

/// A mass in whole milligrams.
#[derive(
    Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize,
)]
#[serde(transparent)]
pub struct Mass(i64);

impl Mass {
    /// No mass at all.
    pub const ZERO: Self = Self(0);

    /// The heaviest mass taken in: 100 kg, past any fish on a kitchen bench.
    pub const HEAVIEST: Self = Self(100 * MG_PER_KILO);

    /// `mg` milligrams.
    #[must_use]
    pub const fn from_mg(mg: i64) -> Self {
        Self(mg)
    }

    /// The mass in milligrams.
    #[must_use]
    pub const fn mg(self) -> i64 {
        self.0
    }

    /// The two together; `None` past the range of the type.
    #[must_use]
    pub fn checked_add(self, other: Self) -> Option<Self> {
        self.0.checked_add(other.0).map(Self)
    }

    /// What is left after taking `other` away, negative when `other` is the heavier;
    /// `None` past the range of the type.
    #[must_use]
    pub fn checked_sub(self, other: Self) -> Option<Self> {
        self.0.checked_sub(other.0).map(Self)
    }

    /// The mass in kilograms, exactly.
    #[must_use]
    pub fn in_kilos(self) -> Decimal {
        Decimal::new(self.0, 6)
    }

    /// The mass in avoirdupois pounds, to the 28 digits of a decimal.
    #[must_use]
    pub fn in_pounds(self) -> Decimal {
        Decimal::from(self.0) / MG_PER_POUND
    }

    fn in_ounces(self) -> Decimal {
        Decimal::from(self.0) / MG_PER_OUNCE
    }
}

/// How a mass is typed and shown.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Unit {
    /// Grams.
    #[default]
    Gram,
    /// Kilograms.
    Kilo,
    /// Avoirdupois ounces.
    Ounce,
    /// Avoirdupois pounds and ounces, as `1 lb 6.5 oz`.
    PoundOunce,
}

impl Unit {
    /// Every unit, in the order a picker shows them.
    pub const ALL: [Self; 4] = [Self::Gram, Self::Kilo, Self::Ounce, Self::PoundOunce];

    /// The name a cook knows it by.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::Gram => "grams",
            Self::Kilo => "kilos",
            Self::Ounce => "ounces",
            Self::PoundOunce => "pounds and ounces",
        }
    }

    /// The symbol written after a figure.
    #[must_use]
    pub fn symbol(self) -> &'static str {
        match self {
            Self::Gram => "g",
            Self::Kilo => "kg",
            Self::Ounce => "oz",
            Self::PoundOunce => "lb oz",
        }
    }

    /// The most decimals a figure in this unit may have. Grams take two, so that a comma or a point
    /// typed between thousands is refused and not taken for a decimal mark.
    fn decimals(self) -> usize {
        match self {
            Self::Gram => 2,
            Self::Kilo | Self::Ounce | Self::PoundOunce => 3,
        }
    }
}

/// Reads a mass as typed, with or without the unit's own symbol after it.
///
/// A point or a comma marks the decimals. Pounds and ounces are typed `1 lb 6.5`; either part may be
/// left out (`1 lb`, `6.5`). Ounces are rounded to the nearest milligram.
///
/// # Errors
/// One sentence when the text is empty, zero, negative, no figure, too precise for the unit, has
/// sixteen ounces or more beside pounds, or is over [`Mass::HEAVIEST`].
pub fn parse(text: &str, unit: Unit) -> Result<Mass, Refusal> {
    Ok(whole_mg(exact_mg(text, unit)?)?)
}

/// As [`parse`], with `+` between what was weighed one after the other. The parts are put together exactly, and only
/// the sum is rounded to the milligram.
///
/// # Errors
/// As [`parse`], for each part and for the sum.
pub fn parse_sum(text: &str, unit: Unit) -> Result<Mass, Refusal> {
    let mut sum = Decimal::ZERO;
    for part in text.split('+') {
        let part = exact_mg(part, unit)?;
        whole_mg(part)?;
        sum = sum.checked_add(part).ok_or(NoWeight::TooHeavy)?;
    }
    Ok(whole_mg(sum)?)
}

fn exact_mg(text: &str, unit: Unit) -> Result<Decimal, NoWeight> {
    let text = text.trim().to_ascii_lowercase();
    Ok(match unit {
        Unit::Gram => one_figure(&text, unit)? * Decimal::from(MG_PER_GRAM),
        Unit::Kilo => one_figure(&text, unit)? * Decimal::from(MG_PER_KILO),
        Unit::Ounce => one_figure(&text, unit)? * MG_PER_OUNCE,
        Unit::PoundOunce => pounds_and_ounces(&text)?,
    })
}

fn whole_mg(exact: Decimal) -> Result<Mass, NoWeight> {
    let mg = rounding::half_away(exact, 0);
    if mg.is_zero() {
        return Err(NoWeight::Zero);
    }
    match mg.to_i64().map(Mass) {
        Some(mass) if mass <= Mass::HEAVIEST => Ok(mass),
        _ => Err(NoWeight::TooHeavy),
    }
}

fn one_figure(text: &str, unit: Unit) -> Result<Decimal, NoWeight> {
    let figure = text.strip_suffix(unit.symbol()).unwrap_or(text);
    figure::read(figure, unit.decimals()).map_err(|fault| NoWeight::NoFigure(fault, unit))
}

fn pounds_and_ounces(text: &str) -> Result<Decimal, NoWeight> {
    let Some((pounds, ounces)) = text.split_once("lb") else {
        return Ok(one_figure(text, Unit::Ounce)? * MG_PER_OUNCE);
    };
    let read = |part: &str| {
        figure::read(part, Unit::PoundOunce.decimals())
            .map_err(|fault| NoWeight::NoFigure(fault, Unit::PoundOunce))
    };
    let pounds = read(pounds)?;
    let ounces = ounces.trim();
    let ounces = ounces.strip_suffix("oz").unwrap_or(ounces).trim();
    if ounces.is_empty() {
        return Ok(pounds * MG_PER_POUND);
    }
    if !pounds.fract().is_zero() {
        return Err(NoWeight::BrokenPounds);
    }
    let ounces = read(ounces)?;
    if ounces >= Decimal::from(16) {
        return Err(NoWeight::ManyOunces);
    }
    Ok(pounds * MG_PER_POUND + ounces * MG_PER_OUNCE)
}

/// The mass as a cook reads it: whole grams, or one decimal where the gram is not whole; kilos to the
/// gram; ounces to the hundredth, without idle noughts.
#[must_use]
pub fn show(mass: Mass, unit: Unit) -> String {
    match unit {
        Unit::Gram => {
            let tenths = rounding::half_away(Decimal::new(mass.0, 3), 1);
            let digits = u32::from(!tenths.fract().is_zero());
            format!("{} g", rounding::written(tenths, digits))
        }
        Unit::Kilo => format!("{} kg", rounding::written(mass.in_kilos(), 3)),
        Unit::Ounce => format!(
            "{} oz",
            rounding::half_away(mass.in_ounces(), 2).normalize()
        ),
        Unit::PoundOunce => {
            // Rounded before it is split, so that 15.999 oz becomes a pound and never 16 oz.
            let ounces = rounding::half_away(mass.in_ounces(), 2);
            let pounds = (ounces / Decimal::from(16)).trunc();
            let ounces = (ounces - pounds * Decimal::from(16)).normalize();
            if pounds.is_zero() {
                format!("{ounces} oz")
            } else {
                format!("{pounds} lb {ounces} oz")
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn weights_are_read_in_the_units_of_the_bench() {
        for (text, unit, mg) in [
            ("648", Unit::Gram, 648_000),
            ("648 g", Unit::Gram, 648_000),
            ("1 250,5", Unit::Gram, 1_250_500),
            ("0.648", Unit::Kilo, 648_000),
            ("0,648 KG", Unit::Kilo, 648_000),
            ("100", Unit::Kilo, 100_000_000),
            ("1", Unit::Ounce, 28_350),
            ("6.5 oz", Unit::Ounce, 184_272),
            ("1 lb 6.5", Unit::PoundOunce, 637_864),
            ("1lb6.5oz", Unit::PoundOunce, 637_864),
            ("1 LB", Unit::PoundOunce, 453_592),
            ("1.5 lb", Unit::PoundOunce, 680_389),
            ("0 lb 6.5", Unit::PoundOunce, 184_272),
            ("6.5", Unit::PoundOunce, 184_272),
            ("22", Unit::PoundOunce, 623_690),
        ] {
            assert_eq!(parse(text, unit).unwrap().mg(), mg, "{text} {unit:?}");
        }
    }

    /// 0.1 oz is 2,834.9523 mg: eleven are 31,184.475 mg, and each rounded first would make them 31,185.
    #[test]
    fn what_is_weighed_one_after_the_other_is_put_together_exactly() {
        for (text, unit, mg) in [
            ("151+151", Unit::Gram, 302_000),
            ("150.25+151.8+0.05", Unit::Gram, 302_100),
            ("0.151 + 0,152", Unit::Kilo, 303_000),
            (
                "0.1+0.1+0.1+0.1+0.1+0.1+0.1+0.1+0.1+0.1+0.1",
                Unit::Ounce,
                31_184,
            ),
            ("1 lb 6.5+9.5", Unit::PoundOunce, 907_185),
            ("648", Unit::Gram, 648_000),
        ] {
            assert_eq!(parse_sum(text, unit).unwrap().mg(), mg, "{text} {unit:?}");
        }
        for (text, said) in [
            ("151+", "Type the weight"),
            ("151+0", "The weight is zero"),
            ("60000+60000", "more than 100 kg"),
            ("151+a", "only digits"),
        ] {
            let refusal = parse_sum(text, Unit::Gram).unwrap_err().to_string();
            assert!(refusal.contains(said), "{text:?}: {refusal}");
        }
        let endless = ["9223372036854775807"; 20_000].join("+");
        assert!(parse_sum(&endless, Unit::Kilo).is_err());
        assert!(
            parse("1+1", Unit::Gram).is_err(),
            "a field takes one weight"
        );
    }

    #[test]
    fn what_is_no_weight_is_refused_with_its_own_sentence() {
        for (text, unit, said) in [
            ("", Unit::Gram, "Type the weight"),
            ("0", Unit::Gram, "The weight is zero"),
            ("0 lb 0", Unit::PoundOunce, "The weight is zero"),
            ("-3", Unit::Gram, "can't be below zero"),
            ("a lot", Unit::Gram, "weight is in grams"),
            ("5 kg", Unit::Gram, "weight is in grams"),
            ("a lb 2", Unit::PoundOunce, "as in 1 lb 6.5"),
            ("1.2.3", Unit::Kilo, "two decimal marks"),
            ("1 6.5", Unit::PoundOunce, "a gap inside"),
            ("1,234", Unit::Gram, "between thousands"),
            ("1.2345", Unit::Kilo, "at most three decimals"),
            ("1 lb 16", Unit::PoundOunce, "Sixteen ounces"),
            ("1.5 lb 2", Unit::PoundOunce, "whole pounds"),
            ("lb 2", Unit::PoundOunce, "Type the weight"),
            ("100.001", Unit::Kilo, "more than 100 kg"),
            ("99999999999999999999999", Unit::Gram, "more than 100 kg"),
            ("9223372036854775807", Unit::Kilo, "more than 100 kg"),
        ] {
            let refusal = parse(text, unit).unwrap_err().to_string();
            assert!(refusal.contains(said), "{text:?} {unit:?}: {refusal}");
        }
    }

    #[test]
    fn weights_are_shown_with_the_decimals_a_cook_needs() {
        for (mg, unit, wanted) in [
            (648_000, Unit::Gram, "648 g"),
            (648_250, Unit::Gram, "648.3 g"),
            (647_950, Unit::Gram, "648 g"),
            (648_000, Unit::Kilo, "0.648 kg"),
            (184_272, Unit::Ounce, "6.5 oz"),
            (637_864, Unit::PoundOunce, "1 lb 6.5 oz"),
            (453_592, Unit::PoundOunce, "1 lb 0 oz"),
            (453_590, Unit::PoundOunce, "1 lb 0 oz"),
            (184_272, Unit::PoundOunce, "6.5 oz"),
        ] {
            assert_eq!(show(Mass::from_mg(mg), unit), wanted);
        }
    }
}
