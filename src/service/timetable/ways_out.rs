//! Where nothing fits: what to change so that everything does, each change with its price, in a cook's words. What is
//! changed for one panful is changed for all; where no one change is enough, two are, or as many as it takes.

use std::cell::Cell;

use super::of_dish::Change;
use crate::base::stretch::stretch;
use crate::service::dish::Dish;
use crate::service::dish::joined::of_which;
use crate::service::dish::laid_out::{MOST_COOKS, MOST_PANS, panful};
use crate::service::dish::step::{Begins, Edge, Link, OfFish, Station, Step};
use crate::service::plan::Slot;

/// How often the search is asked at most, for one quarrel: the answer comes within a few seconds of a slow phone.
const MOST_TRIES: u32 = 160;
/// A gap that is let go, in seconds: longer than a service.
const LET_GO: u32 = 86_400;
/// Food waits for longer than this, in seconds, only where no pan and no cook helps.
const LONG_WAIT: u32 = 600;

/// The search, as what is asked of it: whether a dish fits with so many cooks, and a plan of it.
pub(super) struct Tried<'a> {
    pub(super) fits: &'a dyn Fn(&Dish, u32) -> bool,
    pub(super) plan: &'a dyn Fn(&Dish, u32) -> Option<Vec<Slot>>,
}

/// A dish that does not fit, the cooks, and the search with what it may still be asked.
struct Bench<'a> {
    dish: &'a Dish,
    cooks: u32,
    tried: Tried<'a>,
    left: Cell<u32>,
}

/// The gap between two steps, of every panful alike.
#[derive(Clone, Debug, PartialEq, Eq)]
struct Gap {
    step: String,
    to: String,
    edge: Edge,
    /// The greatest gap that is allowed now, in seconds.
    most: u32,
}

/// What doesn't fit in a sentence, and up to two ways out, the nearest first.
pub(super) fn ways_out(
    dish: &Dish,
    cooks: u32,
    at_best: Option<&[Slot]>,
    tried: Tried<'_>,
) -> Option<(String, Vec<(String, Change)>)> {
    let bench = Bench {
        dish,
        cooks,
        tried,
        left: Cell::new(MOST_TRIES),
    };
    let gaps = gaps(dish, false);
    let mut singles: Vec<(u32, Change)> = (gaps.iter())
        .filter_map(|gap| Some(gap.changed(bench.least(dish, cooks, gap)?)))
        .collect();
    singles.sort_by_key(|(by, _)| *by);
    let helps = bench.helps();
    let nearest = singles.first().map(|(_, change)| change.clone());
    let mut ways: Vec<Change> = Vec::new();
    let is_short = |(by, _): &&(u32, Change)| *by <= LONG_WAIT;
    ways.extend(
        singles
            .iter()
            .find(is_short)
            .map(|(_, change)| change.clone()),
    );
    ways.extend(helps.iter().cloned());
    ways.extend(singles.into_iter().map(|(_, change)| change));
    if ways.is_empty() {
        ways = bench.pairs(&gaps);
    }
    if ways.is_empty() {
        ways.extend(bench.all());
    }
    let mut found: Vec<Change> = Vec::new();
    for way in ways {
        if found.len() < 2 && !found.contains(&way) {
            found.push(way);
        }
    }
    let sentence = bench.sentence(&gaps, nearest.as_ref(), &helps, at_best)?;
    let said = found.into_iter();
    let said = said.map(|change| (said_of(dish, &change), change));
    Some((sentence, said.collect()))
}

