//! The heat module against published series, tables and reference libraries.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::indexing_slicing,
    clippy::panic,
    missing_docs
)]

use scaleside::heat::air::{Above, vapour};
use scaleside::heat::food::{self, Composition, Flesh};

mod advice;
mod course;
mod moments;
mod skin;
mod wall;

use serde::Deserialize;

/// Made by `tests/vectors/heat_reference.py`; the file carries the library versions.
#[derive(Deserialize)]
struct Reference {
    cases: Vec<Case>,
    mixtures: Vec<(String, f64, f64, f64, f64, f64)>,
    vapour: Vec<(f64, f64)>,
}

#[derive(Deserialize)]
struct Case {
    name: String,
    species: String,
    thickness: f64,
    mass_g: f64,
    start_c: f64,
    conductance: f64,
    turn: u32,
    lift: u32,
    skin: bool,
    pan_g: f64,
    pan_cp: f64,
    base_mm: f64,
    set_c: f64,
    power_w: f64,
    room_c: f64,
    seen: Vec<(u32, f64, f64, f64, f64)>,
}

fn reference() -> Reference {
    serde_json::from_str(include_str!("../vectors/heat_reference.json")).unwrap()
}

fn near(what: &str, ours: f64, theirs: f64, within: f64) {
    assert!(
        (ours - theirs).abs() <= within,
        "{what}: ours {ours}, outside {theirs}"
    );
}

fn part(parts: [f64; 4]) -> Composition {
    let [water, protein, fat, ash] = parts;
    Composition {
        water,
        protein,
        fat,
        ash,
    }
}

/// CoolProp 8.0.0, INCOMP::FoodWater, FoodProtein, FoodFat, FoodAsh at 20 °C.
#[test]
fn components_are_those_of_coolprop() {
    for (name, parts, density, cp, k) in [
        ("water", [1.0, 0.0, 0.0, 0.0], 995.740, 4129.272, 0.60366),
        ("protein", [0.0, 1.0, 0.0, 0.0], 1319.532, 2031.853, 0.20164),
        ("fat", [0.0, 0.0, 1.0, 0.0], 917.239, 2011.746, 0.17512),
        ("ash", [0.0, 0.0, 0.0, 1.0], 2418.187, 1128.919, 0.35648),
    ] {
        let p = part(parts).properties(20.0);
        near(name, p.density, density, 6e-4);
        near(name, p.cp, cp, 6e-4);
        near(name, p.k_parallel, k, 6e-6);
        near(name, p.k_series, k, 6e-6);
    }
}

/// Mixtures of the same, and the smooth flesh that the slab uses, from 1 to 100 °C.
#[test]
fn mixtures_are_those_of_coolprop() {
    let rows = reference().mixtures;
    assert_eq!(rows.len(), 28);
    for (fish, t, density, cp, parallel, series) in rows {
        let c = food::fish(&fish).unwrap().composition;
        let p = c.properties(t);
        near(&fish, p.density, density, density * 1e-6);
        near(&fish, p.cp, cp, cp * 1e-6);
        near(&fish, p.k_parallel, parallel, parallel * 1e-6);
        near(&fish, p.k_series, series, series * 1e-6);
        let flesh = c.flesh(t);
        near(&fish, food::at(flesh.k, t), parallel, parallel * 5e-4);
        near(&fish, food::at(flesh.cp, t), cp, cp * 1e-6);
        near(&fish, flesh.density, density, density * 1e-6);
    }
}

/// IAPWS-95 by CoolProp: Antoine's curve is within one percent to boiling.
#[test]
fn vapour_pressure_is_that_of_the_steam_tables() {
    for (t, pa) in reference().vapour {
        near("vapour pressure", vapour(t).0, pa, pa * 0.01);
    }
}

/// USDA SR28 and IFCT analyses are used as fractions of one, whatever they add up to.
#[test]
fn every_species_has_a_composition() {
    let species = food::species().unwrap();
    assert!(species.len() >= 25);
    for (key, name) in species {
        let fish = food::fish(&key).unwrap();
        let c = fish.composition;
        near(&name, c.water + c.protein + c.fat + c.ash, 1.0, 1e-12);
        assert_eq!(fish.name, name);
    }
    // The fish of the slip are all known by the key they have there.
    let known: Vec<String> = food::species().unwrap().into_iter().map(|s| s.0).collect();
    for fish in scaleside::trade::species::filleted() {
        assert!(known.iter().any(|key| *key == fish.key), "{}", fish.key);
    }
    let trout = food::fish("rainbow_trout").unwrap();
    assert_eq!(
        (trout.stand_in, trout.source.as_str()),
        (None, "USDA SR28 15240")
    );
    // What has an analysis of its own needs no other's. USDA SR, read in a public copy of its abbreviated file whose release is
    // not named; every figure of release 28 that stood here before is the same in it.
    for (key, source, water) in [
        (
            "herring",
            "USDA SR 15039",
            72.05 / (72.05 + 17.96 + 9.04 + 1.46),
        ),
        (
            "saithe",
            "USDA SR 15065",
            78.18 / (78.18 + 19.44 + 0.98 + 1.41),
        ),
        (
            "halibut",
            "USDA SR 15036",
            80.34 / (80.34 + 18.56 + 1.33 + 1.29),
        ),
    ] {
        let fish = food::fish(key).unwrap();
        assert_eq!((fish.stand_in, fish.source.as_str()), (None, source));
        near(key, fish.composition.water, water, 1e-12);
    }
    let bream = food::fish("gilthead_bream").unwrap();
    let said = |key: &str| food::fish(key).unwrap().stand_in.unwrap().sentence();
    assert!(
        said("gilthead_bream").contains("like that of scup, a sea bream, its nearest relative")
    );
    assert!(said("moonfish").contains("a lean white fish. Our choice, no source."));
    assert_eq!(bream.source, "USDA SR28 15090");
}

const K: f64 = 0.5;
const DENSITY: f64 = 1050.0;
const CP: f64 = 3600.0;
const PLAIN: Flesh = Flesh {
    density: DENSITY,
    cp: [CP, 0.0, 0.0],
    k: [K, 0.0, 0.0],
};
const DIFFUSIVITY: f64 = K / (DENSITY * CP);
const INSULATED: Above = Above {
    convection: 0.0,
    radiation: 0.0,
    air_c: 0.0,
    vapour_pa: None,
};
