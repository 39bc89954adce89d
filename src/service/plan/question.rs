//! The questions a plan must settle: of two pieces at one pool, does this one come first?

use super::backward::Piece;
use super::network::Network;

/// One piece before another, counted backwards: `at(second) - at(first) >= gap`.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Order {
    pub(super) first: usize,
    pub(super) second: usize,
    pub(super) gap: i32,
}

impl Order {
    pub(super) fn of(first: Piece, second: Piece) -> Self {
        Self {
            first: first.moment,
            second: second.moment,
            gap: first.offset + first.secs - second.offset,
        }
    }

    /// What holds when this does not, and nothing else is known.
    pub(super) fn denied(self) -> Self {
        Self {
            first: self.second,
            second: self.first,
            gap: 1 - self.gap,
        }
    }

    /// Whether the network leaves room for it.
    #[inline]
    pub(super) fn possible(self, network: &Network) -> bool {
        network.allows(self.first, self.second, self.gap)
    }

    /// Whether the network already keeps it.
    #[inline]
    pub(super) fn kept(self, network: &Network) -> bool {
        network.gap(self.first, self.second) >= self.gap
    }

    /// Seconds of room the network leaves for it.
    #[inline]
    pub(super) fn room(self, network: &Network) -> i32 {
        -network.gap(self.second, self.first) - self.gap
    }

    /// Whether the soonest moments break it.
    #[inline]
    pub(super) fn broken(self, network: &Network) -> bool {
        network.soonest(self.second) < network.soonest(self.first) + self.gap
    }
}

/// A question with two answers, each an order; one of them holds in every schedule.
#[derive(Clone, Copy, Debug)]
pub(super) struct Question {
    pub(super) yes: Order,
    pub(super) no: Order,
}

/// An answer to one question.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Answer(u32);

impl Answer {
    pub(super) fn new(question: usize, yes: bool) -> Self {
        Self(u32::try_from(2 * question).unwrap_or(0) + u32::from(!yes))
    }

    /// The position of the question.
    #[inline]
    pub(super) fn question(self) -> usize {
        self.index() / 2
    }

    /// A position of its own among all answers.
    #[inline]
    pub(super) fn index(self) -> usize {
        usize::try_from(self.0).unwrap_or(0)
    }

    #[inline]
    pub(super) fn is_yes(self) -> bool {
        self.0.is_multiple_of(2)
    }

    /// The other answer to the same question.
    #[inline]
    pub(super) fn other(self) -> Self {
        Self(self.0 ^ 1)
    }
}