impl Bench<'_> {
    /// Whether the search may be asked once more.
    fn may_ask(&self) -> bool {
        let left = self.left.get();
        self.left.set(left.saturating_sub(1));
        left > 0
    }

    fn fits(&self, dish: &Dish, cooks: u32) -> bool {
        self.may_ask() && (self.tried.fits)(dish, cooks)
    }

    /// The fewest seconds by which a gap must grow for everything to fit; none where that is not enough.
    fn least(&self, dish: &Dish, cooks: u32, gap: &Gap) -> Option<u32> {
        let loose = dish.eased(&gap.changed(LET_GO).1);
        if !self.fits(&loose, cooks) || !self.may_ask() {
            return None;
        }
        let slots = (self.tried.plan)(&loose, cooks)?;
        let (mut enough, mut short) = (gap.over(dish, &slots).0.max(1), 0);
        while enough.saturating_sub(short) > 1 {
            let middle = short.saturating_add(enough.saturating_sub(short) / 2);
            if self.fits(&dish.eased(&gap.changed(middle).1), cooks) {
                enough = middle;
            } else {
                short = middle;
            }
        }
        Some(enough)
    }

    /// The cooks with one more at work; none where there is no room for more.
    fn one_more(&self) -> Option<u32> {
        Some(self.cooks.saturating_add(1)).filter(|cooks| *cooks <= MOST_COOKS)
    }

    /// One more pan or cook, as many as it takes, where that alone is enough.
    fn helps(&self) -> Vec<Change> {
        let more = self.dish.pans.saturating_add(1)..=MOST_PANS;
        let pans = more
            .map(Change::Pans)
            .find(|change| self.fits(&self.dish.eased(change), self.cooks));
        let cook = self.one_more().filter(|cooks| self.fits(self.dish, *cooks));
        let cook = cook.map(|_| Change::Cook);
        pans.into_iter().chain(cook).collect()
    }

    /// Two changes that are enough together, the cheapest first.
    fn pairs(&self, gaps: &[Gap]) -> Vec<Change> {
        let mut pairs: Vec<(u32, Vec<Change>)> = Vec::new();
        let mut helps: Vec<Change> = Vec::new();
        helps.extend(self.one_more().map(|_| Change::Cook));
        helps.extend((self.dish.pans.saturating_add(1)..=MOST_PANS).map(Change::Pans));
        for help in &helps {
            let (dish, cooks) = self.with(help);
            // With so many pans, fewer gaps and no more of it are better.
            for gap in gaps {
                if let Some(by) = self.least(&dish, cooks, gap) {
                    pairs.push((by, vec![help.clone(), gap.changed(by).1]));
                }
            }
            let fits_with_cook = *help != Change::Cook
                && helps.first() == Some(&Change::Cook)
                && self.one_more().is_some_and(|cooks| self.fits(&dish, cooks));
            if fits_with_cook {
                pairs.push((0, vec![Change::Cook, help.clone()]));
            }
            if pairs.len() >= 2 {
                break;
            }
        }
        for (nth, first) in gaps.iter().enumerate() {
            let loose = self.dish.eased(&first.changed(LET_GO).1);
            for second in gaps.iter().skip(nth.saturating_add(1)) {
                let Some(by) = self.least(&loose, self.cooks, second) else {
                    continue;
                };
                let second = second.changed(by).1;
                let eased = self.dish.eased(&second);
                if let Some(more) = self.least(&eased, self.cooks, first) {
                    let both = vec![first.changed(more).1, second];
                    pairs.push((by.saturating_add(more), both));
                }
            }
        }
        pairs.sort_by_key(|(by, _)| *by);
        pairs
            .into_iter()
            .map(|(_, both)| Change::All(both))
            .collect()
    }

    /// Every gap let grow as far as a plan that lets all of them go takes it, those with no play among them.
    fn all(&self) -> Option<Change> {
        let gaps = gaps(self.dish, true);
        let let_go = gaps.iter().map(|gap| gap.changed(LET_GO).1);
        let loose = self.dish.eased(&Change::All(let_go.collect()));
        let slots = (self.tried.plan)(&loose, self.cooks)?;
        let grown = gaps.iter().filter_map(|gap| {
            let (by, _) = gap.over(self.dish, &slots);
            (by > 0).then(|| gap.changed(by).1)
        });
        Some(Change::All(grown.collect()))
    }

    fn with(&self, help: &Change) -> (Dish, u32) {
        match help {
            Change::Cook => (self.dish.clone(), self.one_more().unwrap_or(self.cooks)),
            other => (self.dish.eased(other), self.cooks),
        }
    }

    /// What doesn't fit: by the nearest gap alone, or by the plan that lets all of them go.
    fn sentence(
        &self,
        gaps: &[Gap],
        nearest: Option<&Change>,
        helps: &[Change],
        at_best: Option<&[Slot]>,
    ) -> Option<String> {
        let scarce: Vec<String> = (helps.iter())
            .map(|help| match help {
                Change::Cook if self.cooks == 1 => "one cook".to_owned(),
                Change::Cook => format!("{} cooks", self.cooks),
                _ if self.dish.pans == 1 => "one pan".to_owned(),
                _ => format!("{} pans", self.dish.pans),
            })
            .collect();
        let with = match scarce.is_empty() {
            true => String::new(),
            false => format!("With {}, ", scarce.join(" and ")),
        };
        let told: Vec<String> = match nearest {
            Some(change @ Change::Gap { step, to, .. }) => {
                let eased = self.dish.eased(change);
                let slots = (self.tried.plan)(&eased, self.cooks)?;
                let gap = gaps.iter().find(|gap| (&gap.step, &gap.to) == (step, to))?;
                vec![gap.told(self.dish, &slots)?]
            }
            _ => {
                let slots = at_best?;
                let over = gaps.iter().filter_map(|gap| gap.told(self.dish, slots));
                over.take(3).collect()
            }
        };
        let said = told.join(". ");
        let mut letters = said.chars();
        let first = letters.next()?;
        Some(match with.is_empty() {
            true => format!("{}{}.", first.to_uppercase(), letters.as_str()),
            false => format!("{with}{said}."),
        })
    }
}

