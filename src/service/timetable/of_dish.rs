//! A dish as the question a plan answers: its steps as tasks, its links as links, what has begun as it was.

use std::collections::BTreeSet;

use serde::{Deserialize, Serialize};

use crate::base::instant::Instant;
use crate::base::kit::Kit;
use crate::base::refusal::Refusal;
use crate::service::dish::Dish;
use crate::service::dish::joined::of_which;
use crate::service::dish::laid_out::{MOST_PANS, panful};
use crate::service::dish::refusals::NoDish;
use crate::service::dish::step;
use crate::service::dish::step::{Begins, Step};
use crate::service::plan::Edge;
use crate::service::plan::WayOut;
use crate::service::plan::{Kitchen, Need, PlanLink, PlanStation, Task};
use crate::service::plan::{Progress, Started};
use crate::service::run::Run;
use crate::service::run::step_run::StepRun;

/// What is planned: a dish laid out, the bench and the cooks.
#[derive(Clone, Copy, Debug)]
pub struct Service<'a> {
    /// The dish, laid out for this service.
    pub dish: &'a Dish,
    /// The kit this bench lacks.
    pub missing: &'a BTreeSet<Kit>,
    /// Cooks at work, up to six.
    pub cooks: u32,
}

/// A dish as a kitchen, plating its last step, and what comes after.
#[derive(Clone, Debug)]
pub(super) struct Stated {
    pub(super) kitchen: Kitchen,
    /// The steps that come after plating has begun, in order.
    pub(super) after: Vec<String>,
    /// The last plates go out so many seconds after the first ones.
    pub(super) later_secs: u32,
}

/// A change of the dish or of the bench after which everything fits.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Change {
    /// A gap before a step is let grow or shrink.
    Gap {
        /// The step that waits.
        step: String,
        /// The step that the gap is measured from.
        to: String,
        /// Whether the greatest gap grows; the least one shrinks otherwise.
        greatest: bool,
        /// By so many seconds.
        by: u32,
    },
    /// So many pans.
    Pans(u32),
    /// One more cook.
    Cook,
    /// Several changes together.
    All(Vec<Change>),
}

impl Dish {
    /// The dish with a way out taken. A gap is changed for every panful alike; the cooks are none of its own.
    #[must_use]
    pub fn eased(&self, change: &Change) -> Self {
        let mut dish = self.clone();
        match change {
            Change::Pans(pans) => dish.pans = *pans,
            Change::Cook => {}
            Change::All(changes) => {
                for change in changes {
                    dish = dish.eased(change);
                }
            }
            Change::Gap {
                step,
                to,
                greatest,
                by,
            } => {
                let alike = |a: &str, b: &str| panful(a).0 == panful(b).0;
                let steps = dish.steps.iter_mut().filter(|s| alike(&s.id, step));
                for link in steps
                    .flat_map(|s| &mut s.links)
                    .filter(|link| alike(&link.to, to))
                {
                    match &mut link.most {
                        Some(most) if *greatest => *most = most.saturating_add(*by),
                        _ if *greatest => {}
                        _ => link.least = link.least.saturating_sub(*by),
                    }
                }
            }
        }
        dish
    }
}

