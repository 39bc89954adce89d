//! One fillet followed second by second: skin side down, turned, lifted, rested.

use serde::{Deserialize, Serialize};

use super::air::Above;
use super::base::Base;
use super::dryness::{DRY_C, Dryness};
use super::food::at;
use super::slab::{Flows, Slab};
use super::stove::Setup;

/// Contact with paper on a board at room temperature, W/(m²·K) (our choice, about that of still
/// air; no source).
const PAPER: f64 = 10.0;

/// Steps in the time heat takes through the thickness, L²/α: what a step is long.
const STEPS: f64 = 400.0;

/// In the rest everything slows down: a step may be as long as this part of what has passed.
const REST_SHARE: u32 = 10;

/// When a fillet is turned and lifted, s after it went in. The heat is off from the turn.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Times {
    /// Turned.
    pub turn: u32,
    /// Lifted onto paper.
    pub lift: u32,
}

/// What every part of the thickness must have been through.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct CoreGoal {
    /// Reached, °C.
    pub core_c: f64,
    /// Held without a break: °C and s.
    pub hold: Option<(f64, u32)>,
}

/// The history of one depth.
#[derive(Clone, Copy, Debug)]
struct Part {
    peak_c: f64,
    peak_at: u32,
    /// Seconds at or above the counted temperature without a break; None while below.
    run: Option<u32>,
    held: u32,
    dry_secs: u32,
}

/// Where the fillet is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum CookStage {
    /// Skin side down, heat on.
    Skin,
    /// Turned, heat off.
    Finish,
    /// On paper.
    Rest,
}

/// One to four seconds: a thin fillet changes faster, and nobody lifts by the half second.
fn step_secs(s: &Setup) -> u32 {
    let diffusivity = at(s.flesh.k, 40.0) / (s.flesh.density * at(s.flesh.cp, 40.0));
    (s.thickness * s.thickness / diffusivity / STEPS).clamp(1.0, 4.0) as u32
}

/// The contact, what is under the fillet and the air above it.
fn surroundings(s: &Setup, stage: CookStage) -> (f64, Base, Above) {
    let pan = |heat| s.pan.under(s.area, s.room_c, heat);
    let (conductance, base, wet) = match stage {
        CookStage::Skin => (s.conductance, pan(Some(s.heat)), true),
        CookStage::Finish => (s.conductance, pan(None), !s.skin),
        CookStage::Rest => (PAPER, Base::Held(s.room_c), !s.skin),
    };
    (conductance, base, Above::kitchen(s.room_c, wet))
}

/// A fillet on its way, in steps of whole seconds.
#[derive(Clone, Debug)]
pub struct Course<'a> {
    setup: &'a Setup,
    slab: Slab,
    stage: CookStage,
    secs: u32,
    parts: Vec<Part>,
    hold_c: f64,
    rising: bool,
    boiled: f64,
    step_secs: u32,
    since: u32,
    surroundings: (f64, Base, Above),
}

impl<'a> Course<'a> {
    /// The fillet as it goes into the hot pan; time at or above `hold_c` is counted.
    #[must_use]
    pub fn start(setup: &'a Setup, hold_c: f64) -> Self {
        let slab = Slab::new(
            setup.flesh,
            setup.thickness,
            setup.start_c,
            setup.heat.set_c,
        );
        let part = Part {
            peak_c: setup.start_c,
            peak_at: 0,
            run: None,
            held: 0,
            dry_secs: 0,
        };
        Self {
            setup,
            parts: vec![part; slab.temps().len()],
            slab,
            stage: CookStage::Skin,
            secs: 0,
            hold_c,
            rising: true,
            boiled: 0.0,
            step_secs: step_secs(setup),
            since: 0,
            surroundings: surroundings(setup, CookStage::Skin),
        }
    }

    /// Seconds since it went in.
    #[must_use]
    pub fn secs(&self) -> u32 {
        self.secs
    }

    /// Where it is.
    #[must_use]
    pub fn stage(&self) -> CookStage {
        self.stage
    }

    /// The fillet.
    #[must_use]
    pub fn slab(&self) -> &Slab {
        &self.slab
    }

