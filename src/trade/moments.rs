//! Mean, deviation and quantiles of a few numbers: of yields, or of the figures of a class.

/// The mean of `values`, and their sample standard deviation (n − 1), which one value does not have. Not a
/// number for none.
#[expect(
    clippy::cast_precision_loss,
    reason = "a count of fish or of students is far below 2^53"
)]
#[must_use]
pub fn moments(values: &[f64]) -> (f64, Option<f64>) {
    let count = values.len() as f64;
    let mean = values.iter().sum::<f64>() / count;
    let squares: f64 = values.iter().map(|value| (value - mean).powi(2)).sum();
    let deviation = (values.len() > 1).then(|| (squares / (count - 1.0)).sqrt());
    (mean, deviation)
}

/// The finite ones of `values`, the smallest first.
#[must_use]
pub fn sorted(values: impl Iterator<Item = f64>) -> Vec<f64> {
    let mut finite: Vec<f64> = values.filter(|value| value.is_finite()).collect();
    finite.sort_by(f64::total_cmp);
    finite
}

/// The quantile of sorted values at `share` (0 to 1), type 7: at rank (n − 1)·share, counted from 0.
#[expect(
    clippy::cast_precision_loss,
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "a rank lies between 0 and the number of values, far below 2^52"
)]
#[must_use]
pub fn quantile(sorted: &[f64], share: f64) -> Option<f64> {
    let rank = sorted.len().checked_sub(1)? as f64 * share;
    let below = *sorted.get(rank.floor() as usize)?;
    let above = *sorted.get(rank.ceil() as usize)?;
    Some(below + (above - below) * rank.fract())
}

/// The one in the middle of `values`, or the mean of the two there; `None` when none is finite.
#[must_use]
pub fn median(values: &[f64]) -> Option<f64> {
    quantile(&sorted(values.iter().copied()), 0.5)
}
