//! The skin: how much water must boil out of it before it is crisp.
//!
//! The pan brings more heat to the contact than the flesh above takes up; the rest boils water away, and the front at
//! which it boils moves up through the skin. How far it has come is that heat beside what all the skin's water needs.
//! The dried part leads heat less well and so holds the front back a little: that is not modelled, so the time is the
//! least there is, and the eye decides.

/// Water in raw skin, kg per kg (from memory, not verified).
const WATER: f64 = 0.65;
/// Raw skin, kg/m³ (from memory, not verified).
const DENSITY: f64 = 1050.0;
/// Heat to boil a kilogram of water away at 100 °C, J/kg: the steam tables (IAPWS-95: 2.2564e6).
const BOILING: f64 = 2.2564e6;

/// The skin of most table fish, mm (our choice, no source).
pub const USUAL_MM: f64 = 1.0;
/// The skin of fish that are known for a thin one, mm (our choice, no source).
pub const THIN_MM: f64 = 0.5;
/// They are these, by their keys.
const THIN: [&str; 21] = [
    "mackerel",
    "horse_mackerel",
    "herring",
    "sardine",
    "whiting",
    "hake",
    "haddock",
    "rainbow_trout",
    "brook_trout",
    "char",
    "sea_trout",
    "lemon_sole",
    "flatfish",
    "plaice",
    "dab",
    "flounder",
    "megrim",
    "sprat",
    "anchovy",
    "pouting",
    "red_mullet",
];

/// How thick the skin of a fish is, by its key, mm.
#[must_use]
pub fn thickness_mm(species: &str) -> f64 {
    if THIN.contains(&species) {
        THIN_MM
    } else {
        USUAL_MM
    }
}

/// The heat that boils all the water out of a skin of `mm`, J/m².
#[must_use]
pub fn drying_heat(mm: f64) -> f64 {
    mm / 1000.0 * DENSITY * WATER * BOILING
}
