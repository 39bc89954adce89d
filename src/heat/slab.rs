//! One-dimensional conduction through the thickness of a fillet, from the pan to the air.
//!
//! Finite volumes about nodes, the outermost on the two faces. Each volume keeps its mass, and its
//! heat is the exact integral of the heat capacity, so that what a step adds to the flesh is what
//! crossed its faces, to rounding. Time goes by backward Euler, not a scheme of second order: it
//! can't ring and can't overshoot its sources at any step, whatever the contact, and its error over
//! steps of a second or two is smaller than what a cook's clock shows.

use std::rc::Rc;

use super::air::Above;
use super::base::{Base, BurnerState};
use super::food::{Flesh, at, integral};
use super::tridiagonal::{BandRow, solve};

/// Where a wet face stops heating: what comes beyond boils water away. A crust that dries and
/// passes this is not modelled. Measured so for a wet base on plates of 160 to 260 °C: Cernela et
/// al. 2015, *J. Food Eng.* 146:99-106.
pub const BOIL_C: f64 = 100.0;

/// Volumes through the thickness less one; even, so that one node lies midway.
const INTERVALS: usize = 20;
/// Newton stops at this change, K. The error falls with its square (some 1e-4 of it), so that what is
/// left is 1e-10 K.
const STILL: f64 = 1e-3;
/// More than any step needs: the switches of face and flame take a few.
const MOST_ROUNDS: usize = 40;

/// Heat that moved in one step, J/m². Out of the flesh counts positive for the last three.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Flows {
    /// From the burner into the pan.
    pub burner: f64,
    /// From the pan to the kitchen.
    pub lost: f64,
    /// From the pan into the contact.
    pub contact: f64,
    /// Of that, boiled away at the contact.
    pub boiled: f64,
    /// From the top by convection and radiation.
    pub dry: f64,
    /// From the top with vapour.
    pub vapour: f64,
}

/// A fillet on its base.
#[derive(Clone, Debug)]
pub struct Slab {
    flesh: Flesh,
    spacing: f64,
    masses: Rc<[f64]>,
    temps: Vec<f64>,
    base_c: f64,
    boiling: bool,
    flame: BurnerState,
    scratch: Scratch,
}

/// Room for one step's sums. A copy starts empty: the search for a time keeps hundreds of slabs,
/// and few of them go on.
#[derive(Debug, Default)]
struct Scratch {
    rows: Vec<BandRow>,
    links: Vec<f64>,
    before: Vec<f64>,
}

impl Clone for Scratch {
    fn clone(&self) -> Self {
        Self::default()
    }
}

impl Slab {
    /// A slab of `thickness` m at `start_c` all through, over a base at `base_c`.
    #[must_use]
    pub fn new(flesh: Flesh, thickness: f64, start_c: f64, base_c: f64) -> Self {
        Self::with_intervals(flesh, thickness, start_c, base_c, INTERVALS)
    }

    /// The same on a grid of `intervals` (at least two), for checks of the grid itself.
    #[must_use]
    pub fn with_intervals(
        flesh: Flesh,
        thickness: f64,
        start_c: f64,
        base_c: f64,
        intervals: usize,
    ) -> Self {
        let intervals = intervals.max(2);
        let spacing = thickness / intervals as f64;
        let mass = flesh.density * spacing;
        let mut masses = vec![mass; intervals + 1];
        if let Some(face) = masses.first_mut() {
            *face = mass / 2.0;
        }
        if let Some(face) = masses.last_mut() {
            *face = mass / 2.0;
        }
        Self {
            flesh,
            spacing,
            masses: masses.into(),
            temps: vec![start_c; intervals + 1],
            base_c,
            boiling: false,
            flame: BurnerState::Off,
            scratch: Scratch::default(),
        }
    }

    /// Temperatures from the base upwards, °C, evenly spaced, faces included.
    #[must_use]
    pub fn temps(&self) -> &[f64] {
        &self.temps
    }

    /// The base's own temperature, °C.
    #[must_use]
    pub fn base_c(&self) -> f64 {
        self.base_c
    }

    /// Temperature at a share of the thickness above the base (0 to 1), °C.
    #[must_use]
    pub fn at(&self, share: f64) -> f64 {
        let place = share.clamp(0.0, 1.0) * (self.temps.len() - 1) as f64;
        let low = place.floor() as usize;
        let below = self.temps.get(low).copied().unwrap_or_default();
        let above = self.temps.get(low + 1).copied().unwrap_or(below);
        below + (above - below) * (place - low as f64)
    }

    /// Heat in the flesh above 0 °C, J/m².
    #[must_use]
    pub fn heat(&self) -> f64 {
        self.masses
            .iter()
            .zip(&self.temps)
            .map(|(m, t)| m * integral(self.flesh.cp, *t))
            .sum()
    }

    /// Turns the fillet over on the same base.
    pub fn turn(&mut self) {
        self.temps.reverse();
    }

    /// Lays the fillet on another base.
    pub fn lay(&mut self, base_c: f64) {
        self.base_c = base_c;
        self.boiling = false;
    }

