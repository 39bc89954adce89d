//! What a tap does to a fish, as a plain value, and the one place where it is done.

use super::heat_card::HeatTap;
use super::refusals::{NoFishTap, NoService};
use super::serving::PlanTap;
use super::slip::Species;
use super::weighing::{Judgement, Key, ScaleReading, Which};
use crate::base::filleted::FilletAnswer;
use crate::base::instant::Instant;
use crate::base::kit::Kit;
use crate::base::part;
use crate::base::refusal::Refusal;
use crate::base::text::short;
use crate::fish::record::{Fish, Kept, KeptField};
use crate::journal::JournalTap;
use crate::prep::chill::Chill;
use crate::service::dish::Dish;
use crate::service::run;
use crate::trade::breakdown::DeliveryForm;
use crate::trade::mass::{Mass, Scale, Unit};
use crate::trade::money::{Currency, PriceUnit};

/// The most parts kept of one fish.
const MOST_KEPT: usize = 8;

/// A tap, as a plain value.
#[derive(Clone, Debug, PartialEq)]
pub enum Action {
    /// The fish was chosen or named.
    Species(Species),
    /// It is another fish than those of the list, round or flat; a name that was typed stays.
    Another {
        /// Whether it lies flat.
        flat: bool,
    },
    /// The delivery form was chosen.
    Form(DeliveryForm),
    /// How many fish are weighed together was typed.
    Count(String),
    /// The price was typed.
    Price(String),
    /// What the price is for was chosen.
    Per(PriceUnit),
    /// The currency was chosen.
    Currency(Currency),
    /// The scale's division was chosen: another scale, of which nobody has said what it shows empty.
    Scale(Scale),
    /// What the empty scale shows was said.
    Zero(Mass),
    /// The portions wanted were typed.
    Portions(String),
    /// A piece of kit is missing, or is there after all.
    Missing(Kit, bool),
    /// A key of the keypad was tapped.
    Key(Which, Key),
    /// Another unit was chosen for a weighing.
    Unit(Which, Unit),
    /// What the scale shows was taken; `sure` after a question.
    Take {
        /// Which weighing.
        which: Which,
        /// Whether the cook has answered the question about it.
        sure: bool,
    },
    /// The weighing off the bone was left out.
    LeaveOut,
    /// The cook said whether only one fillet was weighed.
    OneFillet(bool),
    /// The cook said whether the fillets are raw.
    Raw(bool),
    /// A step of the filleting was reached, counted from nought.
    Cut(usize),
    /// The cook said how the fillets were made.
    Filleted(FilletAnswer),
    /// The weight of a portion was typed.
    Portion(String),
    /// An empty kept part with this identity was added.
    Keep(String),
    /// A field of the kept part with this identity was typed.
    KeptPart(String, KeptField, String),
    /// The kept part with this identity was taken out of the count.
    Unkeep(String),
    /// The fish went into the fridge (or came out again when false).
    Fridge(bool),
    /// A line of the mise en place was ticked or opened again.
    Tick(String, bool),
    /// The service was started; `insist` with lines still open.
    Start {
        /// Whether the cook starts with lines open.
        insist: bool,
    },
    /// A step of the service was tapped.
    Serve(run::Tap),
    /// The service was put back to before its start.
    StartAgain,
    /// A tap on the plan.
    Plan(PlanTap),
    /// A tap on the heat card.
    Heat(HeatTap),
    /// A tap on the journal.
    Journal(JournalTap),
    /// The fish was called finished, or opened again.
    Finish(bool),
}

impl Fish {
    /// The fish after a tap.
    ///
    /// # Errors
    /// The sentence for a tap that can't be done. Nothing is changed then.
    pub fn apply(&self, action: &Action, now: Instant) -> Result<Self, Refusal> {
        let mut next = self.clone();
        match action {
            Action::Fridge(in_it) => {
                next.chill = Some(match (&self.chill, in_it) {
                    (Some(chill), true) => chill.put_in(now)?,
                    (Some(chill), false) => chill.take_out(now)?,
                    (None, true) => Chill::in_fridge(now),
                    (None, false) => Chill::out(now),
                });
            }
            Action::Tick(line, true) => {
                next.ticked.insert(line.clone());
            }
            Action::Tick(line, false) => {
                next.ticked.remove(line);
            }
            Action::Start { insist } => {
                if self.run.is_none() {
                    let not_ready = self.not_ready()?;
                    if let Some(not_ready) = not_ready.filter(|_| !insist) {
                        return Err(not_ready);
                    }
                    next.insisted = !self.open_lines(&self.served()?).is_empty();
                    next.start(now)?;
                }
            }
            Action::Serve(tap) => {
                let dish = self.dish()?;
                let run = self.run.as_ref().ok_or(NoService::NotBegun)?;
                next.run = Some(run.tap(dish, &self.slip.missing, tap, now)?);
            }
            Action::StartAgain => {
                next.run = None;
                next.laid = None;
                next.forget_probed()?;
                next.insisted = false;
            }
            Action::Plan(tap) => next.plan(tap)?,
            Action::Heat(tap) => next.heat_tap(tap, now)?,
            _ => return self.weigh(action, now),
        }
        Ok(next)
    }

