//! A pan of this kitchen, and what its own probe readings say of its contact with the fish.

use serde::{Deserialize, Serialize};
use serde_json::Value;

use super::refusals::NoPan;
use crate::base::instant::Instant;
use crate::base::refusal::Refusal;
use crate::fish::heat_card::{PanCard, rounded, whole};
use crate::fish::pan_reading::PanReading;
use crate::heat::pan::Surface;
use crate::heat::probe::{Fitted, ProbeReading};
use crate::heat::stove::{Fillet, Stove};
use crate::store::entry::Entry;

/// The most readings a pan is fitted from: the latest.
pub const MOST_COOKED: usize = 6;

/// A pan as it is kept.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct KeptPan {
    /// What the cook calls it.
    pub name: String,
    /// When it was first kept.
    pub begun: Instant,
    /// Its figures, as typed.
    pub card: PanCard,
    /// The readings that the first builds kept as figures, as they were written; older than all others.
    #[serde(default)]
    cooked: Vec<Value>,
    /// The readings it is fitted from, as typed, the latest last.
    #[serde(default)]
    pub readings: Vec<PanReading>,
    /// The contact fitted to them, with the surface it is of.
    #[serde(default)]
    pub fitted: Vec<Contact>,
}

/// A contact fitted from readings: kept, since the page would wait for the worker to fit it again, in whole figures,
/// which are finer than any fit.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Contact {
    /// What the skin lay on.
    pub surface: Surface,
    /// W/(m²·K).
    #[serde(rename = "conductance", deserialize_with = "whole")]
    pub conductance_w_per_m2_k: u32,
    /// The true figure lies within so many hundredths of it either way, as a factor, two times in three.
    #[serde(rename = "factor", with = "hundredths")]
    pub factor_percent: u32,
    /// Readings used.
    pub readings: usize,
}

impl Contact {
    /// What was fitted to the readings on a surface.
    #[must_use]
    pub fn of(surface: Surface, fitted: &Fitted) -> Self {
        Self {
            surface,
            conductance_w_per_m2_k: rounded(fitted.conductance),
            factor_percent: rounded(fitted.factor * 100.0),
            readings: fitted.readings,
        }
    }
}

/// Hundredths, written as the first builds wrote a factor: 1.53.
mod hundredths {
    use serde::{Deserialize, Deserializer, Serializer};

    use super::rounded;

    pub(super) fn serialize<S: Serializer>(hundredths: &u32, to: S) -> Result<S::Ok, S::Error> {
        to.serialize_f64(f64::from(*hundredths) / 100.0)
    }

    pub(super) fn deserialize<'de, D: Deserializer<'de>>(from: D) -> Result<u32, D::Error> {
        Ok(rounded(f64::deserialize(from)? * 100.0))
    }
}

/// A tap that changes a pan.
#[derive(Clone, Debug, PartialEq)]
pub enum PanTap {
    /// A reading of the probe in a fish cooked in it.
    Cooked(Box<PanReading>),
    /// What was fitted to its readings.
    Fitted(Contact),
}

impl KeptPan {
    /// A pan with a name.
    ///
    /// # Errors
    /// The sentence for a name that is none.
    pub fn named(name: &str, card: &PanCard, now: Instant) -> Result<Self, Refusal> {
        let name = name.trim();
        if name.is_empty() || name.chars().count() > 40 {
            return Err(NoPan::Unnamed.into());
        }
        Ok(Self {
            name: name.to_owned(),
            begun: now,
            card: PanCard {
                kept: None,
                ..card.clone()
            },
            cooked: Vec::new(),
            readings: Vec::new(),
            fitted: Vec::new(),
        })
    }

    /// The contact fitted for a surface.
    #[must_use]
    pub fn contact(&self, surface: Surface) -> Option<Contact> {
        self.fitted.iter().find(|c| c.surface == surface).copied()
    }

    /// The readings on a surface, as figures, the latest last.
    #[must_use]
    pub fn cooked_on(&self, surface: Surface) -> Vec<(Fillet, Stove, ProbeReading)> {
        let old = self.cooked.iter().filter_map(first_kept);
        let typed = self.readings.iter().filter_map(|one| one.figures().ok());
        old.chain(typed)
            .filter(|(_, stove, _)| stove.surface == surface)
            .collect()
    }

    /// Adds a reading, and lets the oldest on its surface go where there are too many.
    fn keep(&mut self, cooked: PanReading) {
        let Some(surface) = cooked.surface() else {
            return;
        };
        self.readings.push(cooked);
        if self.cooked_on(surface).len() <= MOST_COOKED {
            return;
        }
        let on =
            |kept: &Value| first_kept(kept).is_some_and(|(_, stove, _)| stove.surface == surface);
        if let Some(oldest) = self.cooked.iter().position(on) {
            self.cooked.remove(oldest);
        } else if let Some(oldest) =
            (self.readings.iter()).position(|one| one.surface() == Some(surface))
        {
            self.readings.remove(oldest);
        }
    }
}

/// A reading as the first builds kept it; one that can't be read any more teaches nothing.
fn first_kept(kept: &Value) -> Option<(Fillet, Stove, ProbeReading)> {
    Deserialize::deserialize(kept).ok()
}

impl Entry for KeptPan {
    type Action = PanTap;
    const KIND: &'static str = "pan";
    const NOUN: &'static str = "pan";

    fn begun(&self) -> Instant {
        self.begun
    }

    fn apply(&self, tap: &PanTap, _now: Instant) -> Result<Self, Refusal> {
        let mut next = self.clone();
        match tap {
            PanTap::Cooked(cooked) => {
                next.keep((**cooked).clone());
            }
            PanTap::Fitted(contact) => {
                next.fitted.retain(|c| c.surface != contact.surface);
                next.fitted.push(*contact);
            }
        }
        Ok(next)
    }
}
