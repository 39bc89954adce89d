//! A dish changed by the cook: one step at a time as typed, checked before anything is kept.

use super::draft::{LONGEST_TITLE, StepDraft, text, whole};
use super::field::{EditFault, Field, at, refuse};
use super::refusals::NoEdit;
use crate::service::dish::step::{Begins, Station, Step};
use crate::service::dish::{Dish, Sound};

/// The id of a dish that is the cook's own.
pub const OWN: &str = "own";
/// The furthest apart that two steps may share an oven, °C, and the longest that it takes to change, in minutes.
const MOST_APART_C: u16 = 100;
const MOST_CHANGE_MINUTES: u16 = 60;
/// The most steps of one dish.
const MOST_STEPS: usize = 40;

/// A change, as a plain value.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Edit {
    /// The dish was named.
    Name(String),
    /// A step was changed.
    Step(String, Box<StepDraft>),
    /// A step was added before plating.
    Add,
    /// A step was taken out.
    Remove(String),
    /// A step was moved one place up.
    Up(String),
    /// A step was moved one place down.
    Down(String),
    /// How far apart the temperatures of the oven may be for two steps in it, °C, and how many minutes it takes to
    /// change.
    Oven(String, String),
}

impl Dish {
    /// The dish after a change. It is the cook's own from then on.
    ///
    /// # Errors
    /// The field at fault with its sentence; nothing is changed then.
    pub fn edited(&self, edit: &Edit) -> Result<Sound, EditFault> {
        let mut dish = self.clone();
        OWN.clone_into(&mut dish.id);
        match edit {
            Edit::Name(name) => {
                dish.name = at(
                    Field::Title,
                    text(name, LONGEST_TITLE, Some(NoEdit::NoName)),
                )?;
            }
            Edit::Step(id, draft) => {
                let step = dish.steps.iter_mut().find(|step| step.id == *id);
                let step = at(Field::Whole, step.ok_or(NoEdit::Gone))?;
                *step = draft.read(step)?;
            }
            Edit::Add => dish.add()?,
            Edit::Remove(id) => dish.remove(id)?,
            Edit::Up(id) => dish.shift(id, true)?,
            Edit::Down(id) => dish.shift(id, false)?,
            Edit::Oven(within, minutes) => {
                let within = at(Field::OvenShared, whole(within, MOST_APART_C))?;
                let minutes = at(Field::OvenShared, whole(minutes, MOST_CHANGE_MINUTES))?;
                dish.oven_within_c = within;
                dish.oven_change_secs = u32::from(minutes).saturating_mul(60);
            }
        }
        let order: Vec<String> = dish.steps.iter().map(|step| step.id.clone()).collect();
        let checked = at(Field::Whole, super::sound(dish))?;
        let moved = matches!(edit, Edit::Up(_) | Edit::Down(_));
        let kept = checked.steps.iter().map(|step| &step.id).eq(&order);
        if moved && !kept {
            return refuse(Field::Whole, NoEdit::TooEarly);
        }
        Ok(checked)
    }

    fn position(&self, id: &str) -> Result<usize, EditFault> {
        let position = self.steps.iter().position(|step| step.id == *id);
        at(Field::Whole, position.ok_or(NoEdit::Gone))
    }

    fn add(&mut self) -> Result<(), EditFault> {
        if self.steps.len() >= MOST_STEPS {
            return refuse(Field::Whole, NoEdit::ManySteps);
        }
        let plating = self.plating().map(|step| &step.id);
        let plating = (self.steps.iter())
            .position(|step| Some(&step.id) == plating)
            .unwrap_or(self.steps.len());
        let id = (1..)
            .map(|number| format!("own{number}"))
            .find(|id| self.step(id).is_none())
            .unwrap_or_default();
        self.steps.insert(
            plating,
            Step {
                id,
                title: "New step".to_owned(),
                say: "Say what is to be done.".to_owned(),
                caution: None,
                of_fish: None,
                station: Some(Station::Board),
                oven_c: None,
                lasts: None,
                takes: 60,
                per_cover: 0,
                hands: true,
                hands_first: 0,
                begins: Begins::Tap,
                links: Vec::new(),
                done_word: "Done".to_owned(),
                detours: Vec::new(),
                note: None,
            },
        );
        Ok(())
    }

    fn remove(&mut self, id: &str) -> Result<(), EditFault> {
        let position = self.position(id)?;
        let waits = |step: &&Step| step.links.iter().any(|link| link.to == *id);
        if let Some(other) = self.steps.iter().find(waits) {
            return refuse(Field::Whole, NoEdit::WaitedFor(other.title.clone()));
        }
        self.steps.remove(position);
        Ok(())
    }

    fn shift(&mut self, id: &str, up: bool) -> Result<(), EditFault> {
        let position = self.position(id)?;
        let other = if up {
            position.checked_sub(1)
        } else {
            Some(position + 1).filter(|next| *next < self.steps.len())
        };
        if let Some(other) = other {
            self.steps.swap(position, other);
        }
        Ok(())
    }
}