    /// Midway through the thickness, where a probe's tip is held, °C.
    #[must_use]
    pub fn middle(&self) -> f64 {
        self.slab.at(0.5)
    }

    /// Turns it; the heat goes off.
    pub fn turn(&mut self) {
        self.slab.turn();
        self.parts.reverse();
        self.enter(CookStage::Finish);
    }

    /// Lifts it onto paper, skin up.
    pub fn lift(&mut self) {
        self.slab.lay(self.setup.room_c);
        self.enter(CookStage::Rest);
    }

    fn enter(&mut self, stage: CookStage) {
        self.stage = stage;
        self.since = self.secs;
        self.surroundings = surroundings(self.setup, stage);
    }

    /// Goes on for a step, but not beyond `until`.
    pub fn step(&mut self, until: u32) -> Flows {
        let smooth = match self.stage {
            CookStage::Rest => (self.secs - self.since) / REST_SHARE,
            CookStage::Skin | CookStage::Finish => 0,
        };
        let dt = self
            .step_secs
            .max(smooth)
            .min(until.saturating_sub(self.secs));
        if dt == 0 {
            return Flows::default();
        }
        let (conductance, base, above) = self.surroundings;
        let flows = self.slab.step(f64::from(dt), conductance, &base, &above);
        self.secs += dt;
        if self.stage == CookStage::Skin {
            self.boiled += flows.boiled;
        }
        self.rising = false;
        for (part, t) in self.parts.iter_mut().zip(self.slab.temps()) {
            if *t > part.peak_c {
                part.peak_c = *t;
                part.peak_at = self.secs;
                self.rising = true;
            }
            // The step in which the temperature is passed doesn't count.
            part.run = (*t >= self.hold_c).then(|| part.run.map_or(0, |run| run + dt));
            part.held = part.held.max(part.run.unwrap_or_default());
            if *t >= DRY_C {
                part.dry_secs += dt;
            }
        }
        flows
    }

    /// Goes on to `until` or, if that is earlier, past the turn and the lift of `times`.
    pub fn follow(&mut self, times: Times, until: u32) {
        while self.step_by(times, until) {}
    }

    /// One step of `follow`; false when there is none left.
    pub fn step_by(&mut self, times: Times, until: u32) -> bool {
        if self.stage == CookStage::Skin && self.secs >= times.turn {
            self.turn();
        }
        if self.stage == CookStage::Finish && self.secs >= times.lift {
            self.lift();
        }
        let next = match self.stage {
            CookStage::Skin => until.min(times.turn),
            CookStage::Finish => until.min(times.lift),
            CookStage::Rest => until,
        };
        self.step(next);
        self.secs < until
    }

    /// The part with the lowest peak: that peak, °C, and when it came, s.
    #[must_use]
    pub fn core(&self) -> (f64, u32) {
        self.parts
            .iter()
            .min_by(|a, b| a.peak_c.total_cmp(&b.peak_c))
            .map_or((self.setup.start_c, 0), |p| (p.peak_c, p.peak_at))
    }

    /// The shortest time any part was held at or above the temperature that is counted, s.
    #[must_use]
    pub fn held(&self) -> u32 {
        self.parts.iter().map(|p| p.held).min().unwrap_or_default()
    }

    /// How much of the flesh has got dry so far.
    #[must_use]
    pub fn dryness(&self) -> Dryness {
        Dryness::of(self.parts.iter().map(|part| (part.peak_c, part.dry_secs)))
    }

    /// How much of the skin has dried, as a share of its thickness: 1 where there is none.
    #[must_use]
    pub fn skin_dried(&self) -> f64 {
        if self.boiled >= self.setup.drying_heat {
            1.0
        } else {
            self.boiled / self.setup.drying_heat
        }
    }

    /// Every part has been through `goal`.
    #[must_use]
    pub fn has(&self, goal: CoreGoal) -> bool {
        self.core().0 >= goal.core_c && goal.hold.is_none_or(|(_, secs)| self.held() >= secs)
    }

    /// Some part still gets hotter than it ever was, or is being held.
    #[must_use]
    pub fn goes_on(&self) -> bool {
        self.rising || self.parts.iter().any(|p| p.run.is_some())
    }
}
