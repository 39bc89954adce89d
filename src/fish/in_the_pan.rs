//! The panful in hand as it really went: what was planned, what was done, and what follows from it in a cook's words.

use super::estimate::Estimate;
use crate::base::instant::Instant;
use crate::base::stretch::stretch;
use crate::fish::record::Fish;
use crate::heat::band::Banded;
use crate::heat::cook::SoFar;
use crate::heat::course::CookStage;
use crate::service::dish::laid_out::{FishTimes, panful};
use crate::service::dish::step::{OfFish, Step};
use crate::service::run::step_run::StepRun;

/// What lies no further off than this is as planned: nobody turns a fish by the second, s (our choice).
pub const AS_PLANNED_SECS: i64 = 15;
/// What comes within this is now, s (our choice).
const NOW_SECS: i64 = 10;
/// How much hotter than aimed at the middle may get before it is said that it dries, K (our choice).
const HOTTER_K: f64 = 3.0;
/// What is said of a fish that is to be turned.
const TURN_NOW: &str = "turn it now, heat off.";
/// What nobody has done yet is asked about anew this often, s.
const EVERY_SECS: u32 = 10;

/// The panful in hand. Lengths are in seconds, moments in seconds since it went in.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct InThePan {
    /// Which panful of the service it is, from 1.
    pub panful: u32,
    /// Whether others are in hand as well, so that it has to be said which one is meant.
    pub is_one_of_many: bool,
    /// Where it is.
    pub stage: CookStage,
    /// What has been done, and the moment itself.
    pub so_far: SoFar,
    /// When it was to be turned.
    pub turn_planned: i64,
    /// When it was to be lifted, counted from when it was really turned.
    pub lift_planned: i64,
    /// The time that is planned for the look at its middle, before it is lifted.
    pub look: i64,
    /// When the timer of this stage rings; nothing once that was called done.
    pub rings_at: Option<i64>,
    /// How long the timer of this stage stood still.
    pub held: i64,
    /// Whether it stands still now.
    pub is_held: bool,
    /// What the timer of this stage was given on top.
    pub more: i64,
}

/// What follows from how it went.
#[derive(Clone, Debug, PartialEq)]
pub struct WhatFollows {
    /// The panful it follows for.
    pub panful: u32,
    /// In a cook's words.
    pub sentence: String,
    /// The core at its hottest by estimate, °C, and what was wanted, where there is an estimate.
    pub core: Option<(Banded<f64>, f64)>,
    /// What the timers may be set to.
    pub anew: Option<(FishTimes, Option<FishTimes>)>,
}

impl Fish {
    /// Every panful in hand at a moment, until it has rested; the last that went in is first.
    #[must_use]
    pub fn in_hand(&self, at: Instant) -> Vec<InThePan> {
        let mut begun = self.begun_panfuls(at);
        begun.sort_by_key(|(_, began)| std::cmp::Reverse(*began));
        let mut in_hand: Vec<InThePan> = begun
            .into_iter()
            .filter_map(|(number, began)| self.panful_in_the_pan(number, began, at))
            .collect();
        let are_many = in_hand.len() > 1;
        for pan in &mut in_hand {
            pan.is_one_of_many = are_many;
        }
        in_hand
    }

    /// The panful in hand that went in last.
    #[must_use]
    pub fn in_the_pan(&self, at: Instant) -> Option<InThePan> {
        self.in_hand(at).into_iter().next()
    }