    /// Goes on by `dt` s over `base` through a contact of `conductance` W/(m²·K), under `above`.
    pub fn step(&mut self, dt: f64, conductance: f64, base: &Base, above: &Above) -> Flows {
        let base_before = self.base_c;
        self.scratch.before.clear();
        self.scratch.before.extend(
            self.masses
                .iter()
                .zip(&self.temps)
                .map(|(m, t)| m * integral(self.flesh.cp, *t)),
        );
        self.scratch.links.clear();
        self.scratch.links.extend(
            self.temps
                .iter()
                .zip(self.temps.iter().skip(1))
                .map(|(a, b)| at(self.flesh.k, (a + b) / 2.0) / self.spacing),
        );
        self.scratch.links.push(0.0);
        for _ in 0..MOST_ROUNDS {
            self.assemble(dt, conductance, base, base_before, above);
            solve(&mut self.scratch.rows);
            let mut change = 0.0_f64;
            for (t, row) in std::iter::once(&mut self.base_c)
                .chain(&mut self.temps)
                .zip(&self.scratch.rows)
            {
                *t += row.right;
                change = change.max(row.right.abs());
            }
            let was = (self.boiling, self.flame);
            self.boiling = if self.boiling {
                self.spare(dt, conductance) > 0.0
            } else {
                self.face() > BOIL_C
            };
            if let Base::Pan {
                burner: Some(burner),
                ..
            } = base
            {
                self.flame = burner.next(self.base_c, self.flame);
            }
            if change < STILL && was == (self.boiling, self.flame) {
                break;
            }
        }
        self.flows(dt, conductance, base, above)
    }

    fn face(&self) -> f64 {
        self.temps.first().copied().unwrap_or_default()
    }

    /// What the contact brings beyond what the flesh takes up at its face, W/m².
    fn spare(&self, dt: f64, conductance: f64) -> f64 {
        let mut nodes = self
            .masses
            .iter()
            .zip(&self.temps)
            .zip(&self.scratch.before);
        let Some(((mass, face), before)) = nodes.next() else {
            return 0.0;
        };
        let next = self.temps.get(1).copied().unwrap_or(*face);
        let link = self.scratch.links.first().copied().unwrap_or_default();
        conductance * (self.base_c - face)
            - (mass * integral(self.flesh.cp, *face) - before) / dt
            - link * (face - next)
    }

    /// Newton's equations for the change of every temperature: the base first, then upwards.
    fn assemble(
        &mut self,
        dt: f64,
        conductance: f64,
        base: &Base,
        base_before: f64,
        above: &Above,
    ) {
        let mut inflow = conductance * (self.base_c - self.face());
        self.scratch.rows.clear();
        self.scratch.rows.push(match base {
            Base::Held(c) => BandRow {
                diagonal: 1.0,
                right: c - self.base_c,
                ..BandRow::default()
            },
            Base::Pan {
                capacity,
                loss,
                room_c,
                burner,
            } => {
                let (power, slope) = burner.map_or((0.0, 0.0), |b| b.at(self.base_c, self.flame));
                BandRow {
                    lower: 0.0,
                    diagonal: capacity / dt + loss + conductance - slope,
                    upper: -conductance,
                    right: power
                        - loss * (self.base_c - room_c)
                        - inflow
                        - capacity * (self.base_c - base_before) / dt,
                }
            }
        });
        let mut link_below = conductance;
        let above_each = self.temps.iter().skip(1).chain(std::iter::once(&0.0));
        for ((((t, next), link), mass), before) in self
            .temps
            .iter()
            .zip(above_each)
            .zip(&self.scratch.links)
            .zip(self.masses.iter())
            .zip(&self.scratch.before)
        {
            let outflow = link * (t - next);
            self.scratch.rows.push(BandRow {
                lower: -link_below,
                diagonal: mass * at(self.flesh.cp, *t) / dt + link_below + link,
                upper: -link,
                right: inflow - outflow - (mass * integral(self.flesh.cp, *t) - before) / dt,
            });
            (inflow, link_below) = (outflow, *link);
        }
        if let (Some(top), Some(t)) = (self.scratch.rows.last_mut(), self.temps.last()) {
            let (vapour, slope) = above.evaporation(*t);
            top.right -= above.dry(*t) + vapour;
            top.diagonal += above.convection + above.radiation + slope;
        }
        if self.boiling
            && let Some(face) = self.scratch.rows.get_mut(1)
        {
            *face = BandRow {
                diagonal: 1.0,
                right: BOIL_C - self.temps.first().copied().unwrap_or(BOIL_C),
                ..BandRow::default()
            };
        }
    }

    fn flows(&self, dt: f64, conductance: f64, base: &Base, above: &Above) -> Flows {
        let top = self.temps.last().copied().unwrap_or_default();
        let (burner, lost) = match base {
            Base::Held(_) => (0.0, 0.0),
            Base::Pan {
                loss,
                room_c,
                burner,
                ..
            } => (
                burner.map_or(0.0, |b| b.at(self.base_c, self.flame).0),
                loss * (self.base_c - room_c),
            ),
        };
        Flows {
            burner: dt * burner,
            lost: dt * lost,
            contact: dt * conductance * (self.base_c - self.face()),
            boiled: if self.boiling {
                dt * self.spare(dt, conductance)
            } else {
                0.0
            },
            dry: dt * above.dry(top),
            vapour: dt * above.evaporation(top).0,
        }
    }
}