/// Every greatest gap that a cook may let grow, once for all panfuls. Those with no play are meant so: they are left out,
/// unless nothing else is enough.
fn gaps(dish: &Dish, with_no_play: bool) -> Vec<Gap> {
    let mut gaps: Vec<Gap> = Vec::new();
    for step in dish.steps.iter().filter(|step| step.begins == Begins::Tap) {
        for link in &step.links {
            let may_grow = |most: &u32| with_no_play || *most > link.least;
            let Some(most) = link.most.filter(may_grow) else {
                continue;
            };
            // When the plates of two dishes come is for the cook to say, not for a way out.
            if of_which(&step.id).0 != of_which(&link.to).0 {
                continue;
            }
            let (step, to) = (panful(&step.id).0, panful(&link.to).0);
            if !gaps.iter().any(|gap| gap.step == step && gap.to == to) {
                gaps.push(Gap {
                    step: step.to_owned(),
                    to: to.to_owned(),
                    edge: link.edge,
                    most,
                });
            }
        }
    }
    gaps
}

impl Gap {
    fn changed(&self, by: u32) -> (u32, Change) {
        let change = Change::Gap {
            step: self.step.clone(),
            to: self.to.clone(),
            greatest: true,
            by,
        };
        (by, change)
    }

    /// By how many seconds the gap is past what is allowed at most, and of how many panfuls it is.
    fn over(&self, dish: &Dish, slots: &[Slot]) -> (u32, usize) {
        let slot = |id: &str| slots.iter().find(|slot| slot.task == id);
        let is_of = |step: &&Step| panful(&step.id).0 == self.step;
        let linked = dish.steps.iter().filter(is_of).flat_map(|step| {
            let links = step.links.iter();
            let links = links.filter(|link| panful(&link.to).0 == self.to);
            links.map(move |link| (step, link))
        });
        let past = linked.filter_map(|(step, link): (&Step, &Link)| {
            let earlier = slot(&link.to)?;
            let edge = match link.edge {
                Edge::Start => earlier.start,
                Edge::End => earlier.end,
            };
            let gap = slot(&step.id)?.start.saturating_sub(edge);
            u32::try_from(gap.saturating_sub(i64::from(link.most?))).ok()
        });
        past.filter(|by| *by > 0)
            .fold((0, 0), |(most, count): (u32, usize), by| {
                (most.max(by), count.saturating_add(1))
            })
    }

    /// What comes later than is allowed, by a plan; nothing where it keeps the gap.
    fn told(&self, dish: &Dish, slots: &[Slot]) -> Option<String> {
        let (by, count) = self.over(dish, slots);
        if by == 0 {
            return None;
        }
        let takes = stretch(i64::from(self.most.saturating_add(by)));
        let allowed = stretch(i64::from(self.most));
        let plates = dish.step(&self.step)?.station == Some(Station::Plate);
        let who = match (dish.step(&self.to)?.of_fish, count) {
            (Some(OfFish::Rest), 1) if dish.step(&format!("{}/2", self.to)).is_none() => {
                "the fish".to_owned()
            }
            (Some(OfFish::Rest), 1) => "the fish of one batch".to_owned(),
            (Some(OfFish::Rest), many) => format!("the fish of {many} batches"),
            _ => format!("“{}”", title(dish, &self.to)),
        };
        Some(if plates {
            let waits = if count > 1 { "waits up to" } else { "waits" };
            format!("{who} {waits} {takes} for the plate: you allow {allowed}")
        } else {
            format!(
                "“{}” comes {takes} after “{}”: you allow {allowed}",
                title(dish, &self.step),
                title(dish, &self.to)
            )
        })
    }
}

/// The name of a step without the number of its panful.
fn title(dish: &Dish, id: &str) -> String {
    dish.step(id).map_or_else(String::new, Step::plain_title)
}

/// A way out in the words of this bench, with what it costs.
pub(super) fn said_of(dish: &Dish, change: &Change) -> String {
    match change {
        Change::Pans(pans) if *pans > dish.pans.saturating_add(1) => format!("Use {pans} pans."),
        Change::Pans(_) => {
            let which = ["second", "third", "fourth", "fifth"];
            let nth = usize::try_from(dish.pans).unwrap_or(0).checked_sub(1);
            let which = nth.and_then(|nth| which.get(nth));
            format!("Use a {} pan.", which.unwrap_or(&"sixth"))
        }
        Change::Cook => "Work with one more cook.".to_owned(),
        Change::All(changes) => {
            let each: Vec<String> = changes.iter().map(|one| said_of(dish, one)).collect();
            each.join(" ")
        }
        Change::Gap {
            step,
            to,
            greatest: true,
            by,
        } => {
            let links = dish.step(step).map_or(&[][..], |step| &step.links);
            let link = links.iter().find(|link| panful(&link.to).0 == to);
            let most = link.and_then(|link| link.most).unwrap_or_default();
            let takes = stretch(i64::from(most.saturating_add(*by)));
            let allowed = stretch(i64::from(most));
            match dish.step(to).and_then(|to| to.of_fish) {
                Some(OfFish::Rest) => format!(
                    "Let the fish wait up to {takes} after its rest, hot in a low oven: you allow {allowed}."
                ),
                _ => format!(
                    "Let “{}” come up to {takes} after “{}”: you allow {allowed}.",
                    title(dish, step),
                    title(dish, to)
                ),
            }
        }
        Change::Gap { step, to, by, .. } => format!(
            "Let “{}” come {} sooner after “{}”.",
            title(dish, step),
            stretch(i64::from(*by)),
            title(dish, to)
        ),
    }
}
