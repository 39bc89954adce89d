//! What lies under the fish: a board that stays as it is, or a pan with a burner under it.

/// A flame or hob under the pan, per square metre of fish.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Burner {
    /// The pan's temperature the cook holds, °C.
    pub set_c: f64,
    /// The most it gives, W/m².
    pub power: f64,
}

/// How a burner answers. A step moves from one to the next, never across: jumping between full and
/// off, Newton would swing for ever about the set temperature of a light pan.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum BurnerState {
    Full,
    Held,
    Off,
}

impl Burner {
    /// Full power until this far under the set temperature, then in proportion.
    const BAND_K: f64 = 10.0;

    /// Power, W/m², and its slope, W/(m²·K).
    pub(super) fn at(&self, pan_c: f64, flame: BurnerState) -> (f64, f64) {
        match flame {
            BurnerState::Full => (self.power, 0.0),
            BurnerState::Held => (
                self.power * (self.set_c - pan_c) / Self::BAND_K,
                -self.power / Self::BAND_K,
            ),
            BurnerState::Off => (0.0, 0.0),
        }
    }

    pub(super) fn next(&self, pan_c: f64, flame: BurnerState) -> BurnerState {
        let full_below = self.set_c - Self::BAND_K;
        match flame {
            BurnerState::Full if pan_c > full_below => BurnerState::Held,
            BurnerState::Held if pan_c > self.set_c => BurnerState::Off,
            BurnerState::Held if pan_c < full_below => BurnerState::Full,
            BurnerState::Off if pan_c < self.set_c => BurnerState::Held,
            BurnerState::Full | BurnerState::Held | BurnerState::Off => flame,
        }
    }
}

/// What lies under the fish.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Base {
    /// Its temperature stays, °C: a board, a water bath.
    Held(f64),
    /// A pan, per square metre of fish in it.
    Pan {
        /// Heat capacity, J/(m²·K).
        capacity: f64,
        /// Loss to the kitchen, W/(m²·K).
        loss: f64,
        /// The kitchen, °C.
        room_c: f64,
        /// None: the heat is off.
        burner: Option<Burner>,
    },
}
