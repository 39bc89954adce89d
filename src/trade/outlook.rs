//! What the next fish is likely to give, worked out from three or more of one's own.
//!
//! A prediction interval for one new fish: x̄ ± t·s·√(1 + 1/n), where x̄ and s are the mean and the
//! sample standard deviation (n − 1) of the single yields, n the number of fish, and t the quantile of
//! Student's t with n − 1 degrees of freedom. Source: Hahn and Meeker, *Statistical Intervals*, the
//! chapter on a normal population (from memory, not verified); the figures are checked against `SciPy`.
//! It holds for fish of one species, delivered in one form, weighed one by one and trimmed by the same
//! hands; the yields of such fish are taken to spread as a normal distribution does.
//!
//! The fish of one delivery are alike: that interval covers the next fish of the *same* deliveries, and misses one of
//! another delivery far more often. From three deliveries on it is told for a fish of another one, by a one-way model
//! with a random part for the delivery. With k deliveries of mᵢ fish, the mean ȳ of their means, the variance S² of those
//! means, the variance W² inside the deliveries and 1/h the mean of 1/mᵢ:
//! V = (1 + 1/k)·S² + (1 − 1/h)·W², ȳ ± t·√V, with the degrees of freedom of Satterthwaite (*Biometrics Bulletin* 2,
//! 1946, 110; from memory, not verified). Where each delivery is one fish it is the formula above. How often it holds is
//! counted in `tests/outside_spread.rs`.
//!
//! **A learner gets better.** Where the days (or, of one day alone, the fish) rise or fall in their order by the exact test
//! of [`super::trend`], the middle is taken from the straight line that least squares lay through their means, against
//! their number 1 … k, at the next number and no further. With wᵢ = 1/k + (k + 1 − x̄)(i − x̄)/Sxx the weight that the line
//! gives to day i there, L the sum of wᵢ², S² the variance about the line (k − 2 degrees of freedom) and c the share of W²
//! that is in it: V = (1 + L)·S² + (1 + Σwᵢ²/mᵢ − (1 + L)·c)·W², which without a slope is the formula above, and for
//! single fish the prediction interval of a regression (Draper and Smith, *Applied Regression Analysis*, from memory; held
//! to `statsmodels`). Nobody learns along a straight line for ever: whether the next step comes or the last was the last,
//! the interval is to hold, so it reaches half a step further on either side of a middle half a step short. Both tests and
//! intervals are for days of their own; where there is no trend to be seen nothing is said of one, and nothing changes.
//!
//! The quantile is that of the crate `statrs`, which adds about 10 kB to the compressed module.

use std::collections::BTreeMap;

use rust_decimal::prelude::ToPrimitive;
use statrs::distribution::{ContinuousCDF, StudentsT};

use super::breakdown::Breakdown;
use super::moments::moments;
use super::trend::{OwnTrend, TrendVerdict};

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

/// The fewest deliveries that tell how far another may lie off.
pub const FEWEST_DELIVERIES: usize = 3;

/// What is known of the next fish. Shares of the delivered mass; floats, because doubt is physics.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Outlook {
    /// How many fish it rests on, three or more.
    pub fish: usize,
    /// Of how many deliveries they are, where they tell of a fish of another one: [`FEWEST_DELIVERIES`] or more. Where
    /// there is nothing here, they tell only of more fish of these deliveries.
    pub deliveries: Option<usize>,
    /// The yield in the middle.
    pub mean: f64,
    /// The standard error of taking that for the next fish.
    pub error: f64,
    /// The degrees of freedom behind that error.
    pub freedom: f64,
    /// The trend that the middle follows, where there is one.
    pub trend: Option<OutlookTrend>,
}

/// A trend that an outlook follows.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct OutlookTrend {
    /// From one day (or fish) to the next, below zero where they fall.
    pub step: f64,
    /// The mean of the days (or fish): the middle without the trend.
    pub mean: f64,
}

impl Outlook {
    /// The outlook from single fish of one species and form, in the order they were weighed, each with what tells its
    /// delivery from the others and stands in order of time; `None` under [`FEWEST`] fish. Fish that nobody knows the day
    /// of tell of no trend.
    #[must_use]
    pub fn of<D: Ord>(fish: impl IntoIterator<Item = (Option<D>, Breakdown)>) -> Option<Self> {
        let mut deliveries: BTreeMap<Option<D>, Vec<f64>> = BTreeMap::new();
        for (delivery, fish) in fish {
            let share = fish.yield_ratio().to_f64()?;
            deliveries.entry(delivery).or_default().push(share);
        }
        let is_ordered = !deliveries.contains_key(&None);
        let deliveries: Vec<Vec<f64>> = deliveries.into_values().collect();
        let along = is_ordered.then(|| Self::of_trend(&deliveries)).flatten();
        along.or_else(|| Self::of_deliveries(&deliveries))
    }

