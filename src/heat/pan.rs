//! The pan: how much heat it holds, how it meets the fish, and the heat under it.

use serde::{Deserialize, Serialize};

use super::base::{Base, Burner};

/// What the pan is made of.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Material {
    /// Plain or stainless steel.
    Steel,
    /// Cast iron.
    CastIron,
    /// Bare aluminium.
    Aluminium,
    /// Aluminium with a non-stick coat, which changes the surface and not the heat held.
    NonStickAluminium,
}

impl Material {
    /// Every material.
    pub const ALL: [Self; 4] = [
        Self::Steel,
        Self::CastIron,
        Self::Aluminium,
        Self::NonStickAluminium,
    ];

    /// The name a cook knows it by.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::Steel => "steel",
            Self::CastIron => "cast iron",
            Self::Aluminium => "aluminium",
            Self::NonStickAluminium => "non-stick aluminium",
        }
    }

    /// Heat capacity, J/(kg·K), at room temperature: EN ISO 10456 design values as carried by the
    /// PyPI library `ht` 1.2.0.
    #[must_use]
    pub fn heat_capacity(self) -> f64 {
        match self {
            Self::Steel => 460.0,
            Self::CastIron => 450.0,
            Self::Aluminium | Self::NonStickAluminium => 880.0,
        }
    }
}

/// What the skin lies on.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Surface {
    /// Bare metal with a film of oil.
    BareOiled,
    /// A non-stick coat with a film of oil.
    NonStick,
    /// Baking paper on the metal.
    BakingPaper,
}

impl Surface {
    /// Every surface.
    pub const ALL: [Self; 3] = [Self::BareOiled, Self::NonStick, Self::BakingPaper];

    /// The name a cook knows it by.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::BareOiled => "bare, oiled pan",
            Self::NonStick => "non-stick pan",
            Self::BakingPaper => "baking paper",
        }
    }

    /// Contact conductance to start from, W/(m²·K).
    ///
    /// No measurement for skin-on fish was found. These are our choice inside the 250 to
    /// 650 W/(m²·K) measured for beef patties pressed between two plates ("Contact heat transfer
    /// coefficient during double-sided cooking of hamburger patties"), and carry a wide band: the
    /// conductance is what a pan's own readings fit.
    #[must_use]
    pub fn conductance(self) -> f64 {
        match self {
            Self::BareOiled => 450.0,
            Self::NonStick => 420.0,
            Self::BakingPaper => 300.0,
        }
    }
}

/// One pan of the kitchen.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Pan {
    /// What it is made of.
    pub material: Material,
    /// Its mass without lid, g.
    pub mass_g: f64,
    /// Its flat base across, mm.
    pub base_mm: f64,
    /// Contact conductance fitted from this pan's own readings, W/(m²·K); None: not yet.
    pub conductance: Option<f64>,
}

/// How the hob is set, as the temperature at which it holds the pan.
///
/// A hob has no thermostat; a cook turns it so that the pan stays as hot as it was. The figures of
/// the named settings are ours (common practice, no source).
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Heat {
    /// The empty pan is held here, °C.
    pub set_c: f64,
    /// The most that reaches the pan, W.
    pub power_w: f64,
}

impl Heat {
    /// Low heat.
    pub const LOW: Self = Self {
        set_c: 140.0,
        power_w: 600.0,
    };
    /// Medium heat.
    pub const MEDIUM: Self = Self {
        set_c: 175.0,
        power_w: 1000.0,
    };
    /// Medium-high heat.
    pub const MEDIUM_HIGH: Self = Self {
        set_c: 200.0,
        power_w: 1400.0,
    };
    /// High heat.
    pub const HIGH: Self = Self {
        set_c: 230.0,
        power_w: 1800.0,
    };
}

/// Loss to the kitchen for each square metre of base, walls included, W/(m²·K): about one and a
/// half times the area at natural convection and radiation together (from memory, not verified).
const LOSS: f64 = 25.0;

impl Pan {
    /// Flat base, m².
    #[must_use]
    pub fn area(&self) -> f64 {
        let radius = self.base_mm / 2000.0;
        std::f64::consts::PI * radius * radius
    }

    /// Heat capacity of the whole pan, J/K.
    #[must_use]
    pub fn capacity(&self) -> f64 {
        self.mass_g / 1000.0 * self.material.heat_capacity()
    }

    /// The pan under `fish_area` m² of fish, in a kitchen at `room_c`, on `heat` or off it.
    #[must_use]
    pub fn under(&self, fish_area: f64, room_c: f64, heat: Option<Heat>) -> Base {
        Base::Pan {
            capacity: self.capacity() / fish_area,
            loss: LOSS * self.area() / fish_area,
            room_c,
            burner: heat.map(|h| Burner {
                set_c: h.set_c,
                power: h.power_w / fish_area,
            }),
        }
    }
}
