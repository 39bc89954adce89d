//! What the next fish is likely to give, worked out from three or more of one's own, and how much fish
//! to buy so that it is enough.
//!
//! A prediction interval for one new fish: x̄ ± t·s·√(1 + 1/n), where x̄ and s are the mean and the
//! sample standard deviation (n − 1) of the single yields, n the number of fish, and t the quantile of
//! Student's t with n − 1 degrees of freedom. Source: Hahn and Meeker, *Statistical Intervals*, the
//! chapter on a normal population (from memory, not verified); the figures are checked against `SciPy`.
//! It holds for fish of one species, delivered in one form, weighed one by one and trimmed by the same
//! hands; the yields of such fish are taken to spread as a normal distribution does.
//!
//! The quantile is that of the crate `statrs`, which adds about 10 kB to the compressed module.

use rust_decimal::Decimal;
use rust_decimal::RoundingStrategy;
use rust_decimal::prelude::{FromPrimitive, ToPrimitive};
use statrs::distribution::{ContinuousCDF, StudentsT};

use super::breakdown::Breakdown;
use super::mass::Mass;
use super::moments::moments;
use super::pooled::Pooled;
use super::refusals::NoPurchase;
use crate::base::refusal::Refusal;

/// The fewest fish that tell how far the next may lie off.
pub const FEWEST: usize = 3;

/// How sure a cook wants to be.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Confidence {
    /// Right four times in five.
    FourInFive,
    /// Right nine times in ten.
    #[default]
    NineInTen,
    /// Right nineteen times in twenty.
    NineteenInTwenty,
}

impl Confidence {
    /// Every choice, the least sure first.
    pub const ALL: [Self; 3] = [Self::FourInFive, Self::NineInTen, Self::NineteenInTwenty];

    /// In a cook's words, as after "right" or "enough".
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::FourInFive => "4 times in 5",
            Self::NineInTen => "9 times in 10",
            Self::NineteenInTwenty => "19 times in 20",
        }
    }

    /// The share of times it is right, 0 to 1.
    #[must_use]
    pub fn share(self) -> f64 {
        match self {
            Self::FourInFive => 0.8,
            Self::NineInTen => 0.9,
            Self::NineteenInTwenty => 0.95,
        }
    }
}

/// What is known of the next fish. Shares of the delivered mass; floats, because doubt is physics.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Outlook {
    /// How many fish it rests on, three or more.
    pub fish: usize,
    /// The mean of the single yields.
    pub mean: f64,
    /// The sample standard deviation (n − 1) of the single yields.
    pub deviation: f64,
}

impl Outlook {
    /// The outlook from single fish of one species and form; `None` under [`FEWEST`].
    #[must_use]
    pub fn of(fish: &[Breakdown]) -> Option<Self> {
        let yields: Vec<f64> = fish
            .iter()
            .map(|fish| fish.yield_ratio().to_f64())
            .collect::<Option<_>>()?;
        Self::of_yields(&yields)
    }

    /// The outlook from single yields as shares, 0 to 1; `None` under [`FEWEST`].
    #[must_use]
    pub fn of_yields(yields: &[f64]) -> Option<Self> {
        if yields.len() < FEWEST {
            return None;
        }
        let (mean, deviation) = moments(yields);
        Some(Self {
            fish: yields.len(),
            mean,
            deviation: deviation?,
        })
    }

    /// The two yields between which the next fish comes out, so often as `confidence` says: the
    /// two-sided prediction interval, cut to 0 and 1.
    #[must_use]
    pub fn between(&self, confidence: Confidence) -> (f64, f64) {
        let reach = self.reach((1.0 + confidence.share()) / 2.0);
        ((self.mean - reach).max(0.0), (self.mean + reach).min(1.0))
    }

    /// The yield under which the next fish does not fall, so often as `confidence` says: the one-sided
    /// lower prediction limit, cut to 0.
    #[must_use]
    pub fn at_least(&self, confidence: Confidence) -> f64 {
        (self.mean - self.reach(confidence.share())).max(0.0)
    }

    /// t·s·√(1 + 1/n) at the cumulative share `below`.
    fn reach(&self, below: f64) -> f64 {
        let fish = count(self.fish);
        student_t(fish - 1.0, below) * self.deviation * (1.0 + 1.0 / fish).sqrt()
    }
}

/// The quantile of Student's t with `freedom` degrees of freedom (1 or more) at the cumulative share
/// `below` (between 0 and 1, both excluded); not a number outside.
#[must_use]
pub fn student_t(freedom: f64, below: f64) -> f64 {
    let inside = below > 0.0 && below < 1.0;
    match StudentsT::new(0.0, 1.0, freedom) {
        Ok(t) if inside => t.inverse_cdf(below),
        _ => f64::NAN,
    }
}

#[expect(
    clippy::cast_precision_loss,
    reason = "a count of fish is far below 2^53"
)]
fn count(fish: usize) -> f64 {
    fish as f64
}