    /// The outlook from the single yields of some deliveries, none of them empty, shares from 0 to 1; `None` under
    /// [`FEWEST`] fish.
    #[must_use]
    pub fn of_deliveries(deliveries: &[Vec<f64>]) -> Option<Self> {
        if deliveries.len() < FEWEST_DELIVERIES {
            return Self::of_yields(&deliveries.concat());
        }
        Self::of_next(deliveries, false)
    }

    /// The outlook along the trend of deliveries in their order, or of the fish of the only one in theirs; `None` where
    /// there is no trend to be seen.
    #[must_use]
    pub fn of_trend(deliveries: &[Vec<f64>]) -> Option<Self> {
        let single: Vec<Vec<f64>>;
        let in_order = match deliveries {
            [one] => {
                single = one.iter().map(|share| vec![*share]).collect();
                &single
            }
            several => several,
        };
        let means: Vec<f64> = in_order.iter().map(|own| moments(own).0).collect();
        let rises = match OwnTrend::of(&means)?.verdict() {
            TrendVerdict::Rises => true,
            TrendVerdict::Falls => false,
            TrendVerdict::TooFew | TrendVerdict::NoTrend => return None,
        };
        let along = Self::of_next(in_order, true)?;
        // One that lies far out may turn the line against the order of all others.
        let agrees = along.trend.is_some_and(|trend| (trend.step > 0.0) == rises);
        agrees.then_some(Self {
            deliveries: (deliveries.len() > 1).then_some(deliveries.len()),
            ..along
        })
    }

    /// The outlook for a fish of the next delivery, by their mean or along a straight line; `None` for fewer than three.
    fn of_next(deliveries: &[Vec<f64>], along: bool) -> Option<Self> {
        let all = count(deliveries.len());
        let freedom_between = all - if along { 2.0 } else { 1.0 };
        if freedom_between < 1.0 {
            return None;
        }
        let numbers = || (1..=deliveries.len()).map(count);
        let spread = (all * (all * all - 1.0) / 12.0).sqrt();
        // How far a number lies from the middle one, so that the squares of all of them come to one.
        let lean = |number: f64| {
            if along {
                (number - f64::midpoint(all, 1.0)) / spread
            } else {
                0.0
            }
        };
        let ahead = lean(all + 1.0);
        let means: Vec<f64> = deliveries.iter().map(|own| moments(own).0).collect();
        let (mean, _) = moments(&means);
        let tilt: f64 = numbers()
            .zip(&means)
            .map(|(nth, own)| lean(nth) * own)
            .sum();
        let (mut about, mut weights, mut weights_inside) = (0.0, 0.0, 0.0);
        let (mut share_inside, mut squares, mut fish) = (0.0, 0.0, 0);
        for ((nth, own), own_mean) in numbers().zip(deliveries).zip(&means) {
            let one_in = 1.0 / count(own.len());
            let weight = 1.0 / all + ahead * lean(nth);
            about += (own_mean - mean - tilt * lean(nth)).powi(2);
            weights += weight.powi(2);
            weights_inside += weight.powi(2) * one_in;
            share_inside += (1.0 - 1.0 / all - lean(nth).powi(2)) * one_in / freedom_between;
            squares += moments(own).1.unwrap_or_default().powi(2) * (count(own.len()) - 1.0);
            fish += own.len();
        }
        // Deliveries of one fish have no squares inside, by whatever they are divided.
        let freedom_inside = count(fish - deliveries.len()).max(1.0);
        let of_means = about / freedom_between * (1.0 + weights);
        let inside = 1.0 + weights_inside - share_inside * (1.0 + weights);
        // Where the last deliveries are by far the largest it would come out below nothing.
        let of_fish = squares / freedom_inside * inside.max(0.0);
        let variance = of_means + of_fish;
        let freedom = variance.powi(2)
            / (of_means.powi(2) / freedom_between + of_fish.powi(2) / freedom_inside);
        let step = tilt / spread;
        let middle = mean + tilt * ahead - if along { step / 2.0 } else { 0.0 };
        Some(Self {
            fish,
            deliveries: Some(deliveries.len()),
            mean: middle.clamp(0.0, 1.0),
            error: variance.sqrt(),
            // Fish without any spread have no error either, whatever its freedom.
            freedom: if freedom.is_nan() {
                freedom_between
            } else {
                freedom
            },
            trend: along.then_some(OutlookTrend { step, mean }),
        })
    }

    /// The outlook for more fish like these, from single yields as shares, 0 to 1; `None` under [`FEWEST`].
    #[must_use]
    pub fn of_yields(yields: &[f64]) -> Option<Self> {
        if yields.len() < FEWEST {
            return None;
        }
        let (mean, deviation) = moments(yields);
        Some(Self::of_moments(yields.len(), mean, deviation?))
    }

