//! How a class spreads: median, quartiles, and measures that one wrong student can't move.

use crate::trade::moments::{moments, quantile, sorted};

/// Makes the median absolute deviation of normally spread values their standard deviation: 1 / Φ⁻¹(3/4).
pub const MAD_SCALE: f64 = 1.482_602_218_505_602;

/// What its figures are, in a tutor's words.
#[must_use]
pub fn told() -> String {
    format!(
        "A quarter of the results lie below the low figure and a quarter above the high one. The spread is the median distance from the median, times {MAD_SCALE:.2}: one wrong result does not move it."
    )
}

/// The spread of some values, all in the unit of the values.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Spread {
    /// How many values.
    pub count: usize,
    /// The smallest.
    pub least: f64,
    /// A quarter lie below: type 7 of Hyndman and Fan (1996), linear between the order statistics.
    pub lower_quartile: f64,
    /// Half lie below.
    pub median: f64,
    /// Three quarters lie below, type 7.
    pub upper_quartile: f64,
    /// The largest.
    pub most: f64,
    /// The mean.
    pub mean: f64,
    /// The sample standard deviation (n − 1); `None` for one value.
    pub deviation: Option<f64>,
    /// The median distance from the median, times [`MAD_SCALE`].
    pub robust_deviation: f64,
}

impl Spread {
    /// The spread of `values`, leaving out any that is not finite; `None` when none is left.
    #[must_use]
    pub fn of(values: &[f64]) -> Option<Self> {
        let values = sorted(values.iter().copied());
        let median = quantile(&values, 0.5)?;
        let distances = sorted(values.iter().map(|value| (value - median).abs()));
        let (mean, deviation) = moments(&values);
        Some(Self {
            count: values.len(),
            least: *values.first()?,
            lower_quartile: quantile(&values, 0.25)?,
            median,
            upper_quartile: quantile(&values, 0.75)?,
            most: *values.last()?,
            mean,
            deviation,
            robust_deviation: quantile(&distances, 0.5)? * MAD_SCALE,
        })
    }

    /// How many robust deviations `value` lies from the median, below it negative; `None` when there is no
    /// spread to measure by. `floor` is the least deviation that means anything, such as a scale's doubt.
    #[must_use]
    pub fn distance(&self, value: f64, floor: f64) -> Option<f64> {
        let deviation = self.robust_deviation.max(floor);
        (deviation > 0.0).then(|| (value - self.median) / deviation)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn one_wrong_student_moves_the_mean_and_not_the_median() {
        let right = Spread::of(&[44.0, 45.0, 46.0, 47.0, 48.0]).unwrap();
        let wrong = Spread::of(&[44.0, 45.0, 46.0, 47.0, 480.0]).unwrap();
        assert_eq!((right.median, wrong.median), (46.0, 46.0));
        assert_eq!(right.robust_deviation, wrong.robust_deviation);
        assert!(wrong.mean > 130.0);
        assert!(wrong.distance(480.0, 0.0).unwrap() > 200.0);
    }

    #[test]
    fn few_values_and_no_values_are_told_apart() {
        assert_eq!(Spread::of(&[]), None);
        assert_eq!(Spread::of(&[f64::NAN, f64::INFINITY]), None);
        let one = Spread::of(&[3.0, f64::NAN]).unwrap();
        assert_eq!((one.count, one.median, one.deviation), (1, 3.0, None));
        assert_eq!(one.distance(3.0, 0.0), None);
        assert_eq!(one.distance(4.0, 0.5), Some(2.0));
    }
}
