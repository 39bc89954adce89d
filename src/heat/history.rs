//! A course with every depth kept: what a picture shows, and how long each part was hot.

use serde::{Deserialize, Serialize};

use super::cook::{REST_MOST, SoFar};
use super::course::{CookStage, Course, Times};
use super::dryness::Dryness;
use super::safety::seconds_at_70;
use super::stove::Setup;

/// The fillet at one moment of the advised course.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Moment {
    /// Since it went in, s.
    pub secs: u32,
    /// Where it is.
    pub stage: CookStage,
    /// What it lies on, °C.
    pub base_c: f64,
    /// Skin side face, °C.
    pub skin_c: f64,
    /// Midway through the thickness, °C.
    pub middle_c: f64,
    /// Flesh side face, °C.
    pub flesh_c: f64,
    /// How much of the skin has dried, as a share of its thickness.
    pub skin_dried: f64,
}

/// A course with every depth kept, skin side first.
pub(super) struct Record {
    pub(super) moments: Vec<Moment>,
    depths: Vec<Vec<f64>>,
    core: (f64, u32),
    dryness: Dryness,
}

impl Record {
    pub(super) fn of(setup: &Setup, times: Times, so_far: SoFar) -> Self {
        let mut course = Course::start(setup, f64::INFINITY);
        let mut record = Self {
            moments: Vec::new(),
            depths: Vec::new(),
            core: course.core(),
            dryness: Dryness::default(),
        };
        record.keep(&course);
        let end = times.lift + REST_MOST;
        // Stopping where the search began keeps to its steps.
        for until in [so_far.now.min(end), end] {
            while course.step_by(times, until) {
                record.keep(&course);
            }
        }
        record.keep(&course);
        record.core = course.core();
        record.dryness = course.dryness();
        record
    }

    fn keep(&mut self, course: &Course<'_>) {
        let mut temps = course.slab().temps().to_vec();
        if course.stage() != CookStage::Skin {
            temps.reverse();
        }
        self.moments.push(Moment {
            secs: course.secs(),
            stage: course.stage(),
            base_c: course.slab().base_c(),
            skin_c: temps.first().copied().unwrap_or_default(),
            middle_c: course.middle(),
            flesh_c: temps.last().copied().unwrap_or_default(),
            skin_dried: course.skin_dried(),
        });
        self.depths.push(temps);
    }

    pub(super) fn core(&self) -> (f64, u32) {
        self.core
    }

    pub(super) fn dryness(&self) -> Dryness {
        self.dryness
    }

    /// The middle when it is turned, °C.
    pub(super) fn middle_at_turn(&self) -> f64 {
        let skin_side = |m: &&Moment| m.stage == CookStage::Skin;
        let last = self.moments.iter().rev().find(skin_side);
        last.map_or(f64::INFINITY, |moment| moment.middle_c)
    }

    pub(super) fn skin_dry_at(&self) -> Option<u32> {
        let dried = self.moments.iter().find(|m| m.skin_dried >= 1.0);
        dried.map(|moment| moment.secs)
    }

    /// What the heat does at the depth that gets the least of it, as seconds at 70 °C.
    pub(super) fn least_seconds_at_70(&self) -> f64 {
        let count = self.depths.first().map_or(0, Vec::len);
        let at = |depth: usize| {
            let temps = self.depths.iter().map(move |temps| temps.get(depth));
            let moments = self.moments.iter().zip(temps);
            seconds_at_70(moments.filter_map(|(moment, celsius)| Some((moment.secs, *celsius?))))
        };
        (0..count).map(at).fold(f64::INFINITY, f64::min)
    }

    /// The shortest time any depth spends at or above `temp` without a break, s.
    pub(super) fn held(&self, temp: f64) -> u32 {
        let count = self.depths.first().map_or(0, Vec::len);
        (0..count)
            .map(|depth| {
                let (mut since, mut longest) = (None, 0);
                for (temps, moment) in self.depths.iter().zip(&self.moments) {
                    let hot = temps.get(depth).is_some_and(|t| *t >= temp);
                    since = hot.then(|| since.unwrap_or(moment.secs));
                    longest = longest.max(since.map_or(0, |s| moment.secs - s));
                }
                longest
            })
            .min()
            .unwrap_or_default()
    }
}