    fn panful_in_the_pan(&self, number: u32, began: Instant, at: Instant) -> Option<InThePan> {
        let so_far = self.so_far_of(number, began, at)?;
        let (run, dish) = (self.run.as_ref()?, self.dish().ok()?);
        let missing = &self.slip.missing;
        let step = |part: OfFish| -> Option<(&Step, Option<&StepRun>)> {
            let is_it = |s: &&Step| s.of_fish == Some(part) && panful(&s.id).1 == number;
            let step = dish.steps.iter().find(is_it)?;
            Some((step, run.steps.get(&step.id)))
        };
        let secs = |part: OfFish| step(part).map_or(0, |(step, _)| step.counts_ms(missing) / 1000);
        if let Some((_, Some(rest))) = step(OfFish::Rest)
            && !rest.is_open()
        {
            return None;
        }
        let stage = match (so_far.turned_at, so_far.lifted_at) {
            (None, _) => CookStage::Skin,
            (Some(_), None) => CookStage::Finish,
            (Some(_), Some(_)) => CookStage::Rest,
        };
        let turn_planned = secs(OfFish::SkinSide);
        let turned = so_far.turned_at.map_or(turn_planned, i64::from);
        let own = match stage {
            CookStage::Skin => OfFish::SkinSide,
            CookStage::Finish => OfFish::Finish,
            CookStage::Rest => OfFish::Rest,
        };
        let open = step(own).and_then(|(step, begun)| Some((step, begun.filter(|s| s.is_open())?)));
        Some(InThePan {
            panful: number,
            is_one_of_many: false,
            stage,
            so_far,
            turn_planned,
            lift_planned: turned + secs(OfFish::Finish),
            look: secs(OfFish::Check),
            rings_at: open.and_then(|(step, begun)| {
                let held = begun
                    .held_since
                    .map_or(0, |since| at.ms_since(since).max(0));
                let ends = begun.ends(step.lasts_ms(missing)?).plus_ms(held);
                Some(ends.ms_since(began) / 1000)
            }),
            held: open.map_or(0, |(_, begun)| begun.held_up_to(at) / 1000),
            is_held: open.is_some_and(|(_, begun)| begun.held_since.is_some()),
            more: open.map_or(0, |(_, begun)| begun.extra_ms.max(0) / 1000),
        })
    }
}

impl InThePan {
    /// While the next tap on the fish is late, the moment of it in strides: what is asked of the estimate must not change
    /// with every second.
    pub(super) fn overdue(&self) -> Option<u32> {
        let planned = match self.stage {
            CookStage::Skin => self.turn_planned,
            CookStage::Finish => self.lift_planned + self.look,
            CookStage::Rest => return None,
        };
        let now = self.so_far.now;
        (i64::from(now) >= planned + i64::from(EVERY_SECS)).then(|| now - now % EVERY_SECS)
    }

    /// What follows from how it went, where it went otherwise than planned, or a probe has told more. `estimate` may be
    /// from before the last tap: then only what happened is said.
    #[must_use]
    pub fn follows(&self, estimate: Option<&Estimate>) -> Option<WhatFollows> {
        let probed = estimate.is_some_and(|e| e.is_probed() && e.panful == self.panful);
        let why = self
            .why()
            .or_else(|| probed.then(|| "By the probe".to_owned()))?;
        Some(self.said(&why, estimate))
    }

    /// The same for whoever asks, also where all went as planned.
    #[must_use]
    pub fn asked(&self, estimate: Option<&Estimate>) -> WhatFollows {
        let follows = self.follows(estimate);
        follows.unwrap_or_else(|| WhatFollows {
            // The dish's own times are the cook's choice, as long as nothing moved them.
            anew: None,
            ..self.said("By estimate", estimate)
        })
    }

    fn said(&self, why: &str, estimate: Option<&Estimate>) -> WhatFollows {
        let which = if self.is_one_of_many {
            format!("Batch {}. ", self.panful)
        } else {
            String::new()
        };
        let done = |so_far: SoFar| (so_far.turned_at, so_far.lifted_at);
        let of_this = estimate.and_then(|e| Some((e, e.for_panful(self.panful)?)));
        let of_this = of_this.filter(|(_, (so_far, _))| done(*so_far) == done(self.so_far));
        let Some((estimate, (_, advice))) = of_this else {
            return WhatFollows {
                panful: self.panful,
                sentence: format!("{which}{why}: {}", self.look_for_yourself()),
                core: None,
                anew: None,
            };
        };
        let core = advice.core_peak_c;
        let now = i64::from(self.so_far.now);
        let by_estimate = match self.stage {
            CookStage::Skin => i64::from(advice.skin_secs.best),
            CookStage::Finish => i64::from(advice.lift_at.best),
            CookStage::Rest => now,
        };
        let what = match self.stage {
            CookStage::Skin => match self.beside_the_bell(by_estimate) {
                None => TURN_NOW.to_owned(),
                Some(when) => format!("turn it {when}."),
            },
            CookStage::Finish if !advice.reached => {
                "the pan alone is too cool: low heat on, look inside.".to_owned()
            }
            CookStage::Finish => match self.beside_the_bell(by_estimate) {
                None => "lift now, look inside.".to_owned(),
                Some(when) => format!("lift it {when}."),
            },
            CookStage::Rest if !advice.reached => format!(
                "the middle gets to about {:.0} °C only. Back into the pan, look inside.",
                core.best
            ),
            CookStage::Rest if core.best >= advice.aimed_c + HOTTER_K => {
                format!(
                    "the middle gets to about {:.0} °C and dries. Plate it soon.",
                    core.best
                )
            }
            CookStage::Rest => {
                format!("the middle gets to about {:.0} °C. Let it rest.", core.best)
            }
        };
        // What both put behind us is there already.
        let differs = self
            .rings_at
            .is_some_and(|rings| (rings.max(now) - by_estimate.max(now)).abs() >= NOW_SECS);
        let may_set = differs && !self.is_held && self.stage != CookStage::Rest;
        WhatFollows {
            panful: self.panful,
            sentence: format!("{which}{why}: {what}"),
            core: Some((core, estimate.core_c)),
            anew: may_set.then(|| (FishTimes::from(advice), estimate.next)),
        }
    }

