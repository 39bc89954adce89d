//! Chance from a seed, so that a simulation can be repeated.

use proptest::prelude::RngExt as _;
use proptest::test_runner::{RngAlgorithm, TestRng};

/// A source of draws.
pub struct Chance(TestRng);

impl Chance {
    /// The same draws for the same seed.
    pub fn of(seed: u8) -> Self {
        Self(TestRng::from_seed(RngAlgorithm::ChaCha, &[seed; 32]))
    }

    /// Between 0 and 1, both excluded, each as likely as another.
    pub fn even(&mut self) -> f64 {
        (f64::from(self.0.random::<u32>()) + 0.5) / 4_294_967_296.0
    }

    /// Normally spread: Box and Muller, 1958.
    pub fn normal(&mut self) -> f64 {
        let (one, other) = (self.even(), self.even());
        (-2.0 * one.ln()).sqrt() * (std::f64::consts::TAU * other).cos()
    }
}
