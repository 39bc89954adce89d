//! What a tap on the plan of a service does.

use super::refusals::NoService;
use super::serving::{PlanTap, Serving, folded, unread};
use crate::base::folded::{self, Folded};
use crate::base::refusal::Refusal;
use crate::base::text::short;
use crate::fish::record::Fish;
use crate::service::dish::laid_out::{MOST_COOKS, MOST_PANS, panful};
use crate::service::dish::refusals::NoLaying;
use crate::service::dish::shipped;
use crate::service::dish::step::Step;
use crate::service::dish::{Dish, Sound};
use crate::service::timetable::of_dish::Change;

/// As many names as there may be cooks.
const MOST_NAMES: usize = MOST_COOKS as usize;

impl Fish {
    /// What a tap on the plan does.
    pub(super) fn plan(&mut self, tap: &PlanTap) -> Result<(), Refusal> {
        let mut serving = folded::to_change(self.serving.as_ref()).map_err(unread)?;
        self.plan_with(&mut serving, tap)?;
        self.serving = Some(Folded::of(serving).map_err(unread)?);
        Ok(())
    }

    /// The times that came from an estimate are gone with what they were worked out from.
    pub(super) fn drop_times(&mut self) -> Result<(), Refusal> {
        if self.serving().times.is_none() {
            return Ok(());
        }
        let mut serving = folded::to_change(self.serving.as_ref()).map_err(unread)?;
        serving.times = None;
        self.serving = Some(Folded::of(serving).map_err(unread)?);
        Ok(())
    }

    fn plan_with(&mut self, serving: &mut Serving, tap: &PlanTap) -> Result<(), Refusal> {
        let running = self.run.is_some();
        match tap {
            PlanTap::Cooks(cooks @ 1..=MOST_COOKS) => serving.cooks = *cooks,
            PlanTap::Room(room) => {
                serving.room = Some(*room);
                if running {
                    self.change_laid(|dish| dish.room = *room)?;
                }
            }
            PlanTap::Cook(number @ 1..=MOST_NAMES, name) => {
                let name = short(name)?;
                serving
                    .names
                    .resize((*number).max(serving.names.len()), String::new());
                if let Some(named) = serving.names.get_mut(number - 1) {
                    *named = name;
                }
            }
            PlanTap::Cook(..) => return Err(NoLaying::Cooks.into()),
            PlanTap::Pans(pans @ 1..=MOST_PANS) => {
                serving.pans = *pans;
                if running {
                    self.change_laid(|dish| dish.pans = *pans)?;
                }
            }
            PlanTap::Cooks(_) => return Err(NoLaying::Cooks.into()),
            PlanTap::Pans(_) => return Err(NoLaying::Pans.into()),
            PlanTap::PlateAt(at) => {
                serving.plate_at = *at;
                if let Some(run) = &mut self.run {
                    run.begin_at = None;
                }
            }
            PlanTap::BeginAt(at) => {
                if let Some(run) = self.run.as_mut().filter(|run| run.steps.is_empty()) {
                    run.begin_at = Some(*at);
                }
            }
            PlanTap::WayOut(change) => match change {
                Change::Cook => {
                    return self
                        .plan_with(serving, &PlanTap::Cooks(serving.cooks.saturating_add(1)));
                }
                Change::Pans(pans) => return self.plan_with(serving, &PlanTap::Pans(*pans)),
                Change::All(changes) => {
                    for change in changes {
                        self.plan_with(serving, &PlanTap::WayOut(change.clone()))?;
                    }
                }
                Change::Gap { .. } if running => {
                    self.change_laid(|dish| *dish = dish.eased(change))?;
                }
                Change::Gap { .. } if serving.ease_beside(change).is_some() => {}
                Change::Gap { .. } => {
                    self.own_dish = Some(folded(self.dish()?.eased(change))?);
                    serving.card = None;
                }
            },
            PlanTap::Anew(number, times, later) => {
                let number = *number;
                let mut run = self.run.clone().ok_or(NoService::NotBegun)?;
                serving.times = later.or(serving.times);
                self.change_laid(|dish| {
                    // What is done stays as it was planned: by that it is told how late it was.
                    let done = |step: &Step| run.steps.get(&step.id).is_some_and(|s| !s.is_open());
                    dish.take_times(*times, |s| panful(&s.id).1 == number && !done(s));
                    if let Some(later) = later {
                        dish.take_times(*later, |step| panful(&step.id).1 > number);
                    }
                    let fish = dish.steps.iter().filter(|step| step.of_fish.is_some());
                    for step in fish.filter(|step| panful(&step.id).1 == number) {
                        run.set_anew(&step.id);
                    }
                })?;
                self.run = Some(run);
            }
            PlanTap::AtOnce(_)
            | PlanTap::Times(_)
            | PlanTap::Shipped(_)
            | PlanTap::Card(..)
            | PlanTap::Own(_)
            | PlanTap::Alongside(_)
                if running =>
            {
                return Err(NoService::Begun.into());
            }
            PlanTap::AtOnce(text) => serving.at_once = short(text)?,
            PlanTap::Times(times) => {
                serving.times = *times;
                serving.is_fixed = times.is_none();
            }
            PlanTap::Shipped(id) => {
                self.dish = shipped::by_id(id)?.id.clone();
                self.own_dish = None;
                serving.times = None;
                serving.is_fixed = false;
                serving.card = None;
            }
            PlanTap::Card(card, dish) => {
                if let Some(alone) = &mut self.alone {
                    alone.clone_from(&dish.name);
                }
                self.cook_into(dish)?;
                serving.card = Some(card.clone());
            }
            PlanTap::Own(dish) => {
                self.cook_into(dish)?;
                serving.card = None;
            }
            PlanTap::Alongside(tap) => self.alongside(serving, tap)?,
        }
        Ok(())
    }

    fn cook_into(&mut self, dish: &Sound) -> Result<(), Refusal> {
        let dish = dish.clone().into_dish();
        self.dish.clone_from(&dish.id);
        self.own_dish = Some(folded(dish)?);
        Ok(())
    }

    fn change_laid(&mut self, change: impl FnOnce(&mut Dish)) -> Result<(), Refusal> {
        let mut dish = self.dish()?.clone();
        change(&mut dish);
        self.laid = Some(folded(dish)?);
        Ok(())
    }
}