impl Stated {
    /// Refuses a dish with no step at the plate.
    pub(super) fn of(
        service: &Service<'_>,
        run: Option<&Run>,
        now: Instant,
    ) -> Result<Self, Refusal> {
        let steps = &service.dish.steps;
        let waves = service.dish.waves();
        let last = waves.last();
        let last = last.ok_or_else(|| NoDish::NoPlate(service.dish.name.clone()))?;
        let plating = last.plating;
        let after = after(steps, plating);
        let plates: BTreeSet<&str> = (waves.iter())
            .flat_map(|wave| {
                let of_several = wave.members.iter().map(|member| member.plating.as_str());
                of_several.chain([wave.plating.id.as_str()])
            })
            .collect();
        let plates = || {
            steps
                .iter()
                .filter(|step| plates.contains(step.id.as_str()))
        };
        let before = || steps.iter().filter(|s| !after.contains(&s.id));
        let kitchen = Kitchen {
            cooks: service.cooks,
            stations: stations(service.dish),
            tasks: before()
                .map(|step| {
                    let begun = run.and_then(|run| run.steps.get(&step.id));
                    // The plates of one dish wait for the next: that is no food kept hot.
                    let worsens = plates().all(|plate| plate.id != step.id)
                        && plates()
                            .flat_map(|plate| &plate.links)
                            .any(|link| link.to == step.id && link.most.is_some());
                    task(service, step, begun, worsens, now)
                })
                .collect(),
            links: before()
                .flat_map(|step| step.links.iter().map(move |link| gap(step, link)))
                .collect(),
            plating: plating.id.clone(),
        };
        let later_secs = last.later_secs;
        Ok(Self {
            kitchen,
            after,
            later_secs,
        })
    }

    /// What has begun, counted from now.
    pub(super) fn progress(&self, run: &Run, now: Instant, plate_at: Option<Instant>) -> Progress {
        let secs = |at: Instant| whole_secs(at.ms_since(now));
        let started = run
            .steps
            .iter()
            .filter(|(id, _)| self.kitchen.tasks.iter().any(|task| task.id == **id))
            .map(|(id, begun)| Started {
                task: id.clone(),
                at: secs(begun.began),
                ended: begun.done.map(|done| secs(done.max(begun.began))),
            })
            .collect();
        Progress {
            now: 0,
            plate_at: plate_at.map(secs),
            started,
        }
    }

    /// What a way out changes; nothing when it would hold back a step that begins by itself.
    pub(super) fn change(&self, dish: &Dish, way: &WayOut) -> Option<Change> {
        let gap = |position: usize, greatest: bool, by: i64| {
            let link = self.kitchen.links.get(position)?;
            let begins = dish.step(&link.to)?.begins;
            let by = u32::try_from(by).ok()?;
            let of_one = of_which(&link.to).0 == of_which(&link.from).0;
            (of_one && begins == Begins::Tap).then(|| Change::Gap {
                step: link.to.clone(),
                to: link.from.clone(),
                greatest,
                by,
            })
        };
        match *way {
            WayOut::Longer { link, by } => gap(link, true, by),
            WayOut::Shorter { link, by } => gap(link, false, by),
            WayOut::Place { station } => {
                let station = self.kitchen.stations.get(station)?;
                let is_pan = station.id == step::Station::Pan.name();
                (is_pan && dish.pans < MOST_PANS).then(|| Change::Pans(dish.pans.saturating_add(1)))
            }
            WayOut::Cook => Some(Change::Cook),
        }
    }
}

/// Whole seconds, always towards the past, so that what followed at once still does.
#[must_use]
pub fn whole_secs(ms: i64) -> i64 {
    ms.div_euclid(1000)
}

/// Plating's followers, and theirs.
fn after(steps: &[Step], plating: &Step) -> Vec<String> {
    let mut after: Vec<String> = Vec::new();
    for _ in 0..steps.len() {
        let next = steps.iter().find(|step| {
            let follows = step
                .links
                .iter()
                .any(|link| link.to == plating.id || after.contains(&link.to));
            follows && !after.contains(&step.id)
        });
        match next {
            Some(step) => after.push(step.id.clone()),
            None => break,
        }
    }
    after.sort_by_key(|id| steps.iter().position(|step| step.id == *id));
    after
}

fn gap(step: &Step, link: &step::Link) -> PlanLink {
    let greatest = match step.begins {
        // What begins at once begins with the last of what it waits for.
        Begins::AtOnce if step.links.len() == 1 => Some(0),
        Begins::AtOnce | Begins::Tap => link.most.map(i64::from),
    };
    PlanLink {
        from: link.to.clone(),
        from_edge: link.edge,
        to: step.id.clone(),
        to_edge: Edge::Start,
        least: i64::from(link.least),
        greatest,
    }
}