    /// The outlook for more fish like so many, two or more, whose yields have this mean and this sample standard
    /// deviation (n − 1).
    #[must_use]
    pub fn of_moments(fish: usize, mean: f64, deviation: f64) -> Self {
        Self {
            fish,
            deliveries: None,
            mean,
            error: deviation * (1.0 + 1.0 / count(fish)).sqrt(),
            freedom: count(fish) - 1.0,
            trend: None,
        }
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

    /// t times the error, at the cumulative share `below`; half a step of a trend more.
    fn reach(&self, below: f64) -> f64 {
        let half_a_step = self.trend.map_or(0.0, |trend| trend.step.abs() / 2.0);
        student_t(self.freedom, below) * self.error + half_a_step
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

#[cfg(test)]
mod tests {
    use super::*;

    /// Worked by hand: yields 44, 46, 48 %, x̄ 46, s 2; t(2) at 0.90 is 1.8856 (printed tables: 1.886), so
    /// the low end is 46 − 1.8856·2·√(4/3) = 41.645 %. As three deliveries of one fish it is the same.
    #[test]
    fn three_fish_tell_of_the_next() {
        let alike = Outlook::of_yields(&[0.44, 0.46, 0.48]).unwrap();
        let apart = Outlook::of_deliveries(&[vec![0.44], vec![0.46], vec![0.48]]).unwrap();
        assert_eq!((alike.deliveries, apart.deliveries), (None, Some(3)));
        for outlook in [alike, apart] {
            let low = outlook.at_least(Confidence::NineInTen);
            assert!((low - 0.416_45).abs() < 5e-6, "{outlook:?}: {low}");
        }
        assert_eq!(Outlook::of_yields(&[0.44, 0.46]), None);
    }

    /// Worked by hand: deliveries of 44 and 46, 47 and 49, 50 and 52 %: means 45, 48, 51, S² 9, W² 2, h 2, so
    /// V = 4/3·9 + 1/2·2 = 13 and its freedom is 13²/(12²/2 + 1²/3) = 2.336.
    #[test]
    fn another_delivery_may_lie_further_off() {
        let deliveries = [vec![0.44, 0.46], vec![0.47, 0.49], vec![0.50, 0.52]];
        let outlook = Outlook::of_deliveries(&deliveries).unwrap();
        assert!((outlook.mean - 0.48).abs() < 1e-12, "{outlook:?}");
        assert!(
            (outlook.error - 0.0013_f64.sqrt()).abs() < 1e-12,
            "{outlook:?}"
        );
        assert!(
            (outlook.freedom - 169.0 / (72.0 + 1.0 / 3.0)).abs() < 1e-9,
            "{outlook:?}"
        );
        let alike = Outlook::of_yields(&deliveries.concat()).unwrap();
        assert!(outlook.error > alike.error);
        // Two deliveries tell of no third.
        let two = Outlook::of_deliveries(&deliveries[..2]).unwrap();
        assert_eq!(two.deliveries, None);
    }

    /// Worked by hand: five days of one fish at 40, 42, 44, 46 and 48 % lie on a line; the next number is at 50, half a
    /// step short of it 49, and half a step to either side. Fish of one day likewise; of two days, or of five in no order,
    /// there is nothing to see.
    #[test]
    fn a_trend_is_followed_to_the_next_fish() {
        let rising: Vec<Vec<f64>> = [0.40, 0.42, 0.44, 0.46, 0.48].map(|one| vec![one]).into();
        let outlook = Outlook::of_trend(&rising).unwrap();
        let (low, high) = outlook.between(Confidence::NineInTen);
        assert!(
            (low - 0.48).abs() < 1e-9 && (high - 0.50).abs() < 1e-9,
            "{outlook:?}"
        );
        let trend = outlook.trend.unwrap();
        assert!((trend.step - 0.02).abs() < 1e-12 && (trend.mean - 0.44).abs() < 1e-12);
        assert_eq!(outlook.deliveries, Some(5));
        let one_day = Outlook::of_trend(&[rising.concat()]).unwrap();
        assert_eq!(one_day.deliveries, None);
        assert!((one_day.mean - outlook.mean).abs() < 1e-12);
        let mut falling = rising.clone();
        falling.reverse();
        let falls = Outlook::of_trend(&falling).unwrap();
        assert!((falls.mean - 0.39).abs() < 1e-12, "{falls:?}");
        // No fish gives more than all of it.
        let steep: Vec<Vec<f64>> = [0.6, 0.7, 0.8, 0.9, 1.0].map(|one| vec![one]).into();
        assert_eq!(
            Outlook::of_trend(&steep)
                .unwrap()
                .between(Confidence::NineInTen)
                .1,
            1.0
        );
        for nothing in [
            &[vec![0.40, 0.42, 0.44], vec![0.46, 0.48]][..],
            &[0.40, 0.48, 0.41, 0.44, 0.42].map(|one| vec![one]),
            &rising[..4],
            &[],
        ] {
            assert_eq!(Outlook::of_trend(nothing), None, "{nothing:?}");
        }
    }

    #[test]
    fn equal_fish_leave_no_doubt() {
        for outlook in [
            Outlook::of_yields(&[0.4; 4]),
            Outlook::of_deliveries(&[vec![0.4; 2], vec![0.4], vec![0.4; 3]]),
        ] {
            let low = outlook.unwrap().at_least(Confidence::NineteenInTwenty);
            assert!((low - 0.4).abs() < 1e-12, "{outlook:?}");
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
