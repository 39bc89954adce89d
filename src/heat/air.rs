//! The kitchen air above the fish: it cools the top by convection and radiation, and dries it.

/// Convection from a small flat piece in a still kitchen, W/(m²·K) (from memory, not verified).
pub const CONVECTION: f64 = 8.0;
/// Radiation near 40 °C, W/(m²·K): 4·σ·0.95·(313 K)³, Stefan-Boltzmann linearised.
pub const RADIATION: f64 = 6.6;
/// Share of saturation in the kitchen's air (our choice).
pub const HUMIDITY: f64 = 0.5;
/// Heat to evaporate a kilogram of water near 60 °C, J/kg.
pub const LATENT: f64 = 2.36e6;

/// Vapour flux for a film that carries 1 W/(m²·K), kg/(s·m²·Pa): the Chilton-Colburn analogy
/// between heat and mass transfer, Mw/(R·T)/(ρ·cp·Le^⅔) at 40 °C with Le = 0.85 (from memory, not
/// verified).
const LEWIS: f64 = 0.018_015 / (8.314 * 313.0) / (1.127 * 1007.0 * 0.897);

/// Vapour pressure over water, Pa, and its slope, Pa/K, at `t` °C.
///
/// Antoine's equation with the usual coefficients for 1 to 100 °C (from memory; checked in the
/// tests against steam tables).
#[must_use]
pub fn vapour(t: f64) -> (f64, f64) {
    const A: f64 = 8.07131;
    const B: f64 = 1730.63;
    const C: f64 = 233.426;
    const MMHG: f64 = 133.322;
    // Flesh is never colder than freezing nor hotter than boiling; Newton's first guess may be.
    let t = t.clamp(-20.0, 120.0);
    let p = MMHG * 10.0_f64.powf(A - B / (C + t));
    (p, p * std::f64::consts::LN_10 * B / ((C + t) * (C + t)))
}

/// What the top of the fish gives to the air.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Above {
    /// Convection, W/(m²·K).
    pub convection: f64,
    /// Radiation, W/(m²·K).
    pub radiation: f64,
    /// Air and walls, °C.
    pub air_c: f64,
    /// Vapour pressure of that air over wet flesh, Pa; None over crisp skin, which gives none off.
    pub vapour_pa: Option<f64>,
}

impl Above {
    /// The air of a kitchen at `air_c`, over a wet top or a dry one.
    #[must_use]
    pub fn kitchen(air_c: f64, wet: bool) -> Self {
        Self {
            convection: CONVECTION,
            radiation: RADIATION,
            air_c,
            vapour_pa: wet.then(|| HUMIDITY * vapour(air_c).0),
        }
    }

    /// Dry heat given to the air by a surface at `t` °C, W/m².
    #[must_use]
    pub fn dry(&self, t: f64) -> f64 {
        (self.convection + self.radiation) * (t - self.air_c)
    }

    /// Heat that leaves with vapour from a surface at `t` °C, W/m², and its slope, W/(m²·K).
    ///
    /// A surface colder than the dew point takes nothing up: drops on the fish are not modelled.
    #[must_use]
    pub fn evaporation(&self, t: f64) -> (f64, f64) {
        let Some(air) = self.vapour_pa else {
            return (0.0, 0.0);
        };
        let (p, slope) = vapour(t);
        let drive = p - air;
        if drive <= 0.0 {
            return (0.0, 0.0);
        }
        let scale = LATENT * LEWIS * self.convection;
        (scale * drive, scale * slope)
    }
}
