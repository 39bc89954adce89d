//! A pan of this kitchen, and what its own probe readings say of its contact with the fish.

use serde::{Deserialize, Serialize};

use super::refusals::NoPan;
use crate::base::instant::Instant;
use crate::base::refusal::Refusal;
use crate::fish::heat_card::PanCard;
use crate::heat::pan::Surface;
use crate::heat::probe::ProbeReading;
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
    /// The readings it is fitted from, the latest last.
    #[serde(default)]
    pub cooked: Vec<(Fillet, Stove, ProbeReading)>,
    /// The contact fitted to them, with the surface it is of.
    #[serde(default)]
    pub fitted: Vec<Contact>,
}

/// A contact fitted from readings.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Contact {
    /// What the skin lay on.
    pub surface: Surface,
    /// W/(m²·K).
    pub conductance: f64,
    /// The true figure lies within this factor either way, two times in three.
    pub factor: f64,
    /// Readings used.
    pub readings: usize,
}

/// A tap that changes a pan.
#[derive(Clone, Debug, PartialEq)]
pub enum PanTap {
    /// A reading of the probe in a fish cooked in it.
    Cooked(Box<(Fillet, Stove, ProbeReading)>),
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
            fitted: Vec::new(),
        })
    }

    /// The contact fitted for a surface.
    #[must_use]
    pub fn contact(&self, surface: Surface) -> Option<Contact> {
        self.fitted.iter().find(|c| c.surface == surface).copied()
    }

    /// The readings on a surface.
    #[must_use]
    pub fn cooked_on(&self, surface: Surface) -> Vec<(Fillet, Stove, ProbeReading)> {
        let on = |cooked: &&(Fillet, Stove, ProbeReading)| cooked.1.surface == surface;
        self.cooked.iter().filter(on).cloned().collect()
    }
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
                let surface = cooked.1.surface;
                next.cooked.push((**cooked).clone());
                if next.cooked_on(surface).len() > MOST_COOKED
                    && let Some(oldest) = next.cooked.iter().position(|c| c.1.surface == surface)
                {
                    next.cooked.remove(oldest);
                }
            }
            PanTap::Fitted(contact) => {
                next.fitted.retain(|c| c.surface != contact.surface);
                next.fitted.push(*contact);
            }
        }
        Ok(next)
    }
}
