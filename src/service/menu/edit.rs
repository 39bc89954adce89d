//! A dish changed by the cook: one step at a time as typed, checked before anything is kept.

use super::refusals::NoEdit;
use crate::base::refusal::Refusal;
use crate::service::dish::step::{Begins, Edge, Link, OfFish, Station, Step};
use crate::service::dish::{Dish, Sound};

/// The id of a dish that is the cook's own.
pub const OWN: &str = "own";
/// The longest name of a step or of a dish, and the longest words, in letters: what fits a phone at arm's length.
const LONGEST_TITLE: usize = 60;
const LONGEST_SAY: usize = 240;
/// The longest time and the longest gap, in seconds.
const LONGEST_SECS: u32 = 4 * 3600;
/// The most seconds that one cover adds to a step.
const MOST_PER_COVER: u32 = 600;
/// What an oven is set to, °C.
const OVEN_C: std::ops::RangeInclusive<u16> = 30..=350;
/// The furthest apart that two steps may share an oven, °C, and the longest that it takes to change, in minutes.
const MOST_APART_C: u16 = 100;
const MOST_CHANGE_MINUTES: u16 = 60;
/// The most steps of one dish.
const MOST_STEPS: usize = 40;

/// One step as typed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct StepDraft {
    /// Its name.
    pub title: String,
    /// What to do.
    pub say: String,
    /// What can hurt somebody; may be empty.
    pub caution: String,
    /// Its length in seconds.
    pub secs: String,
    /// What each cover past two adds to it, in seconds; empty: nothing.
    pub per_cover: String,
    /// Whether that is on a timer; a step without one ends by eye.
    pub timed: bool,
    /// Whether it needs hands all the while.
    pub hands: bool,
    /// The seconds at its start that need hands, where they are free after that; may be empty.
    pub hands_first: String,
    /// Where it happens.
    pub station: Option<Station>,
    /// How hot the oven is for it, °C; empty: all the same.
    pub oven_c: String,
    /// What it does to the fish.
    pub of_fish: Option<OfFish>,
    /// Whether it begins by itself.
    pub at_once: bool,
    /// What it waits for.
    pub links: Vec<LinkDraft>,
}

/// One thing a step waits for, as typed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct LinkDraft {
    /// The id of the earlier step.
    pub to: String,
    /// The edge of it that counts.
    pub edge: Edge,
    /// The least gap in seconds; empty: none.
    pub least: String,
    /// The greatest gap in seconds; empty: none.
    pub most: String,
}

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

/// What of a step a refusal stands beside.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Field {
    /// Its name.
    Title,
    /// Its words.
    Say,
    /// Its caution.
    Caution,
    /// Its length.
    Secs,
    /// What each cover adds to it.
    PerCover,
    /// The hands at its start.
    HandsFirst,
    /// The heat of the oven.
    Oven,
    /// How the oven is shared.
    OvenShared,
    /// One of its gaps, counted from nought.
    Gap(usize),
    /// The step, or the dish, as a whole.
    Whole,
}

impl Field {
    /// What names it on a page.
    #[must_use]
    pub fn key(self) -> String {
        let key = match self {
            Self::Title => "Title",
            Self::Say => "Say",
            Self::Caution => "Caution",
            Self::Secs => "Secs",
            Self::PerCover => "PerCover",
            Self::HandsFirst => "HandsFirst",
            Self::Oven => "Oven",
            Self::OvenShared => "OvenShared",
            Self::Gap(nth) => return format!("Gap{nth}"),
            Self::Whole => "Whole",
        };
        key.to_owned()
    }
}

/// A change that can't be made: beside what, and why.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct EditFault {
    /// What the sentence stands beside.
    pub field: Field,
    /// The sentence.
    pub refusal: Refusal,
}

fn at<T>(field: Field, of: Result<T, impl Into<Refusal>>) -> Result<T, EditFault> {
    of.map_err(|why| EditFault {
        field,
        refusal: why.into(),
    })
}

fn refuse<T>(field: Field, why: NoEdit) -> Result<T, EditFault> {
    at(field, Err(why))
}

impl StepDraft {
    /// A step as it stands, to be changed.
    #[must_use]
    pub fn of(step: &Step) -> Self {
        let number = |secs: u32| {
            if secs == 0 {
                String::new()
            } else {
                secs.to_string()
            }
        };
        Self {
            title: step.title.clone(),
            say: step.say.clone(),
            caution: step.caution.clone().unwrap_or_default(),
            secs: step.lasts.unwrap_or(step.takes).to_string(),
            per_cover: number(step.per_cover),
            timed: step.lasts.is_some(),
            hands: step.hands,
            hands_first: number(step.hands_first),
            station: step.station,
            oven_c: step.oven_c.map(|c| c.to_string()).unwrap_or_default(),
            of_fish: step.of_fish,
            at_once: step.begins == Begins::AtOnce,
            links: (step.links.iter())
                .map(|link| LinkDraft {
                    to: link.to.clone(),
                    edge: link.edge,
                    least: number(link.least),
                    most: link.most.map(|most| most.to_string()).unwrap_or_default(),
                })
                .collect(),
        }
    }

