//! What the flesh is made of, and how it carries heat: density, heat capacity and conductivity
//! from composition and temperature.
//!
//! Source of the component equations: Choi & Okos 1986, *Food Engineering and Process
//! Applications* 1:93-101, as carried by the ASHRAE Handbook Refrigeration 2006, chapter 9;
//! valid to 150 °C, here from 0 °C (flesh that is not frozen).

use serde::{Deserialize, Serialize};

use super::refusals::NoFlesh;
use crate::base::refusal::Refusal;

/// `a + b·T + c·T²` with T in °C.
pub type Quadratic = [f64; 3];

/// The value of a quadratic at `t` °C.
#[must_use]
pub fn at([a, b, c]: Quadratic, t: f64) -> f64 {
    a + t * (b + t * c)
}

/// The integral of a quadratic from 0 °C to `t` °C.
#[must_use]
pub fn integral([a, b, c]: Quadratic, t: f64) -> f64 {
    t * (a + t * (b / 2.0 + t * c / 3.0))
}

struct Component {
    density: Quadratic,
    cp: Quadratic,
    k: Quadratic,
}

const WATER: Component = Component {
    density: [9.9718e2, 3.1439e-3, -3.7574e-3],
    cp: [4.1289e3, -9.0864e-2, 5.4731e-3],
    k: [5.7109e-1, 1.7625e-3, -6.7036e-6],
};
const PROTEIN: Component = Component {
    density: [1.3299e3, -5.1840e-1, 0.0],
    cp: [2.0082e3, 1.2089, -1.3129e-3],
    k: [1.7881e-1, 1.1958e-3, -2.7178e-6],
};
const FAT: Component = Component {
    density: [9.2559e2, -4.1757e-1, 0.0],
    cp: [1.9842e3, 1.4733, -4.8008e-3],
    k: [1.8071e-1, -2.7604e-4, -1.7749e-7],
};
const ASH: Component = Component {
    density: [2.4238e3, -2.8063e-1, 0.0],
    cp: [1.0926e3, 1.8896, -3.6817e-3],
    k: [3.2962e-1, 1.4011e-3, -2.9069e-6],
};

/// Mass fractions of raw flesh; they add up to one.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Composition {
    /// Water, kg per kg.
    pub water: f64,
    /// Protein, kg per kg.
    pub protein: f64,
    /// Fat, kg per kg.
    pub fat: f64,
    /// Ash (minerals), kg per kg.
    pub ash: f64,
}

/// What flesh of one composition is like at one temperature.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Properties {
    /// Density, kg/m³: 1/Σ(xᵢ/ρᵢ).
    pub density: f64,
    /// Heat capacity, J/(kg·K): Σ xᵢ·cpᵢ.
    pub cp: f64,
    /// Conductivity with the components side by side, W/(m·K): Σ φᵢ·kᵢ, φ by volume.
    pub k_parallel: f64,
    /// Conductivity with the components one behind the other, W/(m·K): 1/Σ(φᵢ/kᵢ).
    pub k_series: f64,
}

/// Flesh as the slab sees it: mass per volume fixed, the rest smooth in temperature.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Flesh {
    /// Density, kg/m³, at the temperature it went into the pan.
    pub density: f64,
    /// Heat capacity, J/(kg·K).
    pub cp: Quadratic,
    /// Conductivity, W/(m·K).
    pub k: Quadratic,
}

impl Composition {
    /// A composition from an analysis in g per 100 g, brought to a sum of one: separate assays
    /// rarely add up to 100.
    ///
    /// # Errors
    /// When a part is negative or not a number, there is no water, or the sum is far from 100.
    pub fn from_analysis(water: f64, protein: f64, fat: f64, ash: f64) -> Result<Self, Refusal> {
        let parts = [water, protein, fat, ash];
        let sum: f64 = parts.iter().sum();
        if parts.iter().any(|p| !(0.0..=110.0).contains(p))
            || water <= 0.0
            || !(90.0..=110.0).contains(&sum)
        {
            return Err(NoFlesh::Parts.into());
        }
        Ok(Self {
            water: water / sum,
            protein: protein / sum,
            fat: fat / sum,
            ash: ash / sum,
        })
    }

