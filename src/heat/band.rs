//! How far an estimate may lie off.

use serde::{Deserialize, Serialize};

/// A figure and how far it may lie off.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Banded<T> {
    /// The estimate.
    pub best: T,
    /// Low end.
    pub low: T,
    /// High end.
    pub high: T,
}

/// Independent deviations add in quadrature (JCGM 100, 5.1.2), each side on its own.
pub(super) struct Quadrature {
    best: f64,
    below: f64,
    above: f64,
}

impl Quadrature {
    pub(super) fn around(best: f64) -> Self {
        Self {
            best,
            below: 0.0,
            above: 0.0,
        }
    }

    pub(super) fn widen(&mut self, pair: [f64; 2]) {
        let off = pair.map(|v| v - self.best);
        self.below += off.into_iter().fold(0.0, f64::min).powi(2);
        self.above += off.into_iter().fold(0.0, f64::max).powi(2);
    }

    pub(super) fn band(&self) -> Banded<f64> {
        Banded {
            best: self.best,
            low: self.best - self.below.sqrt(),
            high: self.best + self.above.sqrt(),
        }
    }

    pub(super) fn secs(&self, best: u32) -> Banded<u32> {
        let band = self.band();
        Banded {
            best,
            low: band.low.max(0.0).floor() as u32,
            high: band.high.ceil() as u32,
        }
    }
}