    /// The step as typed; what is not asked for stays as it was.
    fn read(&self, step: &Step) -> Result<Step, EditFault> {
        let secs = at(Field::Secs, secs(&self.secs))?;
        if self.timed && secs == 0 {
            return refuse(Field::Secs, NoEdit::NoTimer);
        }
        let per_cover = at(Field::PerCover, secs_or_none(&self.per_cover))?.unwrap_or(0);
        if per_cover > MOST_PER_COVER {
            return refuse(Field::PerCover, NoEdit::ManyPerCover);
        }
        let hands_first = at(Field::HandsFirst, secs_or_none(&self.hands_first))?.unwrap_or(0);
        if hands_first > secs {
            return refuse(Field::HandsFirst, NoEdit::ManyHands);
        }
        let mut links = Vec::new();
        for (nth, link) in self.links.iter().enumerate() {
            let least = at(Field::Gap(nth), secs_or_none(&link.least))?.unwrap_or(0);
            let most = at(Field::Gap(nth), secs_or_none(&link.most))?;
            if most.is_some_and(|most| most < least) {
                return refuse(Field::Gap(nth), NoEdit::GapsCrossed);
            }
            links.push(Link {
                to: link.to.clone(),
                edge: link.edge,
                least,
                most,
            });
        }
        let caution = at(Field::Caution, text(&self.caution, LONGEST_SAY, None))?;
        Ok(Step {
            title: at(
                Field::Title,
                text(&self.title, LONGEST_TITLE, Some(NoEdit::NoTitle)),
            )?,
            say: at(
                Field::Say,
                text(&self.say, LONGEST_SAY, Some(NoEdit::NoWords)),
            )?,
            caution: (!caution.is_empty()).then_some(caution),
            lasts: self.timed.then_some(secs),
            takes: if self.timed { step.takes } else { secs },
            per_cover: if self.timed { 0 } else { per_cover },
            hands: self.hands,
            hands_first: if self.hands { 0 } else { hands_first },
            station: self.station,
            oven_c: at(Field::Oven, degrees(&self.oven_c))?,
            of_fish: self.of_fish,
            begins: if self.at_once {
                Begins::AtOnce
            } else {
                Begins::Tap
            },
            links,
            ..step.clone()
        })
    }
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

fn text(typed: &str, longest: usize, asks: Option<NoEdit>) -> Result<String, NoEdit> {
    let typed = typed.trim();
    match asks {
        Some(asks) if typed.is_empty() => Err(asks),
        _ if typed.chars().count() > longest => Err(NoEdit::Long(longest)),
        _ => Ok(typed.to_owned()),
    }
}

fn secs_or_none(typed: &str) -> Result<Option<u32>, NoEdit> {
    match typed.trim() {
        "" => Ok(None),
        _ => secs(typed).map(Some),
    }
}

/// Degrees of an oven; nothing for an empty field.
fn degrees(typed: &str) -> Result<Option<u16>, NoEdit> {
    let typed = typed.trim();
    if typed.is_empty() {
        return Ok(None);
    }
    let degrees = typed.parse::<u16>().ok();
    let degrees = degrees.filter(|degrees| OVEN_C.contains(degrees));
    degrees.map(Some).ok_or(NoEdit::NoOven)
}

fn whole(typed: &str, most: u16) -> Result<u16, NoEdit> {
    let number = typed.trim().parse::<u16>().ok();
    number
        .filter(|number| *number <= most)
        .ok_or(NoEdit::NoWhole(most))
}

/// Whole seconds, or minutes and seconds with a colon between.
fn secs(typed: &str) -> Result<u32, NoEdit> {
    let typed = typed.trim();
    let wrong = || NoEdit::NoTime(typed.to_owned());
    let number = |text: &str| text.parse::<u32>().map_err(|_| wrong());
    let secs = match typed.split_once(':') {
        None => number(typed)?,
        Some((minutes, secs)) => number(secs)
            .ok()
            .filter(|secs| *secs < 60)
            .and_then(|secs| number(minutes).ok()?.checked_mul(60)?.checked_add(secs))
            .ok_or_else(wrong)?,
    };
    if secs > LONGEST_SECS {
        return Err(NoEdit::TooLong);
    }
    Ok(secs)
}
