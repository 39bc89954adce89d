//! Letters as they come, with what tells at once whether they may be a code so far.
//!
//! The five values that are zero for a word (see `mend`) are carried along, letter by letter. Where at most two letters
//! are wrong, they are sums of two powers, and the determinant of `s0 s1 s2, s1 s2 s3, s2 s3 s4` is zero: so one string in a
//! thousand is looked at further.

use std::sync::LazyLock;

use super::alphabet::GROUP;
use super::galois::{Wide, times};
use super::mend::{LONGEST, is_length};

/// Of a letter with so many letters after it: u to the power of that number, to the powers 0 to 4.
static POWERS: LazyLock<Vec<[Wide; 5]>> = LazyLock::new(|| {
    let raised = |one: Wide| {
        let mut power = Wide::ONE;
        [(); 5].map(|()| {
            let this = power;
            power = power.times(one);
            this
        })
    };
    let ones = std::iter::successors(Some(Wide::ONE), |power| Some(power.by_u()));
    ones.take(LONGEST + 1).map(raised).collect()
});

/// The powers of u, 0 to 4, that the letter with so many letters after it is taken times.
pub(super) fn powers(after: usize) -> [Wide; 5] {
    POWERS.get(after).copied().unwrap_or([Wide::ZERO; 5])
}

/// The letters read so far.
#[derive(Clone, Debug)]
pub(super) struct Running {
    pub(super) letters: Vec<Option<u8>>,
    sums: [Wide; 5],
    mask: u8,
    unread: usize,
}

impl Running {
    pub(super) fn new() -> Self {
        Self {
            letters: Vec::with_capacity(LONGEST + 2),
            sums: [Wide::ZERO; 5],
            mask: 1,
            unread: 0,
        }
    }

    pub(super) fn push(&mut self, letter: Option<u8>) {
        let symbol = Wide::of(letter.unwrap_or(0) ^ self.mask);
        for (power, sum) in self.sums.iter_mut().enumerate() {
            for _ in 0..power {
                *sum = sum.by_u();
            }
            *sum = sum.plus(symbol);
        }
        self.mask = times(self.mask, 2);
        self.unread += usize::from(letter.is_none());
        self.letters.push(letter);
    }

    /// Whether these letters are a code as they stand.
    pub(super) fn holds(&self) -> bool {
        is_length(self.letters.len()) && self.unread == 0 && self.whole_sums() == [Wide::ZERO; 5]
    }

    /// Whether these letters may be a code: true for all that `mend` takes, and for one other in a thousand.
    pub(super) fn may_hold(&self) -> bool {
        let length = self.letters.len();
        if !is_length(length) || self.unread > 4 {
            return false;
        }
        // An unread letter is one wrong letter more, and two of them and a wrong one are three.
        if self.unread > 1 {
            return true;
        }
        let [a, b, c, d, e] = self.whole_sums();
        let first = a.times(c.times(e).plus(d.times(d)));
        let second = b.times(b.times(e).plus(c.times(d)));
        let third = c.times(b.times(d).plus(c.times(c)));
        first.plus(second).plus(third) == Wide::ZERO
    }

    /// The sums of these letters and of the one that is never sent, which stands before all others.
    fn whole_sums(&self) -> [Wide; 5] {
        let length = self.letters.len();
        let groups = Wide::of(u8::try_from(length / GROUP).unwrap_or(0));
        let mut sums = self.sums;
        for (sum, power) in sums.iter_mut().zip(powers(length)) {
            *sum = sum.plus(groups.times(power));
        }
        sums
    }
}

#[cfg(test)]
mod tests {
    use super::super::mend::{CHECKS, SHORTEST, mend, seal};
    use super::*;

    /// Every word of every length, with up to two letters wrong or some unread, and strings that are none.
    #[test]
    fn whatever_can_be_mended_may_hold() {
        let mut draws: u64 = 7;
        let mut draw = |below: usize| {
            draws = draws
                .wrapping_mul(6_364_136_223_846_793_005)
                .wrapping_add(1);
            (draws >> 33) as usize % below
        };
        let mut others = 0;
        for length in (SHORTEST..=LONGEST).step_by(GROUP).cycle().take(7_000) {
            let carried: Vec<u8> = (0..length - CHECKS).map(|_| draw(32) as u8).collect();
            let mut word: Vec<Option<u8>> = seal(&carried).unwrap().into_iter().map(Some).collect();
            for _ in 0..draw(3) {
                let place = draw(length);
                word[place] = Some(draw(32) as u8);
            }
            if draw(2) == 0 {
                for _ in 0..draw(4) {
                    let place = draw(length);
                    word[place] = None;
                }
            }
            let run = |letters: &[Option<u8>]| {
                let mut running = Running::new();
                letters.iter().for_each(|letter| running.push(*letter));
                running.may_hold()
            };
            assert!(mend(&word).is_err() || run(&word), "{word:?}");
            let other: Vec<Option<u8>> = (0..length).map(|_| Some(draw(32) as u8)).collect();
            others += usize::from(run(&other));
        }
        assert!(others < 40, "{others} of 7000");
    }
}
