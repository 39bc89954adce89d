//! The one place where rounding is stated: half away from zero, as a cook does it on paper.
//!
//! Nothing is rounded before it is shown, except a mass that comes in as ounces or as an equal share,
//! which is kept in whole milligrams.

use rust_decimal::{Decimal, RoundingStrategy};

/// `value` to `digits` decimals; a half goes away from zero.
#[must_use]
pub fn half_away(value: Decimal, digits: u32) -> Decimal {
    value.round_dp_with_strategy(digits, RoundingStrategy::MidpointAwayFromZero)
}

/// `value` to `digits` decimals, always written with all of them.
#[must_use]
pub fn written(value: Decimal, digits: u32) -> String {
    format!("{:.*}", digits as usize, half_away(value, digits))
}

/// `dividend / divisor` in whole numbers; a half goes away from zero.
///
/// `None` when the divisor is zero or the answer does not fit.
#[must_use]
pub fn divide(dividend: i64, divisor: i64) -> Option<i64> {
    let (dividend, divisor) = (i128::from(dividend), i128::from(divisor));
    let quotient = dividend.checked_div(divisor)?;
    let left_over = dividend.checked_rem(divisor)?;
    let away = if (dividend < 0) == (divisor < 0) {
        1
    } else {
        -1
    };
    let half_or_more = 2 * left_over.abs() >= divisor.abs();
    i64::try_from(if half_or_more {
        quotient + away
    } else {
        quotient
    })
    .ok()
}

/// A share such as 0.4662 as a percentage with `digits` decimals: `46.6 %`.
#[must_use]
pub fn percent(share: Decimal, digits: u32) -> String {
    // A share past 10^26 is no share; Decimal would overflow rather than print it.
    match share.checked_mul(Decimal::ONE_HUNDRED) {
        Some(percent) => format!("{} %", written(percent, digits)),
        None => String::from("? %"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_half_goes_away_from_zero() {
        for (text, digits, wanted) in [
            ("2.345", 2, "2.35"),
            ("-2.345", 2, "-2.35"),
            ("2.5", 0, "3"),
            ("2.4999", 0, "2"),
            ("7", 2, "7.00"),
        ] {
            let value: Decimal = text.parse().unwrap();
            assert_eq!(written(value, digits), wanted, "{text}");
        }
    }

    #[test]
    fn whole_numbers_divide_the_same_way() {
        for (dividend, divisor, wanted) in [
            (7, 2, Some(4)),
            (-7, 2, Some(-4)),
            (7, -2, Some(-4)),
            (-7, -2, Some(4)),
            (10, 3, Some(3)),
            (11, 3, Some(4)),
            (0, 5, Some(0)),
            (1, 0, None),
            (i64::MIN, -1, None),
            (i64::MIN, 1, Some(i64::MIN)),
        ] {
            assert_eq!(divide(dividend, divisor), wanted, "{dividend} / {divisor}");
        }
    }

    #[test]
    fn a_share_is_shown_as_a_percentage() {
        assert_eq!(percent(Decimal::new(4662, 4), 1), "46.6 %");
        assert_eq!(percent(Decimal::MAX, 1), "? %");
    }
}
