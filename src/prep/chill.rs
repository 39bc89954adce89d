//! The chill clock of a fish: how long it has been out of the fridge in all.
//!
//! Limits: Food Standards Australia New Zealand, "2-hour / 4-hour rule" (total time between 5 °C and
//! 60 °C: under 2 h use or return to the fridge, 2 to 4 h use now, 4 h or more throw away). Written
//! for food that is ready to eat; for raw fish it is a teaching use, and the local code decides.

use serde::{Deserialize, Serialize};

use super::refusals::NoMove;
use crate::base::instant::Instant;
use crate::base::refusal::Refusal;
use crate::base::steady::Uncounted;
use crate::base::stretch::in_words;

/// From this much time out in all, in milliseconds, the fish may not go back in the fridge.
pub const USE_NOW_MS: i64 = 2 * 3_600_000;
/// From this much time out in all, in milliseconds, the fish is thrown away.
pub const DISCARD_MS: i64 = 4 * 3_600_000;

/// A moment may be so far ahead of now, in milliseconds, and still be one that was counted.
const AHEAD_MS: i64 = 2_000;

/// Where a fish is, since when, and how long it was out before.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Chill {
    /// When it last went into the fridge, while it is there.
    pub in_fridge_since: Option<Instant>,
    /// When it last came out, while it is out.
    pub out_since: Option<Instant>,
    /// Milliseconds out before that.
    pub out_ms_total: i64,
}

/// What is said where nobody can know how long a fish was out.
const SET_BACK: &str = "This phone's clock was set back while the fish was out of the fridge, so nobody can say for how long. Count it as over 4 hours: throw it away, or ask your supervisor. Your local code decides.";

fn verdict_of(out_ms: i64) -> ChillVerdict {
    match out_ms {
        ms if ms >= DISCARD_MS => ChillVerdict::Discard,
        ms if ms >= USE_NOW_MS => ChillVerdict::UseNow,
        _ => ChillVerdict::UseOrReturn,
    }
}

/// What the time out of the fridge means.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum ChillVerdict {
    /// Use it, or put it back.
    UseOrReturn,
    /// Use it now; it may not go back.
    UseNow,
    /// Throw it away.
    Discard,
}

impl Chill {
    /// A fish that goes into the fridge now, with no time out counted before.
    #[must_use]
    pub fn in_fridge(now: Instant) -> Self {
        Self {
            in_fridge_since: Some(now),
            out_since: None,
            out_ms_total: 0,
        }
    }

    /// A fish that comes out of the cold now, for the filleting.
    #[must_use]
    pub fn out(now: Instant) -> Self {
        Self {
            in_fridge_since: None,
            out_since: Some(now),
            out_ms_total: 0,
        }
    }

    /// Milliseconds out of the fridge in all, never negative.
    #[must_use]
    pub fn out_ms(&self, now: Instant) -> i64 {
        let this_time = self.out_since.map_or(0, |since| now.ms_since(since).max(0));
        self.out_ms_total.max(0).saturating_add(this_time)
    }

    /// Milliseconds since it went into the fridge, while it is there.
    #[must_use]
    pub fn chilled_ms(&self, now: Instant) -> Option<i64> {
        self.in_fridge_since.map(|since| now.ms_since(since).max(0))
    }

    /// The fish goes into the fridge.
    ///
    /// # Errors
    /// A sentence, when it is there already or was out too long to go back.
    pub fn put_in(&self, now: Instant) -> Result<Self, Refusal> {
        if self.in_fridge_since.is_some() {
            return Err(NoMove::InFridge.into());
        }
        match self.verdict(now) {
            ChillVerdict::UseOrReturn => Ok(Self {
                in_fridge_since: Some(now),
                out_since: None,
                out_ms_total: self.out_ms(now),
            }),
            ChillVerdict::UseNow | ChillVerdict::Discard => {
                Err(NoMove::TooLongOut(self.clone(), now).into())
            }
        }
    }

    /// The fish comes out of the fridge.
    ///
    /// # Errors
    /// A sentence, when it is out already.
    pub fn take_out(&self, now: Instant) -> Result<Self, Refusal> {
        if self.out_since.is_some() {
            return Err(NoMove::Out.into());
        }
        Ok(Self {
            in_fridge_since: None,
            out_since: Some(now),
            out_ms_total: self.out_ms_total,
        })
    }

    /// What the time out in all means. A fish that came out later than now was timed by a clock that was set since:
    /// nobody can say how long it was out, and it counts as out for too long.
    #[must_use]
    pub fn verdict(&self, now: Instant) -> ChillVerdict {
        if self.is_unknown(now) {
            return ChillVerdict::Discard;
        }
        verdict_of(self.out_ms(now))
    }

    fn is_unknown(&self, now: Instant) -> bool {
        self.out_since
            .is_some_and(|since| since.ms_since(now) > AHEAD_MS)
    }

    /// Whether time in doubt, up to `until`, may have passed while the fish was out.
    #[must_use]
    pub fn is_doubted(&self, doubt: Uncounted, until: Instant) -> bool {
        doubt != Uncounted::None && self.out_since.is_some_and(|since| since < until)
    }

    /// What is said of a fish that was out while time was in doubt: the worse is assumed.
    #[must_use]
    pub fn at_worst(&self, now: Instant, doubt: Uncounted) -> String {
        let most = self.out_ms(now).saturating_add(doubt.most_ms());
        let out = match doubt {
            Uncounted::Unknown => return SET_BACK.to_owned(),
            _ => in_words(most),
        };
        let then = match verdict_of(most) {
            ChillVerdict::UseOrReturn => "it may go back in",
            ChillVerdict::UseNow => "it may not go back in: cook it now",
            ChillVerdict::Discard => "throw it away",
        };
        format!("It may have been out for {out}: until you say what it was, {then}.")
    }

    /// Whether the time out of the fridge asks for something to be done.
    #[must_use]
    pub fn presses(&self, now: Instant) -> bool {
        self.verdict(now) != ChillVerdict::UseOrReturn
    }

    /// The verdict in a sentence or two for the cook.
    #[must_use]
    pub fn sentence(&self, now: Instant) -> String {
        if self.is_unknown(now) {
            return SET_BACK.to_owned();
        }
        let out = in_words(self.out_ms(now));
        match self.verdict(now) {
            ChillVerdict::UseOrReturn => {
                format!("Out of the fridge for {out} in all. Under 2 hours it may go back in.")
            }
            ChillVerdict::UseNow => format!(
                "Out of the fridge for {out} in all. From 2 hours on, cook it now: it may not go back in. Your local code decides."
            ),
            ChillVerdict::Discard => format!(
                "Out of the fridge for {out} in all. From 4 hours on, throw it away. Tell your supervisor; your local code decides."
            ),
        }
    }
}
