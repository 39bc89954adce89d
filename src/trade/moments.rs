//! Mean and deviation of a few numbers: of yields, or of the figures of a class.

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
