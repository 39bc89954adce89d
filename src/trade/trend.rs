//! Whether figures in an order go one way: the one rule by which a trend is told from chance.

use super::moments::median;

/// Fish of one kind from which a trend can be told from chance: with five in one order the odds are 1 in 60, with four
/// 1 in 12.
pub const FEWEST_TREND: usize = 5;
/// How likely chance alone may make what is called a trend.
pub const CHANCE: f64 = 0.05;

/// How a figure moves from fish to fish.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct OwnTrend {
    /// How many fish have the figure.
    pub fish: usize,
    /// That of the first of them.
    pub first: f64,
    /// That of the last.
    pub last: f64,
    /// The median change from one fish to the next, over all pairs (Theil 1950, Sen 1968).
    pub step: f64,
    /// How likely chance alone puts the figures in such an order or a stricter one, either way: Kendall's exact test. What
    /// is the same twice counts against a trend.
    pub chance: f64,
}

/// What can be said of a trend.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum TrendVerdict {
    /// Fewer than [`FEWEST_TREND`].
    TooFew,
    /// Up and down, as chance does.
    NoTrend,
    /// It rises.
    Rises,
    /// It falls.
    Falls,
}

impl OwnTrend {
    /// The trend of values in their order; nothing for fewer than two.
    #[must_use]
    pub fn of(values: &[f64]) -> Option<Self> {
        let (first, last) = match values {
            [first, .., last] => (*first, *last),
            _ => return None,
        };
        let mut steps = Vec::new();
        let (mut rising, mut falling, mut pairs) = (0, 0, 0);
        for (nth, one) in values.iter().enumerate() {
            for (apart, other) in (1_u32..).zip(values.iter().skip(nth + 1)) {
                steps.push((other - one) / f64::from(apart));
                pairs += 1;
                rising += usize::from(other > one);
                falling += usize::from(other < one);
            }
        }
        let against = pairs - rising.max(falling);
        Some(Self {
            fish: values.len(),
            first,
            last,
            step: median(&steps)?,
            chance: (2.0 * orders_within(values.len(), against)).min(1.0),
        })
    }

    /// What can be said of it.
    #[must_use]
    pub fn verdict(&self) -> TrendVerdict {
        if self.fish < FEWEST_TREND {
            TrendVerdict::TooFew
        } else if self.chance > CHANCE {
            TrendVerdict::NoTrend
        } else if self.step > 0.0 {
            TrendVerdict::Rises
        } else {
            TrendVerdict::Falls
        }
    }
}

/// The share of all orders of `count` things that have at most `most` pairs in the wrong order: counted by how many pairs
/// the next thing adds (Mahonian numbers).
fn orders_within(count: usize, most: usize) -> f64 {
    let mut shares = vec![1.0];
    for more in 2..=count {
        let long = shares.len() + more - 1;
        let mut next = vec![0.0; long];
        #[expect(clippy::cast_precision_loss, reason = "a student has few fish")]
        let each = 1.0 / more as f64;
        for (wrong, share) in shares.iter().enumerate() {
            for added in next.iter_mut().skip(wrong).take(more) {
                *added += share * each;
            }
        }
        shares = next;
    }
    shares.iter().take(most.saturating_add(1)).sum()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_trend_takes_five_fish_in_order() {
        for (values, verdict) in [
            (vec![0.40, 0.42, 0.44, 0.46], TrendVerdict::TooFew),
            (vec![0.40, 0.42, 0.44, 0.46, 0.47], TrendVerdict::Rises),
            (vec![0.12, 0.11, 0.09, 0.08, 0.06], TrendVerdict::Falls),
            (vec![0.40, 0.46, 0.41, 0.45, 0.42], TrendVerdict::NoTrend),
            (vec![0.40, 0.40, 0.40, 0.40, 0.40], TrendVerdict::NoTrend),
        ] {
            assert_eq!(
                OwnTrend::of(&values).unwrap().verdict(),
                verdict,
                "{values:?}"
            );
        }
        assert_eq!(OwnTrend::of(&[0.4]), None);
    }
}
