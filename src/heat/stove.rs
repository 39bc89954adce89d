//! What the cook enters: the fillet, the stove it is cooked at, and the core that is wanted.

use serde::{Deserialize, Serialize};

use super::food::{self, Flesh};
use super::pan::{Heat, Pan, Surface};
use super::refusals::NoSetup;
use super::safety::Rule;
use super::skin;
use crate::base::refusal::Refusal;

/// A fillet this thin is a slip, this thick a steak, mm.
pub const THICKNESS_LIMITS_MM: (f64, f64) = (4.0, 60.0);
/// Thinner than this is skin, mm.
pub const THIN_LEAST_MM: f64 = 2.0;
/// Still air and bare boiling metal lie about here, W/(m²·K).
pub const CONDUCTANCE_LIMITS: (f64, f64) = (20.0, 5000.0);
/// One pan holds this much, g.
pub const MASS_LIMITS_G: (f64, f64) = (10.0, 5000.0);

/// The fish that goes into the pan at one time, all pieces alike.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Fillet {
    /// Key of the species, as in `food::species`.
    pub species: String,
    /// Thickness at the thickest, mm.
    pub thickness_mm: f64,
    /// Thickness at the thin end, mm, when measured.
    pub thin_end_mm: Option<f64>,
    /// Temperature all through when it goes in, °C.
    pub start_c: f64,
    /// The skin is on.
    pub skin: bool,
    /// All the fish in the pan at once, g.
    pub mass_g: f64,
}

/// Where it is cooked.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Stove {
    /// The pan.
    pub pan: Pan,
    /// What the fish lies on.
    pub surface: Surface,
    /// The heat under it until the turn; it is off from there.
    pub heat: Heat,
    /// The kitchen, °C.
    pub room_c: f64,
}

impl Stove {
    /// The pan's fitted contact conductance, else the surface's own, W/(m²·K).
    #[must_use]
    pub fn conductance(&self) -> f64 {
        self.pan
            .conductance
            .unwrap_or_else(|| self.surface.conductance())
    }
}

/// The core that is wanted, and the rule it is compared with.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Target {
    /// Highest temperature of the coldest part, carry-over included, °C.
    pub core_c: f64,
    /// When `core_c` reaches the rule's temperature, its holding time is sought as well.
    pub rule: Rule,
}

/// The same in SI units, checked: what the physics runs on.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Setup {
    /// The flesh.
    pub flesh: Flesh,
    /// Thickness, m.
    pub thickness: f64,
    /// Start, °C.
    pub start_c: f64,
    /// Skin on.
    pub skin: bool,
    /// What boils all the water out of it, J/m²; 0 without skin.
    pub drying_heat: f64,
    /// Fish against the pan, m².
    pub area: f64,
    /// Contact, W/(m²·K).
    pub conductance: f64,
    /// The pan.
    pub pan: Pan,
    /// The heat.
    pub heat: Heat,
    /// The kitchen, °C.
    pub room_c: f64,
}

fn within(value: f64, (low, high): (f64, f64), why: NoSetup) -> Result<f64, NoSetup> {
    if (low..=high).contains(&value) {
        Ok(value)
    } else {
        Err(why)
    }
}

impl Target {
    /// The same, checked.
    ///
    /// # Errors
    /// When the core is not between 40 and 85 °C.
    pub fn checked(self) -> Result<Self, Refusal> {
        within(self.core_c, (40.0, 85.0), NoSetup::Core)?;
        Ok(self)
    }
}

impl Setup {
    /// Checks what was entered.
    ///
    /// # Errors
    /// One sentence about the first figure that can't be right.
    pub fn new(fillet: &Fillet, stove: &Stove) -> Result<Self, Refusal> {
        let thick = within(fillet.thickness_mm, THICKNESS_LIMITS_MM, NoSetup::Thickness)?;
        let thin = within(
            fillet.thin_end_mm.unwrap_or(thick),
            (THIN_LEAST_MM, thick),
            NoSetup::ThinEnd,
        )?;
        let start_c = within(fillet.start_c, (0.0, 30.0), NoSetup::Start)?;
        let mass_g = within(fillet.mass_g, MASS_LIMITS_G, NoSetup::Mass)?;
        within(stove.pan.mass_g, (200.0, 8000.0), NoSetup::PanMass)?;
        within(stove.pan.base_mm, (100.0, 500.0), NoSetup::PanBase)?;
        within(stove.heat.set_c, (110.0, 280.0), NoSetup::PanHeat)?;
        within(stove.heat.power_w, (100.0, 6000.0), NoSetup::Power)?;
        within(stove.room_c, (0.0, 50.0), NoSetup::Room)?;
        let conductance = within(stove.conductance(), CONDUCTANCE_LIMITS, NoSetup::Contact)?;
        let flesh = food::fish(&fillet.species)?.composition.flesh(start_c);
        let area = mass_g / 1000.0 / flesh.density / ((thick + thin) / 2000.0);
        within(area, (0.0, stove.pan.area()), NoSetup::Area)?;
        Ok(Self {
            flesh,
            thickness: thick / 1000.0,
            start_c,
            skin: fillet.skin,
            drying_heat: if fillet.skin {
                skin::drying_heat(skin::thickness_mm(&fillet.species))
            } else {
                0.0
            },
            area,
            conductance,
            pan: stove.pan,
            heat: stove.heat,
            room_c: stove.room_c,
        })
    }
}