    /// What happened otherwise than planned, the latest first; nothing where all went as planned.
    fn why(&self) -> Option<String> {
        let now = i64::from(self.so_far.now);
        let turned = self.so_far.turned_at.map(i64::from);
        let lifted = self.so_far.lifted_at.map(i64::from);
        let moved = || {
            let cooks_on = if self.is_held {
                ", the fish cooks on"
            } else {
                ""
            };
            let held = (self.held >= AS_PLANNED_SECS)
                .then(|| format!("Timer held {}{cooks_on}", plain(self.held)));
            let more = (self.more >= AS_PLANNED_SECS).then(|| format!("{} more", plain(self.more)));
            held.or(more)
        };
        let turned_off = || off("Turned", turned? - self.turn_planned, 0);
        match self.stage {
            CookStage::Skin => {
                moved().or_else(|| overdue("Not turned yet,", now - self.turn_planned, 0))
            }
            CookStage::Finish => turned_off()
                .or_else(moved)
                .or_else(|| overdue("Not lifted yet,", now - self.lift_planned, self.look)),
            CookStage::Rest => {
                off("Lifted", lifted? - self.lift_planned, self.look).or_else(turned_off)
            }
        }
    }

    /// When something is to be done that the estimate puts at `at`, said beside the bell of the timer: so that no second
    /// hour stands beside the timer's. Nothing where it is now.
    fn beside_the_bell(&self, at: i64) -> Option<String> {
        let left = at - i64::from(self.so_far.now);
        if left <= NOW_SECS {
            return None;
        }
        let Some(rings) = self
            .rings_at
            .filter(|rings| *rings > i64::from(self.so_far.now))
        else {
            return Some(format!("in about {}", plain(left)));
        };
        Some(match rings - at {
            apart if apart.abs() < NOW_SECS => "when it rings".to_owned(),
            apart if apart > 0 => format!("{} before it rings", plain(apart)),
            apart => format!("{} after it rings", plain(apart)),
        })
    }

    fn has_rung(&self) -> bool {
        let now = i64::from(self.so_far.now);
        self.rings_at.is_some_and(|rings| rings <= now)
    }

    /// What is said where there is no estimate.
    fn look_for_yourself(&self) -> &'static str {
        match self.stage {
            CookStage::Skin if self.has_rung() => TURN_NOW,
            CookStage::Skin => "look before you turn it.",
            CookStage::Finish => "look inside before you lift it.",
            CookStage::Rest => "look inside before you plate it.",
        }
    }
}

/// How far off something was done; nothing where it was as planned, give or take, and `later` on top.
fn off(done: &str, late: i64, later: i64) -> Option<String> {
    let early = || (late <= -AS_PLANNED_SECS).then(|| format!("{done} {} early", plain(late)));
    overdue(done, late, later).or_else(early)
}

/// The same for what has not been done, and so can't be early.
fn overdue(what: &str, late: i64, later: i64) -> Option<String> {
    (late >= AS_PLANNED_SECS + later).then(|| format!("{what} {} late", plain(late)))
}

/// A length as it is said in passing: to five seconds, from a minute on to ten.
fn plain(secs: i64) -> String {
    let secs = secs.abs();
    let to = if secs < 60 { 5 } else { 10 };
    stretch((secs + to / 2) / to * to)
}