/// How much fish to buy, as it is weighed on delivery.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Purchase {
    /// Enough if the fish come out as they did so far, taken together.
    pub usual: Mass,
    /// Enough if they come out as the low end says; never less than `usual`.
    pub sure: Mass,
    /// The pooled yield behind `usual`, as a share.
    pub pooled_yield: Decimal,
    /// The low end behind `sure`, as a share, cut to four decimals.
    pub low_yield: Decimal,
}

impl Purchase {
    /// What is bought for safety's sake.
    #[must_use]
    pub fn margin(&self) -> Mass {
        self.sure.checked_sub(self.usual).unwrap_or_default()
    }
}

/// How much fish to buy for `need_ready` of it ready to cook, from one's own `tests` of that species and
/// form, so that it is enough as often as `confidence` says.
///
/// The margin is that for one new fish, and is not made smaller for many: the fish of one delivery are
/// alike, so their misses do not cancel. Both masses are rounded up to the milligram.
///
/// # Errors
/// A sentence for a need that is no mass, for fewer than [`FEWEST`] tests, and for tests that lie so far
/// apart that the low end is no yield.
pub fn fish_to_buy(
    need_ready: Mass,
    tests: &[Breakdown],
    confidence: Confidence,
) -> Result<Purchase, Refusal> {
    if need_ready <= Mass::ZERO {
        return Err(NoPurchase::NoNeed.into());
    }
    let outlook = Outlook::of(tests).ok_or(NoPurchase::FewTests)?;
    let pooled_yield = Pooled::of(tests).ok_or(NoPurchase::FewTests)?.yield_ratio;
    let low = Decimal::from_f64(outlook.at_least(confidence)).ok_or(NoPurchase::TestsApart)?;
    // The mean of the yields may lie above the pooled one; a margin is never below none.
    let low_yield = low
        .round_dp_with_strategy(4, RoundingStrategy::ToZero)
        .min(pooled_yield);
    let usual = bought(need_ready, pooled_yield).ok_or(NoPurchase::TestsApart)?;
    let sure = bought(need_ready, low_yield).ok_or(NoPurchase::TestsApart)?;
    Ok(Purchase {
        usual,
        sure,
        pooled_yield,
        low_yield,
    })
}

/// Need over yield, up to the milligram; `None` for no yield, or past the range of a mass.
fn bought(need: Mass, share: Decimal) -> Option<Mass> {
    let mg = Decimal::from(need.mg()).checked_div(share)?.ceil();
    mg.to_i64().map(Mass::from_mg)
}

#[cfg(test)]
mod tests {
    use super::super::breakdown::fish;
    use super::*;

    /// Worked by hand: yields 44, 46, 48 %, x̄ 46, s 2; t(2) at 0.90 is 1.8856 (printed tables: 1.886), so
    /// the low end is 46 − 1.8856·2·√(4/3) = 41.64 %, and 10 kg ready call for 10/0.4164 = 24.016 kg.
    #[test]
    fn three_fish_tell_how_much_to_buy() {
        let tests = [fish(1000, 440), fish(1000, 460), fish(1000, 480)];
        let purchase =
            fish_to_buy(Mass::from_mg(10_000_000), &tests, Confidence::NineInTen).unwrap();
        assert_eq!(purchase.pooled_yield, Decimal::new(46, 2));
        assert_eq!(purchase.low_yield, Decimal::new(4164, 4));
        assert_eq!(purchase.usual, Mass::from_mg(21_739_131));
        assert_eq!(purchase.sure, Mass::from_mg(24_015_370));
        assert_eq!(purchase.margin(), Mass::from_mg(2_276_239));
    }

    #[test]
    fn equal_fish_leave_no_margin() {
        let tests = [fish(1000, 400); 4];
        let purchase =
            fish_to_buy(Mass::from_mg(400_000), &tests, Confidence::NineteenInTwenty).unwrap();
        assert_eq!(purchase.sure, Mass::from_mg(1_000_000));
        assert_eq!(purchase.margin(), Mass::ZERO);
    }

    #[test]
    fn what_can_not_be_told_is_said() {
        let three = [fish(1000, 100), fish(1000, 500), fish(1000, 900)];
        for (need, tests, said) in [
            (1, &three[..2], "It takes three"),
            (1, &three[..0], "It takes three"),
            (0, &three[..], "how much fish you need"),
            (-5, &three[..], "how much fish you need"),
            (1, &three[..], "too far apart"),
        ] {
            let refusal = fish_to_buy(Mass::from_mg(need), tests, Confidence::NineInTen);
            let refusal = refusal.unwrap_err().to_string();
            assert!(refusal.contains(said), "{refusal}");
        }
    }

    #[test]
    fn a_quantile_of_nonsense_is_not_a_number() {
        for (freedom, below) in [
            (0.0, 0.9),
            (-1.0, 0.9),
            (f64::NAN, 0.9),
            (3.0, 0.0),
            (3.0, 1.5),
        ] {
            assert!(student_t(freedom, below).is_nan(), "{freedom} {below}");
        }
    }
}
