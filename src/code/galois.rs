//! Arithmetic in the two finite fields a code is checked in: 32 elements for the letters, 1024 for the checks.
//!
//! GF(32) is taken modulo x⁵ + x² + 1, an element being its five bits. GF(1024) is GF(32) with an element u
//! added for which u² = 2u + 4 (2 and 4 as bits, so x and x²); u has order 93. Addition is exclusive or.

use std::sync::LazyLock;

const MODULUS: u8 = 0b10_0101;

/// `a` times x in GF(32).
const fn shifted(a: u8) -> u8 {
    let wide = a << 1;
    if wide & 32 == 0 { wide } else { wide ^ MODULUS }
}

/// All products of GF(32): a paste is held against the code at some million places.
static PRODUCTS: LazyLock<[u8; 1024]> =
    LazyLock::new(|| std::array::from_fn(|pair| product((pair >> 5) as u8, (pair & 31) as u8)));

/// The product of two elements of GF(32).
pub(super) fn times(a: u8, b: u8) -> u8 {
    let pair = usize::from(a & 31) << 5 | usize::from(b & 31);
    PRODUCTS.get(pair).copied().unwrap_or(0)
}

/// The same, worked out.
const fn product(a: u8, b: u8) -> u8 {
    let mut product = 0;
    let mut shifted_a = a;
    let mut left = b;
    while left != 0 {
        if left & 1 == 1 {
            product ^= shifted_a;
        }
        shifted_a = shifted(shifted_a);
        left >>= 1;
    }
    product
}

/// The inverse in GF(32), a³⁰ (since a³¹ = 1); 0 for 0.
const fn inverse(a: u8) -> u8 {
    let a2 = product(a, a);
    let a4 = product(a2, a2);
    let a8 = product(a4, a4);
    let a16 = product(a8, a8);
    product(product(a2, a4), product(a8, a16))
}

/// An element `low + high·u` of GF(1024).
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(super) struct Wide {
    pub(super) low: u8,
    pub(super) high: u8,
}

impl Wide {
    pub(super) const ZERO: Self = Self::of(0);
    pub(super) const ONE: Self = Self::of(1);

    /// A letter's value as an element of the larger field.
    pub(super) const fn of(low: u8) -> Self {
        Self { low, high: 0 }
    }

    pub(super) const fn plus(self, other: Self) -> Self {
        Self {
            low: self.low ^ other.low,
            high: self.high ^ other.high,
        }
    }

    /// This element times u.
    pub(super) const fn by_u(self) -> Self {
        let twice = shifted(self.high);
        Self {
            low: shifted(twice),
            high: self.low ^ twice,
        }
    }

    pub(super) fn times(self, other: Self) -> Self {
        let by_low = Self {
            low: times(self.low, other.low),
            high: times(self.high, other.low),
        };
        let by_high = Self {
            low: times(self.low, other.high),
            high: times(self.high, other.high),
        };
        by_low.plus(by_high.by_u())
    }

    /// `self / other`; `None` when `other` is zero.
    pub(super) fn over(self, other: Self) -> Option<Self> {
        // The other root of z² + 2z + 4 is u + 2, and an element times its conjugate lies in GF(32).
        let conjugate = Self {
            low: other.low ^ shifted(other.high),
            high: other.high,
        };
        let norm = other.times(conjugate).low;
        (norm != 0).then(|| self.times(conjugate).times(Self::of(inverse(norm))))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn every_wide() -> impl Iterator<Item = Wide> {
        (0..32).flat_map(|high| (0..32).map(move |low| Wide { low, high }))
    }

    #[test]
    fn every_element_but_zero_has_an_inverse() {
        for a in every_wide() {
            match Wide::ONE.over(a) {
                Some(inverse) => assert_eq!(inverse.times(a), Wide::ONE),
                None => assert_eq!(a, Wide::ZERO),
            }
        }
    }

    #[test]
    fn multiplication_commutes_and_distributes() {
        let some: Vec<Wide> = every_wide().step_by(37).collect();
        for &a in &some {
            for &b in &some {
                assert_eq!(a.times(b), b.times(a));
                for &c in &some {
                    assert_eq!(a.times(b.plus(c)), a.times(b).plus(a.times(c)));
                    assert_eq!(a.times(b).times(c), a.times(b.times(c)));
                }
            }
        }
    }

    #[test]
    fn u_has_order_ninety_three() {
        let mut power = Wide::ONE;
        for exponent in 1..=93 {
            power = power.by_u();
            assert_eq!(power == Wide::ONE, exponent == 93, "u^{exponent}");
        }
    }
}