    /// The fish after a tap that needs nothing of what cooks: of a phone that has come as far as the scale.
    ///
    /// # Errors
    /// The sentence for a tap that can't be done, or not without what cooks. Nothing is changed then.
    pub fn weigh(&self, action: &Action, now: Instant) -> Result<Self, Refusal> {
        let mut next = self.clone();
        match action {
            Action::Species(species) => {
                next.slip.flat &= species.key().is_none();
                next.slip.species = Some(species.clone());
            }
            Action::Another { flat } => {
                if next.slip.species.as_ref().is_none_or(|s| s.key().is_some()) {
                    next.slip.species = Some(Species::Other(String::new()));
                }
                next.slip.flat = *flat;
            }
            Action::Form(form) => next.slip.form = Some(*form),
            Action::Count(text) => next.slip.count = short(text)?,
            Action::Price(text) => next.slip.price = short(text)?,
            Action::Per(per) => next.slip.per = *per,
            Action::Currency(currency) => next.slip.currency = *currency,
            Action::Scale(scale) => {
                next.slip.scale = *scale;
                next.slip.zero = Mass::ZERO;
                next.share_unit(scale.keyed_in(self.ready.unit));
            }
            Action::Zero(zero) => next.slip.zero = *zero,
            Action::Portions(text) => next.slip.portions = short(text)?,
            Action::Missing(kit, true) => {
                next.slip.missing.insert(*kit);
            }
            Action::Missing(kit, false) => {
                next.slip.missing.remove(kit);
            }
            Action::Key(Which::Frame, key) => {
                // It is added to the fillets off the bone, figure by figure.
                next.frame = self.frame.in_unit(self.off_bone.unit).keyed(*key);
            }
            Action::Key(which, key) => {
                *next.reading_mut(*which) = self.reading(*which).keyed(*key);
            }
            Action::Unit(which, unit) => {
                *next.reading_mut(*which) = self.reading(*which).in_unit(*unit);
                next.share_unit(*unit);
            }
            Action::Take { which, sure } => {
                match self.judge(*which) {
                    Judgement::Wrong(refusal) => return Err(refusal),
                    Judgement::Doubt(doubt) if !sure => return Err(doubt.into()),
                    Judgement::Doubt(_) | Judgement::Fine(_) => {}
                }
                next.reading_mut(*which).taken = true;
                if *which == Which::Frame {
                    next.whole = self.put_together().ok_or(NoFishTap::NothingToAdd)?;
                }
                if *which == Which::Ready {
                    // It stood beside the weight that was taken.
                    next.filleted = self.filleted_all();
                }
                if self.chill.is_none() {
                    next.chill = Some(Chill::out(now));
                }
            }
            Action::LeaveOut => next.off_bone = ScaleReading::empty(self.off_bone.unit),
            Action::OneFillet(one) => next.one_fillet = *one,
            Action::Raw(raw) => {
                next.raw = Some(*raw);
                next.ready.taken &= *raw;
            }
            Action::Cut(step) => next.cut = self.cut.max(*step),
            Action::Filleted(answer) => next.filleted.tell(*answer),
            Action::Portion(text) => next.portion = short(text)?,
            Action::Keep(id) if part::place_of(&self.kept, id).is_some() => {}
            Action::Keep(_) if self.kept.len() >= MOST_KEPT => {
                return Err(NoFishTap::ManyKept.into());
            }
            Action::Keep(id) => next.kept.push(Kept {
                id: id.clone(),
                ..Kept::default()
            }),
            Action::KeptPart(id, field, text) => {
                let kept = part::find_mut(&mut next.kept, id).ok_or(NoFishTap::KeptGone)?;
                *kept.field_mut(*field) = short(text)?;
            }
            Action::Unkeep(id) => {
                let at = part::place_of(&self.kept, id).ok_or(NoFishTap::KeptGone)?;
                next.kept.remove(at);
            }
            Action::Journal(tap) => next.set_journal(self.journal().apply(tap)?),
            Action::Finish(true) => next.finished = Some(now),
            Action::Finish(false) => next.finished = None,
            Action::Fridge(_)
            | Action::Tick(..)
            | Action::Start { .. }
            | Action::Serve(_)
            | Action::StartAgain
            | Action::Plan(_)
            | Action::Heat(_) => {
                return Err(NoFishTap::WhereItCooks.into());
            }
        }
        Ok(next)
    }

    /// The lines of the mise en place that are not ticked.
    #[must_use]
    pub fn open_lines<'d>(&self, dish: &'d Dish) -> Vec<&'d str> {
        dish.mise
            .iter()
            .map(|line| line.id.as_str())
            .filter(|line| !self.ticked.contains(*line))
            .collect()
    }

    /// What a start without insisting is refused with: open lines of the mise en place, a fillet that nobody measured.
    ///
    /// # Errors
    /// There is no dish to be read.
    pub fn not_ready(&self) -> Result<Option<Refusal>, Refusal> {
        let lines = self.open_lines(&self.served()?).len();
        Ok(match (lines, self.is_untimed()) {
            (0, false) => None,
            (0, true) => Some(NoService::Untimed.into()),
            (lines, false) => Some(NoService::LinesOpen(lines).into()),
            (lines, true) => Some(NoService::LinesOpenUntimed(lines).into()),
        })
    }

    /// The weighings still to come follow the unit of the one that was changed.
    fn share_unit(&mut self, unit: Unit) {
        for reading in [&mut self.whole, &mut self.off_bone, &mut self.ready] {
            if reading.typed.is_empty() {
                reading.unit = unit;
            }
        }
    }
}