    fn parts(&self) -> [(f64, &'static Component); 4] {
        [
            (self.water, &WATER),
            (self.protein, &PROTEIN),
            (self.fat, &FAT),
            (self.ash, &ASH),
        ]
    }

    /// Density, heat capacity and conductivity at `t` °C (0 to 150).
    #[must_use]
    pub fn properties(&self, t: f64) -> Properties {
        let parts = self.parts();
        let volume: f64 = parts.iter().map(|(x, c)| x / at(c.density, t)).sum();
        let density = 1.0 / volume;
        let share = |x: f64, c: &Component| x * density / at(c.density, t);
        Properties {
            density,
            cp: parts.iter().map(|(x, c)| x * at(c.cp, t)).sum(),
            k_parallel: parts.iter().map(|(x, c)| share(*x, c) * at(c.k, t)).sum(),
            k_series: 1.0
                / parts
                    .iter()
                    .map(|(x, c)| share(*x, c) / at(c.k, t))
                    .sum::<f64>(),
        }
    }

    /// The flesh for a slab that starts at `start_c`.
    ///
    /// Conductivity is the parallel mixture: measured lean fish lies near it (from memory, not
    /// verified). Its curve is nearly a parabola and is drawn through 0, 50 and 100 °C.
    #[must_use]
    pub fn flesh(&self, start_c: f64) -> Flesh {
        let mut cp = [0.0; 3];
        for (x, component) in self.parts() {
            for (sum, c) in cp.iter_mut().zip(component.cp) {
                *sum += x * c;
            }
        }
        let k = |t| self.properties(t).k_parallel;
        let (k0, k50, k100) = (k(0.0), k(50.0), k(100.0));
        let c = (k0 - 2.0 * k50 + k100) / (2.0 * 50.0 * 50.0);
        let b = (k100 - k0) / 100.0 - 100.0 * c;
        Flesh {
            density: self.properties(start_c).density,
            cp,
            k: [k0, b, c],
        }
    }
}

/// A fish, what its flesh is made of, and where the figures come from.
#[derive(Clone, Debug, PartialEq)]
pub struct FishFlesh {
    /// The name asked for, or the key itself when it is not in the list.
    pub name: String,
    /// Raw flesh.
    pub composition: Composition,
    /// Table and number of the analysis.
    pub source: String,
    /// The fish whose figures stand in, when this one has none of its own.
    pub stand_in: Option<StandIn>,
}

/// A fish whose flesh stands in for that of another. Which one is our choice: no source.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct StandIn {
    /// Its name.
    pub name: String,
    /// Whether it is the nearest relative with an analysis; a lean white fish otherwise.
    pub relative: bool,
}

impl StandIn {
    /// That it is one, said to the cook.
    #[must_use]
    pub fn sentence(&self) -> String {
        let why = if self.relative {
            "its nearest relative that has one"
        } else {
            "a lean white fish"
        };
        format!(
            "No analysis of this fish is at hand: its flesh is taken to be like that of {}, {why}. Our choice, no source.",
            self.name
        )
    }
}

#[derive(serde::Deserialize)]
struct Analysis {
    key: String,
    name: String,
    source: String,
    id: String,
    water: f64,
    protein: f64,
    fat: f64,
    ash: f64,
}

#[derive(serde::Deserialize)]
struct Nearest {
    key: String,
    name: String,
    nearest: String,
    /// Whether that is a relative; a lean white fish otherwise.
    relative: bool,
}

/// Lean white fish: what an unlisted species is taken for.
const UNLISTED: &str = "snapper";

fn rows<T: serde::de::DeserializeOwned>(text: &str) -> Result<Vec<T>, NoFlesh> {
    csv::Reader::from_reader(text.as_bytes())
        .deserialize()
        .collect::<Result<_, _>>()
        .map_err(|why: csv::Error| NoFlesh::Table(why.to_string()))
}

/// Every key with a composition or a stand-in, with its name, in the order of the tables.
///
/// # Errors
/// When a table can't be read.
pub fn species() -> Result<Vec<(String, String)>, Refusal> {
    let analyses: Vec<Analysis> = rows(include_str!("composition.csv"))?;
    let stand_ins: Vec<Nearest> = rows(include_str!("stand_ins.csv"))?;
    Ok(analyses
        .into_iter()
        .map(|a| (a.key, a.name))
        .chain(stand_ins.into_iter().map(|s| (s.key, s.name)))
        .collect())
}

/// The fish known by `key`. A species without an analysis takes its nearest relative's, and an
/// unlisted one a lean white fish's; either is said in `stand_in`.
///
/// # Errors
/// When a table can't be read.
pub fn fish(key: &str) -> Result<FishFlesh, Refusal> {
    let analyses: Vec<Analysis> = rows(include_str!("composition.csv"))?;
    let stand_ins: Vec<Nearest> = rows(include_str!("stand_ins.csv"))?;
    let listed = stand_ins.into_iter().find(|s| s.key == key);
    let own = analyses.iter().any(|a| a.key == key);
    let wanted = match &listed {
        _ if own => key,
        Some(s) => s.nearest.as_str(),
        None => UNLISTED,
    };
    let found = analyses
        .into_iter()
        .find(|a| a.key == wanted)
        .ok_or_else(|| NoFlesh::Unlisted(wanted.to_owned()))?;
    Ok(FishFlesh {
        composition: Composition::from_analysis(found.water, found.protein, found.fat, found.ash)?,
        source: format!("{} {}", found.source, found.id),
        stand_in: (!own).then(|| StandIn {
            name: found.name.clone(),
            relative: listed.as_ref().is_some_and(|listed| listed.relative),
        }),
        name: match listed {
            _ if own => found.name,
            Some(s) => s.name,
            None => key.to_owned(),
        },
    })
}
