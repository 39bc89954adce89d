//! One step under way: its timer as instants, never as seconds left.

use serde::{Deserialize, Serialize};

use crate::base::instant::Instant;

/// One step that has begun.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct StepRun {
    /// When it began.
    pub began: Instant,
    /// Since when its timer is held, while it is.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub held_since: Option<Instant>,
    /// Milliseconds that its timer was held before.
    #[serde(default)]
    pub held_ms: i64,
    /// Milliseconds that the cook gave it on top.
    #[serde(default)]
    pub extra_ms: i64,
    /// When it was called done.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub done: Option<Instant>,
}

impl StepRun {
    pub(super) fn begun(at: Instant) -> Self {
        Self {
            began: at,
            held_since: None,
            held_ms: 0,
            extra_ms: 0,
            done: None,
        }
    }

    /// When a timer of `lasts_ms` milliseconds rings, holds so far and extra time counted in.
    #[must_use]
    pub fn ends(&self, lasts_ms: i64) -> Instant {
        self.began
            .plus_ms(self.of_ms(lasts_ms))
            .plus_ms(self.held_ms.max(0))
    }

    /// The whole length of a timer of `lasts_ms` milliseconds, extra time counted in.
    #[must_use]
    pub fn of_ms(&self, lasts_ms: i64) -> i64 {
        lasts_ms.max(0).saturating_add(self.extra_ms.max(0))
    }

    /// Milliseconds left on a timer of `lasts_ms` milliseconds: never negative, never more than the whole.
    #[must_use]
    pub fn left_ms(&self, lasts_ms: i64, now: Instant) -> i64 {
        let stands = self.held_since.unwrap_or(now);
        self.ends(lasts_ms)
            .ms_since(stands)
            .clamp(0, self.of_ms(lasts_ms))
    }

    /// Milliseconds that its timer stood still, up to `now`.
    #[must_use]
    pub fn held_up_to(&self, now: Instant) -> i64 {
        let going_on = self.held_since.map_or(0, |since| now.ms_since(since));
        self.held_ms.max(0).saturating_add(going_on.max(0))
    }

    /// Whether it has begun and isn't done.
    #[must_use]
    pub fn is_open(&self) -> bool {
        self.done.is_none()
    }

    pub(super) fn release(&mut self, now: Instant) {
        if let Some(since) = self.held_since.take() {
            self.held_ms = self
                .held_ms
                .max(0)
                .saturating_add(now.ms_since(since).max(0));
        }
    }

    pub(super) fn moments(&mut self) -> impl Iterator<Item = &mut Instant> {
        std::iter::once(&mut self.began)
            .chain(self.held_since.as_mut())
            .chain(self.done.as_mut())
    }
}
