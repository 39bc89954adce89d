//! The gaps that must be kept between any two moments, closed under addition, and why each is kept.
//!
//! Moments are counted backwards: `at(i)` is how many seconds before plating moment `i` lies, and moment 0 is
//! the start of plating. The network holds, for each ordered pair, the longest chain of least gaps, so that the
//! earliest and the latest moment of everything, and the effect of one more gap, are read off without a search.

use super::question::Answer;

/// Closed least gaps: `at(to) - at(from) >= gap(from, to)`.
///
/// Every moment is kept within a horizon of moment 0 in both directions, so that each gap is a finite number.
#[derive(Clone, Debug)]
pub(super) struct Network {
    size: usize,
    gaps: Vec<i32>,
    /// The last of the chain of reasons that makes up each gap, as a position in the reasons.
    last: Vec<u32>,
}

/// Why the gaps of a network are kept, in the order they were added. Shared by networks that grow from one
/// another: the shorter one's reasons are the first of the longer one's.
#[derive(Clone, Debug, Default)]
pub(super) struct Reasons(Vec<Reason>);

#[derive(Clone, Debug)]
struct Reason {
    from: usize,
    because: Vec<Answer>,
}

impl Reasons {
    pub(super) fn len(&self) -> usize {
        self.0.len()
    }

    pub(super) fn truncate(&mut self, len: usize) {
        self.0.truncate(len);
    }
}

impl Network {
    /// `size` moments, each at most `horizon` seconds from moment 0, and otherwise free.
    pub(super) fn new(size: usize, horizon: i32, reasons: &mut Reasons) -> Self {
        let (mut gaps, mut last) = (Vec::new(), Vec::new());
        for from in 0..size {
            for to in 0..size {
                gaps.push(match (from, to) {
                    _ if from == to => 0,
                    (0, _) | (_, 0) => -horizon,
                    _ => -2 * horizon,
                });
                // The horizon gives one gap from each moment to moment 0, and one from moment 0 to each.
                last.push(u32::try_from(if to == 0 { from } else { size }).unwrap_or(u32::MAX));
            }
        }
        reasons.0.extend((0..=size).map(|k| Reason {
            from: k % size.max(1),
            because: Vec::new(),
        }));
        Self { size, gaps, last }
    }

    /// The least number of seconds by which `to` lies before `from` (counted backwards from plating).
    #[inline]
    pub(super) fn gap(&self, from: usize, to: usize) -> i32 {
        self.gaps.get(from * self.size + to).copied().unwrap_or(0)
    }

    /// The gaps from one moment to every moment.
    #[inline]
    pub(super) fn gaps_from(&self, from: usize) -> &[i32] {
        row(&self.gaps, self.size, from)
    }

    /// Seconds before plating, at the least: all of these together satisfy every gap.
    #[inline]
    pub(super) fn soonest(&self, moment: usize) -> i32 {
        self.gap(0, moment)
    }

    /// Seconds before plating, at the most.
    #[inline]
    pub(super) fn latest(&self, moment: usize) -> i32 {
        -self.gap(moment, 0)
    }

    /// Whether one more gap leaves room for all the others.
    #[inline]
    pub(super) fn allows(&self, from: usize, to: usize, gap: i32) -> bool {
        self.gap(to, from) + gap <= 0
    }

    /// Keeps `at(to) - at(from) >= gap` as well, which must be allowed.
    pub(super) fn keep(
        &mut self,
        from: usize,
        to: usize,
        gap: i32,
        because: Vec<Answer>,
        reasons: &mut Reasons,
    ) {
        if self.gap(from, to) >= gap {
            return;
        }
        let mut tail_last = row(&self.last, self.size, to).to_vec();
        if let Some(own) = tail_last.get_mut(to) {
            *own = u32::try_from(reasons.0.len()).unwrap_or(u32::MAX);
        }
        let tail = self.gaps_from(to).to_vec();
        reasons.0.push(Reason { from, because });
        let rows = self.gaps.chunks_exact_mut(self.size);
        for (gaps, last) in rows.zip(self.last.chunks_exact_mut(self.size)) {
            let via = gaps.get(from).copied().unwrap_or(0) + gap;
            if gaps.get(to).is_none_or(|&direct| direct >= via) {
                continue;
            }
            let onward = tail.iter().zip(&tail_last);
            for ((direct, last), (&onward, &onward_last)) in gaps.iter_mut().zip(last).zip(onward) {
                if *direct < via + onward {
                    *direct = via + onward;
                    *last = onward_last;
                }
            }
        }
    }

    /// Adds to `because` the answers that make up the gap between two moments.
    pub(super) fn explain(
        &self,
        from: usize,
        to: usize,
        reasons: &Reasons,
        because: &mut Vec<Answer>,
    ) {
        let mut at = to;
        // A chain visits no moment twice: the gaps would contradict each other.
        for _ in 0..self.size {
            if at == from {
                break;
            }
            let last = self.last.get(from * self.size + at).copied().unwrap_or(0);
            let Some(reason) = usize::try_from(last).ok().and_then(|l| reasons.0.get(l)) else {
                break;
            };
            because.extend(&reason.because);
            at = reason.from;
        }
    }
}

fn row<T>(cells: &[T], size: usize, row: usize) -> &[T] {
    cells.get(row * size..(row + 1) * size).unwrap_or(&[])
}
