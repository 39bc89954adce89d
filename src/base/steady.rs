//! Time that only goes forward: the phone's clock, which may be set, joined to one that only counts.
//!
//! The counter stands still while the phone sleeps, and begins anew with each page; the clock runs on, and may be set by
//! anybody. What neither can tell is never guessed in favour of the fish: see [`Uncounted`].

use super::instant::Instant;

/// A difference between the two smaller than this, in milliseconds, is the clock being put right by itself.
const SLACK_MS: i64 = 250;

/// A clock that went back by less than this while nobody looked, in milliseconds, was put right by itself, as phones do
/// when they wake: that asks for no word.
const BY_ITSELF_MS: i64 = 5_000;

/// From this much time on that passed unseen, in milliseconds, the cook is told that it is counted.
const TOLD_MS: i64 = 15 * 60_000;

/// A clock that was set is followed again at the start of a page so long after, in milliseconds, if nothing cooks.
const FORGOTTEN_MS: i64 = 12 * 3_600_000;

/// Time that may have passed beside what was counted.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
pub enum Uncounted {
    /// None.
    #[default]
    None,
    /// At most so many milliseconds: the clock went ahead of the counter while the page was in sight. It was set, or the
    /// phone slept.
    AtMost(i64),
    /// Nobody can say how much: the clock was set back while nobody looked.
    Unknown,
}

impl Uncounted {
    /// Both together.
    #[must_use]
    pub fn and(self, other: Self) -> Self {
        match (self, other) {
            (Self::None, one) | (one, Self::None) => one,
            (Self::AtMost(one), Self::AtMost(two)) => Self::AtMost(one.saturating_add(two)),
            _ => Self::Unknown,
        }
    }

    /// The most that may have passed beside what was counted, in milliseconds.
    #[must_use]
    pub fn most_ms(self) -> i64 {
        match self {
            Self::None => 0,
            Self::AtMost(ms) => ms.max(0),
            Self::Unknown => i64::MAX,
        }
    }
}

/// What was found when the two were looked at.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Jump {
    /// The clock was set back by so many milliseconds: nothing moves with it.
    Back(i64),
    /// The clock was set back while nobody looked: nothing moves with it, and what passed can't be known.
    BackUnseen,
    /// The clock went ahead by so many milliseconds in sight: nothing moves with it.
    Ahead(i64),
    /// So many milliseconds passed unseen, by the clock alone, and are counted.
    Counted(i64),
}

/// Both as they were looked at last, and how far the time that is counted is ahead of the clock.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Steady {
    /// The clock, as milliseconds of [`Instant`].
    wall: i64,
    /// The counter, in milliseconds; nothing before this page has looked at it.
    count: Option<i64>,
    /// Milliseconds from the clock to the time that is counted.
    ahead: i64,
    /// The clock when it was last found set.
    set_at: i64,
    /// What may have passed as well.
    doubt: Uncounted,
}

impl Steady {
    /// The time of a page that starts. `kept` is what the last one has kept; `cooks`, whether a timer may still ring.
    #[must_use]
    pub fn start(kept: Option<&str>, cooks: bool, wall: i64, count: i64) -> (Self, Option<Jump>) {
        let Some(before) = kept.and_then(Self::read) else {
            let fresh = Self {
                wall,
                count: Some(count),
                ahead: 0,
                set_at: wall,
                doubt: Uncounted::None,
            };
            return (fresh, None);
        };
        let mut now = Self {
            wall,
            count: Some(count),
            ..before
        };
        let passed = wall.saturating_sub(before.wall);
        let jump = if passed < -SLACK_MS {
            now.ahead = before.ahead.saturating_sub(passed);
            now.back_unseen(passed)
        } else {
            if !cooks && wall.saturating_sub(before.set_at) > FORGOTTEN_MS {
                now.ahead = 0;
                now.doubt = Uncounted::None;
            }
            (passed >= TOLD_MS).then_some(Jump::Counted(passed))
        };
        (now, jump)
    }

    /// Looks at both again. `in_sight` says that the page was so ever since the last look.
    pub fn look(&mut self, wall: i64, count: i64, in_sight: bool) -> Option<Jump> {
        let counted = self
            .count
            .map_or(0, |last| count.saturating_sub(last).max(0));
        let gap = wall.saturating_sub(self.wall).saturating_sub(counted);
        self.wall = wall;
        self.count = Some(count);
        if gap.saturating_abs() < SLACK_MS {
            return None;
        }
        if gap > 0 && !in_sight {
            return (gap >= TOLD_MS).then_some(Jump::Counted(gap));
        }
        self.ahead = self.ahead.saturating_sub(gap);
        if gap > 0 {
            self.set_at = wall;
            self.doubt = self.doubt.and(Uncounted::AtMost(gap));
            Some(Jump::Ahead(gap))
        } else if in_sight {
            self.set_at = wall;
            Some(Jump::Back(gap.saturating_neg()))
        } else {
            self.back_unseen(gap)
        }
    }

    fn back_unseen(&mut self, gap: i64) -> Option<Jump> {
        if gap > -BY_ITSELF_MS {
            return None;
        }
        self.set_at = self.wall;
        self.doubt = Uncounted::Unknown;
        Some(Jump::BackUnseen)
    }

    /// Takes on what another tab has kept a moment ago: it saw what this one did not. Whether it was so.
    pub fn take_on(&mut self, kept: &str, wall: i64, count: i64, lately_ms: i64) -> bool {
        let other = Self::read(kept)
            .filter(|other| (-SLACK_MS..=lately_ms).contains(&wall.saturating_sub(other.wall)));
        let Some(other) = other else {
            return false;
        };
        *self = Self {
            wall,
            count: Some(count),
            ..other
        };
        true
    }

    /// The cook says what it was: the time in doubt has passed, or the clock was set.
    pub fn settle(&mut self, has_passed: bool) {
        if let (Uncounted::AtMost(ms), true) = (self.doubt, has_passed) {
            self.ahead = self.ahead.saturating_add(ms);
        }
        // What nobody can know is no better known by a tap.
        if self.doubt != Uncounted::Unknown {
            self.doubt = Uncounted::None;
        }
    }

    /// The moment of the last look.
    #[must_use]
    pub fn now(&self) -> Instant {
        Instant(self.wall.saturating_add(self.ahead))
    }

    /// Milliseconds from the clock to the time that is counted.
    #[must_use]
    pub fn ahead_ms(&self) -> i64 {
        self.ahead
    }

    /// What may have passed as well, and the moment from which on nothing is in doubt any more.
    #[must_use]
    pub fn doubt(&self) -> (Uncounted, Instant) {
        (self.doubt, Instant(self.set_at.saturating_add(self.ahead)))
    }

    /// As it is kept for the next page: first what it is ahead, then its moment.
    #[must_use]
    pub fn kept(&self) -> String {
        let doubt = match self.doubt {
            Uncounted::None => 0,
            Uncounted::AtMost(ms) => ms,
            Uncounted::Unknown => -1,
        };
        format!("{} {} {} {doubt}", self.ahead, self.now().0, self.set_at)
    }

    fn read(kept: &str) -> Option<Self> {
        let mut parts = kept.split(' ').map(str::parse::<i64>);
        let mut next = || parts.next()?.ok();
        let (ahead, last, set_at, doubt) = (next()?, next()?, next()?, next()?);
        Some(Self {
            wall: last.saturating_sub(ahead),
            count: None,
            ahead,
            set_at,
            doubt: match doubt {
                0 => Uncounted::None,
                1.. => Uncounted::AtMost(doubt),
                _ => Uncounted::Unknown,
            },
        })
    }
}