fn stations(dish: &Dish) -> Vec<PlanStation> {
    let known = step::Station::ALL
        .into_iter()
        .filter(|station| dish.steps.iter().any(|s| s.station == Some(*station)))
        .map(|station| PlanStation {
            id: station.name().to_owned(),
            name: station.name().to_owned(),
            places: u32::try_from(dish.planned_places(station)).unwrap_or(1),
            ready: 0,
        });
    let burners = dish.room.burners.map(|burners| PlanStation {
        id: BURNERS.to_owned(),
        name: BURNERS.to_owned(),
        places: burners,
        ready: 0,
    });
    let steps = dish.steps.iter().enumerate();
    let ovens = steps.flat_map(|(nth, one)| {
        let after = dish.steps.iter().skip(nth.saturating_add(1));
        after
            .filter(|other| dish.ovens_apart(one, other))
            .map(|other| PlanStation {
                id: oven_of(one, other),
                name: "oven at one temperature".to_owned(),
                places: 1,
                ready: i64::from(dish.oven_change_secs),
            })
    });
    known.chain(burners).chain(ovens).collect()
}

/// What holds two steps apart that want the oven at different temperatures, as a place for one of them. It is no place on
/// the bench, so it has no lane.
fn oven_of(one: &Step, other: &Step) -> String {
    let (first, second) = match one.id < other.id {
        true => (&one.id, &other.id),
        false => (&other.id, &one.id),
    };
    format!("{OVENS}{first} {second}")
}

/// How the name of such a place begins.
const OVENS: &str = "oven: ";

/// What a pan and a pot stand on alike. Where they are counted they are a place too, and no lane of their own: what stands
/// on them has one.
const BURNERS: &str = "burners";

/// Whether the station of a lane is a place on the bench.
pub(super) fn is_on_the_bench(station: &str) -> bool {
    !station.starts_with(OVENS) && station != BURNERS
}

fn task(
    service: &Service<'_>,
    step: &Step,
    begun: Option<&StepRun>,
    worsens: bool,
    now: Instant,
) -> Task {
    let counts_ms = step.counts_ms(service.missing);
    let secs = begun.map_or(counts_ms / 1000, |begun| lasted(begun, counts_ms, now));
    let hands = if step.hands {
        secs
    } else {
        i64::from(step.hands_first).min(secs)
    };
    Task {
        id: step.id.clone(),
        name: step.title.clone(),
        secs,
        hands_first: hands,
        hands_last: 0,
        needs: needs(service.dish, step),
        held: u32::from(worsens),
    }
}

/// The places that a step takes.
fn needs(dish: &Dish, step: &Step) -> Vec<Need> {
    let apart = dish
        .steps
        .iter()
        .filter(|other| dish.ovens_apart(step, other));
    let on_a_burner = step.station.is_some_and(step::Station::is_on_a_burner);
    let burner = (on_a_burner && dish.room.burners.is_some()).then(|| BURNERS.to_owned());
    let stations = (step.station.iter())
        .map(|station| station.name().to_owned())
        .chain(burner)
        .chain(apart.map(|other| oven_of(step, other)));
    let need = |station| Need { station, places: 1 };
    stations.map(need).collect()
}

/// How long a step that has begun lasts in fact, holds and extra time counted in.
fn lasted(begun: &StepRun, counts_ms: i64, now: Instant) -> i64 {
    let ends = match (begun.done, begun.held_since) {
        (Some(done), _) => done,
        (None, Some(_)) => now.plus_ms(begun.left_ms(counts_ms, now)),
        (None, None) => begun.ends(counts_ms),
    };
    let (from, to) = (
        whole_secs(begun.began.ms_since(now)),
        whole_secs(ends.ms_since(now)),
    );
    to.saturating_sub(from).max(0)
}
